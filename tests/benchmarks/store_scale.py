# ruff: noqa: E501 - statements of SQL stay on their lines
"""What the office's pages cost with many records: queue, unit, search, and the phones' work.

    python -m tests.benchmarks.store_scale [RECORDS] [ENTRIES]

Compares 1,000 records with 100,000 (or RECORDS) and 1,000,000 entries (or ENTRIES). The rows are written straight
into the tables, as many small records: one in five units has a record that waits, was returned or has conditions.
"""

import secrets
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from flask.testing import FlaskClient

from tests.benchmarks.stage import show
from tests.phone import PROCEDURE, Phone
from webapp import create_app, current
from webapp.settings import Settings
from webapp.store import Store

RECORDS_OF_A_UNIT = 10
WAITING = 40  # a queue does not grow with the years
CONDITIONAL = 100
REPEATS = 5


def fill(store: Store, records: int, entries: int) -> str:
    """The id of one unit; every record and entry is a copy of one, under ids of its own."""
    store.procedures.keep(PROCEDURE)
    site_ids = [store.sites.add(f"Site {number}", "", {}).id for number in range(max(1, records // 500))]
    people = [
        store.people.add(f"p{n}", f"Person {n}", "installer", "!") for n in range(max(3, records // 2000))
    ]
    phone = Phone(store, people[0])
    unit = store.units.add("First unit", "FW-FIRST", site_ids[0], {})
    visit = phone.start(unit)
    events = phone.entries(visit.id)
    text = phone.signed_record(visit, events)
    with store.connection.write() as db:
        connection = db.conn
        connection.execute("create temp table numbers (n integer primary key)")
        connection.executemany("insert into numbers values (?)", ((n,) for n in range(records)))
        fill_units(connection, site_ids, records)
        fill_records(connection, phone, [one.id for one in people], text, records)
        fill_events(connection, phone, records, entries)
        connection.execute("drop table numbers")
    fill_lists(store)
    return "u-7"


def fill_units(connection, sites: list[str], records: int) -> None:
    units = records // RECORDS_OF_A_UNIT
    rows = (
        (f"u-{n}", f"Unit {n}", f"FW-{n:06}", sites[n % len(sites)], f"T{n}", f"C{n}") for n in range(units)
    )
    connection.executemany(
        """insert into units (id, name, serial, site, plate, token, short_code)
        values (?, ?, ?, ?, '{}', ?, ?)""",
        rows,
    )


def fill_records(connection, phone: Phone, people: list[str], text: str, records: int) -> None:
    """Ten a unit, one a day; each but the newest few is accepted."""
    units = records // RECORDS_OF_A_UNIT
    connection.execute(
        f"""insert into visits select 'v-' || n, 'u-' || (n % {units}), 'commissioning', 'trial', 1,
        (select hash from procedures where id = 'trial'), '2026', ?, '2026' from numbers""",
        [people[0]],
    )
    connection.execute("create temp table crew (n integer primary key, id text)")
    connection.executemany("insert into crew values (?, ?)", enumerate(people))
    when = "strftime('%Y-%m-%dT%H:%M:%S.000Z', 1700000000 + n * 900, 'unixepoch')"
    connection.execute(
        f"""insert into records (sha256, visit, unit, jws, verdict, person, device, signed_at, received_at, notes)
        select printf('%064x', numbers.n), 'v-' || numbers.n, 'u-' || (numbers.n % {units}), ?, 'pass', crew.id,
        ?, {when.replace("n *", "numbers.n *")}, {when.replace("n *", "numbers.n *")}, '[]'
        from numbers join crew on crew.n = numbers.n % {len(people)}""",
        [text, phone.thumbprint],
    )
    connection.execute("drop table crew")
    word = f"case when n % {max(1, records // CONDITIONAL)} = 0 then 'accepted_with_conditions' else 'accepted' end"
    connection.execute(
        f"""insert into decisions (sha256, record, jws, decision, reasons, person, device, signed_at, received_at,
        next_service) select printf('d%063x', n), printf('%064x', n), ?, {word}, 'Trial.', ?, ?, {when}, {when},
        '2027-06-01' from numbers where n < {records - WAITING}""",
        [text, people[0], phone.thumbprint],
    )


def fill_events(connection, phone: Phone, records: int, entries: int) -> None:
    each = entries // records
    for number in range(each):
        connection.execute(
            """insert into events select 'e-' || n || '-' || ?, 'v-' || n, ?, ?, 'test.pressure', ?, ?, 0, '2026'
            from numbers""",
            [number, phone.person.id, phone.thumbprint, secrets.token_hex(200), secrets.token_hex(32)],
        )
        connection.execute(
            "insert into merged_events select 'v-' || n, ?, 'e-' || n || '-' || ? from numbers",
            [number + 1, number],
        )


def fill_lists(store: Store) -> None:
    """What `Listing.rebuild` makes, in bulk."""
    with store.connection.write() as db:
        db.execute(
            """insert into record_states select r.sha256, visit, unit, r.person, verdict, r.signed_at, r.received_at,
            0, coalesce(decision, 'signed') from records r left join decisions d on d.record = r.sha256"""
        )
        db.execute(
            """insert into visit_states select visit, case state when 'signed' then 'signed' else 'accepted' end,
            record, null from record_states"""
        )
        db.execute(
            """insert into unit_states (unit, state, record, accepted_on, next_service, conditions)
            select unit, state, record, '2026-11-25', '2027-06-01', '["Trial."]' from record_states
            where state <> 'signed' group by unit having max(received_at)"""
        )
        db.execute("analyze")


def times(client: FlaskClient, path: str) -> tuple[float, int]:
    """Milliseconds of a request in the median, and the bytes of the answer."""
    found = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        answer = client.get(path)
        found.append((time.perf_counter() - start) * 1000)
        assert answer.status_code == 200, (path, answer.status_code)
    return median(found), len(answer.data)


def measured(records: int, entries: int) -> dict[str, tuple[float, int]]:
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(Settings.for_tests(Path(folder)))
        store = app.extensions[current.NAME].store
        start = time.perf_counter()
        unit = fill(store, records, entries)
        size = store.connection.path.stat().st_size / 1e6
        print(f"{records} records, {entries} entries in {time.perf_counter() - start:.0f} s; {size:.0f} MB")
        found = {name: times(client(app, store, role), path.format(unit=unit)) for name, role, path in PAGES}
        store.close()
        return found


PAGES = (
    ("queue", "supervisor", "/office/"),
    ("unit", "supervisor", "/units/{unit}"),
    ("records, newest", "supervisor", "/office/records"),
    ("search, one unit", "supervisor", "/office/records?q=FW-000042"),
    ("search, one person", "supervisor", "/office/records?q=Person+2"),
    ("search, one site", "supervisor", "/office/records?q=Site+1"),
    ("search, every unit", "supervisor", "/office/records?q=Unit"),
    ("search, nothing", "supervisor", "/office/records?q=nowhere"),
    ("a phone's work", "installer", "/api/work"),
)


def client(app, store: Store, role: str) -> FlaskClient:
    token = secrets.token_urlsafe()
    found = store.people.by_login(role) or store.people.add(role, role.title(), role, "!")
    store.sessions.start(current.session_key(token), found.id)
    made = app.test_client()
    with made.session_transaction() as session:
        session[current.SESSION_TOKEN] = token
    return made


def main(records: int, entries: int) -> None:
    small, large = measured(1000, 10_000), measured(records, entries)
    rows = [
        {
            "page": name,
            "ms at 1,000": small[name][0],
            f"ms at {records:,}": large[name][0],
            "times": large[name][0] / small[name][0],
            "kB": large[name][1] / 1000,
        }
        for name in small
    ]
    show(f"At the server, the median of {REPEATS}", rows)


if __name__ == "__main__":
    main(*(int(one) for one in (*sys.argv[1:], "100000", "1000000")[:2]))
