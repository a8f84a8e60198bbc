"""What a power cut leaves: the write-ahead log cut off or damaged anywhere, or a checkpoint half done.

SQLite with synchronous FULL has flushed a commit before it is acknowledged, so that only what was being
written can be torn. Here the log is torn everywhere, also where a disk that keeps its word would never tear
it: then what comes after the damage is gone, and what is left must be exactly the commits before it.
"""

import hashlib
import random
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.phone import PROCEDURE, Phone
from webapp.receiving import receive_events, receive_record
from webapp.store import Store

COMMITS = 60
SECTOR = 512


def clock() -> datetime:
    return datetime(2026, 11, 25, 9, 30, tzinfo=UTC)


class Cut:
    """The files as they lie on the disk, and the size of the log after each acknowledged commit."""

    def __init__(self, folder: Path):
        self.store = Store(folder / "test.db", clock)
        self.store.close()  # the log is written back and empty: everything of before is in the database
        self.store = Store(folder / "test.db", clock)
        self.path = folder / "test.db"
        self.before = self.path.read_bytes()
        self.ends: list[int] = []
        self.expected: list[tuple] = [contents(self.store.connection.read().conn)]
        with self.store.connection.write() as db:
            db.execute("select 1")
        self.store.connection._writer.conn.execute("pragma wal_autocheckpoint = 0")
        self.work()
        self.log = log_of(self.path).read_bytes()

    def work(self) -> None:
        """Commits of every kind: people, visits, entries, photos, records."""
        person = self.store.people.add("ilse", "Ilse", "installer", "!")
        self.note()
        site = self.store.sites.add("Weir House", "3 Mill Lane", {})
        self.note()
        phone = Phone(self.store, person)
        self.note()
        self.store.procedures.keep(PROCEDURE)
        self.note()
        number = 0
        while len(self.ends) < COMMITS:
            unit = self.store.units.add(f"Unit {number}", f"FW-{number}", site.id, {})
            self.note()
            visit = phone.start(unit)
            self.note()
            entries = phone.entries(visit.id)
            assert len(receive_events(self.store, entries, person)["received"]) == len(entries)
            self.note()
            assert receive_record(self.store, phone.signed_record(visit, entries), person).state == "signed"
            self.note()
            number += 1

    def note(self) -> None:
        self.ends.append(log_of(self.path).stat().st_size)
        self.expected.append(contents(self.store.connection.read().conn))

    def whole_commits(self, damage: int) -> int:
        """How many commits end before the first damaged byte of the log."""
        return sum(end <= damage for end in self.ends)


def log_of(path: Path) -> Path:
    return path.with_name(path.name + "-wal")


TABLES = ("people", "sites", "units", "procedures", "visits", "events", "merged_events", "records", "audit")


def contents(connection: sqlite3.Connection) -> tuple:
    """Every row of the tables that are written to, as its number and one hash."""
    rows = [connection.execute(f"select * from {table} order by rowid").fetchall() for table in TABLES]
    rows = [[tuple(row) for row in table] for table in rows]
    return (*(len(table) for table in rows), hashlib.sha256(repr(rows).encode()).hexdigest())


@pytest.fixture(scope="module")
def cut(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Cut]:
    cut = Cut(tmp_path_factory.mktemp("cut"))
    yield cut
    cut.store.close()


@pytest.fixture
def folder() -> Iterator[Path]:
    """In memory where there is such a folder: the files are made by the test, nothing is to be flushed."""
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as name:
        yield Path(name)


def reopened(folder: Path, database: bytes, log: bytes) -> tuple:
    """What the database holds after the files were found like this; it must be sound."""
    path = folder / "found.db"
    path.with_name("found.db-shm").unlink(missing_ok=True)
    path.write_bytes(database)
    log_of(path).write_bytes(log)
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("pragma integrity_check").fetchall() == [("ok",)]
        assert connection.execute("pragma foreign_key_check").fetchall() == []
        return contents(connection)


