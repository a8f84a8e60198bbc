# ruff: noqa: E501 - statements of SQL stay on their lines
"""What pages cost with many records: the office's lists and searches, units, the trail, and the phones' work.

    python -m tests.benchmarks.store_scale [RECORDS ...]
    RETURNED=40 python -m tests.benchmarks.store_scale     # one record in forty returned, its visit still open

Compares 1,000, 20,000 and 100,000 records (or RECORDS), each with ten entries. The documents are rows copied under ids
of their own; the lists are what the store makes of them. A filled store stays in the folder of temporary files for
the next run with the same schema. Times are those of the server, wall clock and processor: on a busy machine the
processor's say more.
"""

import hashlib
import os
import secrets
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path
from statistics import median

from flask.testing import FlaskClient

from tests.benchmarks.stage import show
from tests.phone import PROCEDURE, Phone
from webapp import create_app, current
from webapp.demo import seed
from webapp.settings import Settings
from webapp.store import Store
from webapp.store.migrations import MIGRATIONS
from webapp.store.words import refresh_words

RECORDS_OF_A_UNIT = 10
ENTRIES_OF_A_RECORD = 10
WAITING = 40  # a queue does not grow with the years
CONDITIONAL = 100
RETURNED = 50  # and so is what was returned and is worked on, unless it is a share of all
SHARE_RETURNED = int(os.environ.get("RETURNED", "0"))
PENDING = 60  # of them, the newest, with the demonstration's record that waits for a result
UNSEEN = 20
REPEATS = 9
WHEN = "strftime('%Y-%m-%dT%H:%M:%S.000Z', 1700000000 + numbers.n * 900, 'unixepoch')"


