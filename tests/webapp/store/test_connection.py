"""How the database is opened and written."""

import sqlite3
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from webapp.store.connection import Connection


@pytest.fixture
def connection(tmp_path: Path) -> Iterator[Connection]:
    connection = Connection(tmp_path / "new" / "test.db")
    with connection.write() as db:
        db.execute("create table things (name text)")
    yield connection
    connection.close()


def names(connection: Connection) -> list[str]:
    return [row["name"] for row in connection.read().query("select name from things")]


def insert_and_fail(connection: Connection, name: str) -> None:
    with connection.write() as db:
        db.table("things").insert({"name": name})
        _ = 1 / 0


@pytest.mark.parametrize(
    ("pragma", "value"),
    # 2 is FULL: after a power cut nothing acknowledged is missing (sqlite.org, PRAGMA synchronous).
    [("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1), ("recursive_triggers", 1)],
)
def test_every_connection_is_durable_and_strict(connection: Connection, pragma: str, value: object) -> None:
    with connection.write() as db:
        assert db.execute(f"pragma {pragma}").fetchone()[0] == value
    assert connection.read().execute(f"pragma {pragma}").fetchone()[0] == value


def test_an_exception_leaves_nothing_behind(connection: Connection) -> None:
    with pytest.raises(ZeroDivisionError):
        insert_and_fail(connection, "half")
    assert names(connection) == []


def test_a_nested_write_can_fail_alone(connection: Connection) -> None:
    with connection.write() as db:
        db.table("things").insert({"name": "outer"})
        with pytest.raises(ZeroDivisionError):
            insert_and_fail(connection, "inner")
    assert names(connection) == ["outer"]


def test_inside_a_write_one_reads_what_was_just_written_and_others_do_not(connection: Connection) -> None:
    seen: list[list[str]] = []
    with connection.write() as db:
        db.table("things").insert({"name": "new"})
        assert names(connection) == ["new"]
        other = threading.Thread(target=lambda: seen.append(names(connection)))
        other.start()
        other.join()
    assert seen == [[]]
    assert names(connection) == ["new"]


def test_a_reader_cannot_write(connection: Connection) -> None:
    with pytest.raises(sqlite3.OperationalError, match="readonly"):
        connection.read().execute("insert into things values ('stray')")


def test_threads_write_one_after_the_other(connection: Connection) -> None:
    def count_up() -> None:
        for _ in range(20):
            with connection.write() as db:
                number = db.execute("select count(*) from things").fetchone()[0]
                db.table("things").insert({"name": str(number)})

    threads = [threading.Thread(target=count_up) for _ in range(5)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(names(connection), key=int) == [str(number) for number in range(100)]


def test_the_copy_holds_what_is_committed(connection: Connection, tmp_path: Path) -> None:
    with connection.write() as db:
        db.table("things").insert({"name": "kept"})
    connection.vacuum_into(tmp_path / "copy.db")
    copy = sqlite3.connect(tmp_path / "copy.db")
    assert copy.execute("select name from things").fetchall() == [("kept",)]
    copy.close()