def test_a_log_cut_off_anywhere_leaves_the_commits_before_the_cut(cut: Cut, folder: Path) -> None:
    places = random.Random(1)
    cuts = [*range(0, len(cut.log), SECTOR * 8), *cut.ends, *(end - 1 for end in cut.ends)]
    cuts += [places.randrange(len(cut.log)) for _ in range(60)]
    for at in cuts:
        assert reopened(folder, cut.before, cut.log[:at]) == cut.expected[cut.whole_commits(at)], at


def test_a_flipped_bit_takes_its_commit_and_those_after_it(cut: Cut, folder: Path) -> None:
    places = random.Random(2)
    for _ in range(250):
        at = places.randrange(len(cut.log))
        log = bytearray(cut.log)
        log[at] ^= 1 << places.randrange(8)
        assert reopened(folder, cut.before, bytes(log)) == cut.expected[cut.whole_commits(at)], at


def test_a_sector_that_was_never_written_takes_its_commit_and_those_after_it(cut: Cut, folder: Path) -> None:
    places = random.Random(3)
    for _ in range(200):
        at = places.randrange(0, len(cut.log) - SECTOR, SECTOR)
        log = bytearray(cut.log)
        log[at : at + SECTOR] = bytes(SECTOR)
        first = next((n for n in range(at, at + SECTOR) if cut.log[n]), None)  # zeros zeroed are no damage
        kept = COMMITS if first is None else cut.whole_commits(first)
        assert reopened(folder, cut.before, bytes(log)) == cut.expected[kept], at


def test_sectors_written_out_of_order_leave_the_commits_before_the_first_hole(cut: Cut, folder: Path) -> None:
    """A disk writes the sectors of the last commits in any order until it is flushed."""
    places = random.Random(4)
    for _ in range(60):
        done = places.choice(cut.ends[:-3])
        log = bytearray(cut.log[:done]) + bytearray(len(cut.log) - done)
        for at in range(done, len(cut.log), SECTOR):
            if places.random() < 0.8:
                log[at : at + SECTOR] = cut.log[at : at + SECTOR]
        damage = first_difference(bytes(log), cut.log)
        assert reopened(folder, cut.before, bytes(log)) == cut.expected[cut.whole_commits(damage)]


def first_difference(one: bytes, other: bytes) -> int:
    """By sectors first: byte by byte a log takes a while."""
    sectors = range(0, len(other), SECTOR)
    start = next((at for at in sectors if one[at : at + SECTOR] != other[at : at + SECTOR]), len(other))
    return next((at for at in range(start, len(other)) if one[at] != other[at]), len(other))


def test_a_checkpoint_cut_off_in_the_middle_loses_nothing(cut: Cut, folder: Path) -> None:
    """While the log is written back, pages of the database are old, new, or half of each; the log has all."""
    after = written_back(cut, folder)
    places = random.Random(5)
    for _ in range(60):
        size = places.randrange(len(cut.before), len(after) + 1, SECTOR)
        database = bytearray(cut.before.ljust(size, b"\0"))
        for at in range(0, size, SECTOR):
            if places.random() < 0.5:
                database[at : at + SECTOR] = after[at : at + SECTOR]
        assert reopened(folder, bytes(database), cut.log) == cut.expected[COMMITS]


def written_back(cut: Cut, folder: Path) -> bytes:
    path = folder / "after.db"
    path.write_bytes(cut.before)
    log_of(path).write_bytes(cut.log)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("pragma wal_checkpoint(truncate)")
    return path.read_bytes()


@pytest.mark.parametrize("share", [0.0, 0.35, 0.8, 1.0])
def test_the_store_opens_what_a_cut_left_and_finds_it_sound(cut: Cut, folder: Path, share: float) -> None:
    (folder / "test.db").write_bytes(cut.before)
    (folder / "test.db-wal").write_bytes(cut.log[: int(len(cut.log) * share)])
    store = Store(folder / "test.db", clock)
    assert store.check() == []
    store.audit.add("trial", person=None)  # and goes on from there
    assert store.check() == []
    store.close()
