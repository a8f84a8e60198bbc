"""A store of every earlier version becomes one of the present, with every row as it was."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest
from sqlite_utils import Database

from webapp.commands.documents import from_store
from webapp.commands.verdicts import verify_all
from webapp.store import Store
from webapp.store.listing import STATE_TABLES
from webapp.store.migrations import MIGRATIONS

NEWS = {"work_version", "news_numbers", "unit_news", "visit_news", "sqlite_sequence"}
DERIVED = {*STATE_TABLES, *NEWS, "baselines"}
NAMES = [step.name for step in MIGRATIONS._migrations]


def rows(path: Path) -> dict[str, tuple[list[str], list[tuple]]]:
    """Columns and rows of every table but those that are derived."""
    with closing(sqlite3.connect(path)) as connection:
        sql = "select name from sqlite_master where type = 'table' and name not like '\\_%' escape '\\'"
        tables = {row[0] for row in connection.execute(sql)} - DERIVED
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


@pytest.mark.parametrize(
    "step",
    [
        "m0006_listing",
        "m0012_lists_by_index",
        "m0014_lists_that_do_not_grow",
        "m0015_entries_under_way",
        "m0016_news_by_number",
        "m0017_less_for_each_arrival",
    ],
)
def test_an_upgrade_makes_the_lists_of_before_anew(full: Store, tmp_path: Path, clock, step: str) -> None:
    """Before the sixth step there were none; they are those of the store that never was without."""
    path = tmp_path / "old.db"
    store_of_before(step, path, rows(full.connection.path))
    with closing(Store(path, clock, full.photos.folder)) as store:
        assert derived(store) == derived(full)
        assert store.listing.search("basement") == full.listing.search("basement") != []
        assert store.visits.all() == full.visits.all()
        told = {row["id"] for row in store.news.units_between(0, store.news.newest().number, 1000)}
        assert told == {one.id for one in full.units.all()}
        lately = store.clock() - timedelta(days=90)
        assert store.visits.changed_after(0, lately) == store.visits.open_or_finished_since(lately) != []


def derived(store: Store) -> dict[str, list[str]]:
    read = store.connection.read()
    return {table: sorted(map(str, read.query(f"select * from {table}"))) for table in STATE_TABLES}


def test_something_stands_in_every_table_of_the_sample(full: Store) -> None:
    empty = {table for table, (_, lines) in rows(full.connection.path).items() if not lines}
    assert empty <= {"passkeys", "confirmations", "used_challenges", "retired_labels", "phone_contacts"}
