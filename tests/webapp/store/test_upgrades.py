"""A store of every earlier version becomes one of the present, with every row as it was."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from tests.phone import Phone
from webapp.commands.documents import from_store
from webapp.commands.verdicts import verify_all
from webapp.receiving import receive_decision, receive_record
from webapp.store import Store, Unit
from webapp.store.listing import STATE_TABLES
from webapp.store.migrations import MIGRATIONS

NAMES = [step.name for step in MIGRATIONS._migrations]
PHOTO = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # of no bytes


@pytest.fixture
def full(store: Store, phone: Phone, desk: Phone, unit: Unit) -> Store:
    """Something in every table: accepted, returned, waiting, quarantined, late, retired."""
    store.photos.keep(PHOTO, b"", phone.person.id)
    visit = phone.start(unit)
    picture = phone.event(visit.id, "test.picture", {"sha256": PHOTO, "type": "image/jpeg", "size": 0})
    text = phone.signed_record(visit, [picture, *phone.entries(visit.id)])
    first = receive_record(store, text, phone.person)
    receive_record(store, phone.signed_record(visit, previous="0" * 64), phone.person)
    store.quarantine.note_seen(store.quarantine.waiting()[0].id, desk.person.id, "Looked into it.")
    store.events.keep(phone.reading(visit.id), late=True)
    receive_decision(store, desk.signed_decision(first.sha256), desk.person, 12)
    other = store.units.add("Second unit", "FW-0002", unit.site, {"maximum_pressure": {"value": 6}})
    waiting = receive_record(store, phone.signed_record(phone.start(other)), phone.person)
    receive_decision(store, desk.signed_decision(waiting.sha256, "returned", "Not clear."), desk.person, 12)
    store.sessions.start("key", phone.person.id)
    store.failures.add("address")
    store.instruments.add(
        kind="gauge", name="G", serial="1", calibration_due=None, unit="bar", range_minimum=0, range_maximum=6
    )
    return store


def rows(path: Path) -> dict[str, tuple[list[str], list[tuple]]]:
    """Columns and rows of every table but those that are derived."""
    with closing(sqlite3.connect(path)) as connection:
        sql = "select name from sqlite_master where type = 'table' and name not like '\\_%' escape '\\'"
        tables = {row[0] for row in connection.execute(sql)} - {*STATE_TABLES, "baselines"}
        found = {table: connection.execute(f"select * from {table} order by rowid") for table in tables}
        return {table: ([one[0] for one in got.description], got.fetchall()) for table, got in found.items()}


def store_of_before(step: str, path: Path, content: dict[str, tuple[list[str], list[tuple]]]) -> None:
    """The same things in a database as the program before ``step`` would have left it."""
    with closing(sqlite3.connect(path)) as connection:
        db = Database(connection)
        MIGRATIONS.apply(db, stop_before=step)
        for table in sorted(set(db.table_names()) & content.keys(), key=list(content).index):
            columns, lines = content[table]
            known = {column.name for column in db.table(table).columns}
            kept = [name for name in columns if name in known]
            marks = ", ".join("?" * len(kept))
            names = ", ".join(f'"{name}"' for name in kept)
            chosen = [[line[columns.index(name)] for name in kept] for line in lines]
            connection.executemany(f"insert into {table} ({names}) values ({marks})", chosen)
        connection.commit()


@pytest.fixture
def upgraded(request: pytest.FixtureRequest, full: Store, tmp_path: Path, clock) -> Iterator[tuple]:
    """What was written before the step, and the store after opening."""
    content = rows(full.connection.path)
    path = tmp_path / "old" / "test.db"
    path.parent.mkdir()
    store_of_before(request.param, path, content)
    before = rows(path)
    store = Store(path, clock, full.photos.folder)
    yield before, store
    store.close()


@pytest.mark.parametrize("upgraded", NAMES[1:], indirect=True)
def test_an_upgrade_keeps_every_row_as_it_was(upgraded: tuple) -> None:
    before, store = upgraded
    after = rows(store.connection.path)
    assert before
    for table, (columns, lines) in before.items():
        kept, found = after[table]
        places = [kept.index(name) for name in columns]
        assert [tuple(line[place] for place in places) for line in found] == lines, table
    assert store.check() == []
    assert [finding for one in verify_all(from_store(store)) for finding in one.findings] == []


def test_an_upgrade_makes_the_lists_of_before_anew(full: Store, tmp_path: Path, clock) -> None:
    """Before the sixth step there were no lists; they are those of the store that never was without."""
    path = tmp_path / "old.db"
    store_of_before("m0006_listing", path, rows(full.connection.path))
    with closing(Store(path, clock, full.photos.folder)) as store:
        assert store.listing.search() == full.listing.search()
        assert store.listing.unit_states() == full.listing.unit_states()
        assert store.visits.all() == full.visits.all()


def test_something_stands_in_every_table_of_the_sample(full: Store) -> None:
    empty = {table for table, (_, lines) in rows(full.connection.path).items() if not lines}
    assert empty <= {"passkeys", "confirmations", "used_challenges", "retired_labels", "phone_contacts"}