def fill(store: Store, records: int) -> None:
    """Every record and entry is a copy of one, under ids of its own."""
    seed(store, current.utc_now)
    pending = store.records.get(store.listing.queue()[0].sha256).jws
    store.procedures.keep(PROCEDURE)
    sites = [store.sites.add(f"Site {number}", "", {}).id for number in range(max(1, records // 500))]
    people = [
        store.people.add(f"p{n}", f"Person {n}", "installer", "!").id for n in range(max(3, records // 2000))
    ]
    phone = Phone(store, store.people.get(people[0]))
    visit = phone.start(store.units.add("First unit", "FW-FIRST", sites[0], {}))
    text = phone.signed_record(visit, phone.entries(visit.id))
    with store.connection.write() as db:
        connection = db.conn
        connection.execute("create temp table numbers (n integer primary key)")
        connection.executemany("insert into numbers values (?)", ((n,) for n in range(records)))
        fill_units(connection, sites, records)
        fill_records(connection, phone, people, text, pending, records)
        fill_events(connection, phone)
        fill_quarantine(connection, people, text, records)
        connection.execute("drop table numbers")
    fill_lists(store, records)


def fill_lists(store: Store, records: int) -> None:
    """What `Listing.rebuild` makes, in bulk; the rows of the newest are the store's own."""
    with store.connection.write() as db:
        db.execute("delete from visit_states where visit like 'v-%'")  # the drafts that they began as
        db.execute(
            f"""insert into record_states (record, visit, unit, person, verdict, signed_at, received_at, state)
            select r.sha256, visit, unit, r.person, verdict, r.signed_at, r.received_at, coalesce(decision, 'signed')
            from records r left join decisions d on d.record = r.sha256
            where visit like 'v-%' and r.sha256 < printf('%064x', {records - PENDING})"""
        )
        db.execute(
            """insert into visit_states select visit, case s.state when 'signed' then 'signed' when 'returned' then 'returned'
            else 'accepted' end, s.record, case s.state when 'returned' then '{"reasons": "", "by": "", "at": ""}' end,
            case when s.state like 'accepted%' then s.received_at end from record_states s where visit like 'v-%'"""
        )
        db.execute(
            """insert into unit_states (unit, state, record, accepted_on, next_service, conditions, baseline)
            select s.unit, s.state, s.record, '2026-11-25', d.next_service, '["Trial."]',
            json_object('record', s.record, 'values', json('{"pressure": {"value": 6.5, "unit": "bar"}}'))
            from record_states s join decisions d on d.record = s.record
            where s.state like 'accepted%' and s.visit like 'v-%' group by s.unit having max(s.received_at)"""
        )
        refresh_words(db)
        store.quarantine.refresh_states()
        for n in range(records - PENDING, records):
            store.listing.refresh(f"v-{n}", f"u-{n % (records // RECORDS_OF_A_UNIT)}")
        db.execute("analyze")


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


def fill_records(connection, phone: Phone, people: list[str], text: str, pending: str, records: int) -> None:
    """Ten a unit, one each quarter of an hour; each but the newest few is decided."""
    units = records // RECORDS_OF_A_UNIT
    connection.execute(
        f"""insert into visits select 'v-' || n, 'u-' || (n % {units}), 'commissioning', 'trial', 1,
        (select hash from procedures where id = 'trial'), '2026', ?, '2026' from numbers""",
        [people[0]],
    )
    connection.execute("create temp table crew (n integer primary key, id text)")
    connection.executemany("insert into crew values (?, ?)", enumerate(people))
    connection.execute(
        f"""insert into records (sha256, visit, unit, jws, verdict, person, device, signed_at, received_at, notes)
        select printf('%064x', numbers.n), 'v-' || numbers.n, 'u-' || (numbers.n % {units}),
        case when numbers.n >= {records - PENDING} then ? else ? end, 'conditional_pass', crew.id, ?, {WHEN}, {WHEN}, '[]'
        from numbers join crew on crew.n = numbers.n % {len(people)}""",
        [pending, text, phone.thumbprint],
    )
    connection.execute("drop table crew")
    returned = SHARE_RETURNED or max(8, records // RETURNED)
    conditional = f"n >= {records - PENDING} or n % {max(1, records // CONDITIONAL)} = 0"
    connection.execute(
        f"""insert into decisions (sha256, record, jws, decision, reasons, person, device, signed_at, received_at,
        next_service) select printf('d%063x', n), printf('%064x', n), ?,
        case when {conditional} then 'accepted_with_conditions' when n % {returned} = 7 then 'returned' else 'accepted' end,
        'Trial.', ?, ?, {WHEN}, {WHEN}, date('2026-06-01', (n % 400) || ' days')
        from numbers where n < {records - WAITING}""",
        [text, people[0], phone.thumbprint],
    )


def fill_events(connection, phone: Phone) -> None:
    for number in range(ENTRIES_OF_A_RECORD):
        connection.execute(
            """insert into events select 'e-' || n || '-' || ?, 'v-' || n, ?, ?, 'test.pressure', ?, ?, 0, '2026'
            from numbers""",
            [number, phone.person.id, phone.thumbprint, '{"content":{"value":"%s"}}' % ("a" * 400), "0" * 64],
        )
        connection.execute(
            "insert into merged_events select 'v-' || n, ?, 'e-' || n || '-' || ? from numbers",
            [number + 1, number],
        )


def fill_quarantine(connection, people: list[str], text: str, records: int) -> None:
    """One in ten; and the trail, two lines a record, whose chain is of no matter here."""
    connection.execute(
        f"""insert into quarantine (kind, sha256, document, visit, unit, person, reasons, received_at)
        select 'record', printf('q%063x', n), ?, 'v-' || n, 'u-' || (n % {records // RECORDS_OF_A_UNIT}), ?,
        '[{{"code": "trial", "detail": "For the trial.", "field": null}}]', {WHEN} from numbers where n % 10 = 0""",
        [text, people[1]],
    )
    connection.execute(
        "insert into quarantine_seen select id, ?, 'Seen.', '2026' from quarantine order by id limit "
        f"(select count(*) - {UNSEEN} from quarantine)",
        [people[2]],
    )
    for step in (1, 2):
        connection.execute(
            f"""insert into audit select 1000000 + 2 * n + {step}, {WHEN}, ?, 'record_received', printf('%064x', n), '{{}}',
            '', printf('t{step}%062x', n) from numbers""",
            [people[0]],
        )


PAGES = (
    ("queue", "supervisor", "/office/"),
    ("unit", "supervisor", "/units/u-7"),
    ("unit, all records decided", "supervisor", "/units/u-42"),
    ("a record", "supervisor", "/office/records/{record}"),
    ("records, newest", "supervisor", "/office/records"),
    ("search, one unit", "supervisor", "/office/records?q=FW-000042"),
    ("search, one person", "supervisor", "/office/records?q=Person+2"),
    ("search, one site", "supervisor", "/office/records?q=Site+1"),
    ("search, every unit", "supervisor", "/office/records?q=Unit"),
    ("search, nothing", "supervisor", "/office/records?q=nowhere"),
    ("search, returned", "supervisor", "/office/records?state=returned"),
    ("search, old days", "supervisor", "/office/records?until=2023-11-20"),
    ("units", "supervisor", "/units"),
    ("units, search", "supervisor", "/units?q=unit+site"),
    ("units, one", "supervisor", "/units?q=fw-000042"),
    ("quarantine", "supervisor", "/office/quarantine"),
    ("quarantine, search", "supervisor", "/office/quarantine?q=FW-000010"),
    ("trail", "supervisor", "/trail"),
    ("devices", "administrator", "/devices"),
    ("sites", "supervisor", "/units/sites"),
    ("a phone's work", "installer", "/api/work"),
    ("its first answer", "installer", "/api/work?have={have}&since="),
    ("the next thousand units", "installer", "/api/units?since="),
    ("what changed since", "installer", "/api/work?have={have}&since={cursor}"),
    ("the same, unchanged", "installer", "/api/work"),
)


def times(client: FlaskClient, name: str, path: str) -> tuple[float, float, int]:
    """Milliseconds of a request in the median, by the wall and by the processor, and the bytes of the answer."""
    found, unchanged = [], "unchanged" in name
    headers = {"If-None-Match": client.get(path).headers["ETag"]} if unchanged else {}
    for _ in range(3 if name == "a phone's work" else REPEATS):
        start, busy = time.perf_counter(), time.process_time()
        answer = client.get(path, headers=headers)
        found.append(((time.perf_counter() - start) * 1000, (time.process_time() - busy) * 1000))
        assert answer.status_code == (304 if unchanged else 200), (path, answer.status_code)
    return median(one[0] for one in found), median(one[1] for one in found), len(answer.data)


def folder_of(records: int) -> Path:
    """Where a store of this size stays: another schema, or another way to fill it, has another folder."""
    known = "".join(step.name for step in MIGRATIONS._migrations) + Path(__file__).read_text(encoding="utf-8")
    name = hashlib.sha256(f"{known}{SHARE_RETURNED}".encode()).hexdigest()[:12]
    return Path(tempfile.gettempdir()) / "firstwater-store-scale" / f"{records}-{name}"


def prepared(records: int) -> Path:
    folder = folder_of(records)
    if not folder.exists():
        folder.parent.mkdir(exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent) as making:
            start = time.perf_counter()
            store = create_app(Settings.for_tests(Path(making))).extensions[current.NAME].store
            fill(store, records)
            store.close()
            Path(making).rename(folder)
            Path(making).mkdir()
        print(f"{records} records were put into {folder} in {time.perf_counter() - start:.0f} s")
    return folder


def measured(records: int) -> dict[str, tuple[float, float, int]]:
    app = create_app(Settings.for_tests(prepared(records)))
    store = app.extensions[current.NAME].store
    # The record of the demonstration, because the copies' documents name another one than they are.
    own = "select sha256 from records where sha256 not like '0000%' order by sequence desc limit 1"
    newest = store.news.newest()
    names = {
        "record": next(store.connection.read().query(own))["sha256"],
        "cursor": replace(newest, units=newest.number - 1, visits=newest.number - 1),
    }
    have = ",".join(one.hash for one in store.procedures.all())
    found = {
        name: times(client(app, store, role), name, path.format(**names, have=have))
        for name, role, path in PAGES
    }
    store.close()
    return found


def client(app, store: Store, role: str) -> FlaskClient:
    token = secrets.token_urlsafe()
    found = store.people.by_login(role) or store.people.add(role, role.title(), role, "!")
    store.sessions.start(current.session_key(token), found.id)
    made = app.test_client()
    with made.session_transaction() as session:
        session[current.SESSION_TOKEN] = token
    return made


def main(*sizes: int) -> None:
    found = {size: measured(size) for size in sizes}
    first, last = sizes[0], sizes[-1]
    rows = [
        {
            "page": name,
            **{f"ms at {size:,}": found[size][name][0] for size in sizes},
            **{f"CPU ms at {size:,}": found[size][name][1] for size in (first, last)},
            "times": found[last][name][1] / found[first][name][1],
            "kB": found[last][name][2] / 1000,
        }
        for name, _, _ in PAGES
    ]
    show(f"At the server, the median of {REPEATS}", rows)


if __name__ == "__main__":
    main(*([int(one) for one in sys.argv[1:]] or [1000, 20_000, 100_000]))
