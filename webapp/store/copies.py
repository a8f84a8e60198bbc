"""A copy of the store that is only looked at: opened read-only, never upgraded, nothing written beside it."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from sqlite_utils import Database

from webapp.store.audit import Audit
from webapp.store.connection import Connection
from webapp.store.devices import Devices
from webapp.store.errors import StoreError
from webapp.store.events import Events
from webapp.store.keeping import DATABASE, changed_entries, check_database
from webapp.store.passkeys import Confirmation, Passkeys
from webapp.store.photos import Photos
from webapp.store.records import Decisions, Records
from webapp.store.visits import Procedures


class Unreadable(StoreError):  # noqa: N818
    """What should be a copy is none, or is so damaged that it cannot be gone through."""


class ReadOnly(Connection):
    """One reader of a file that must not change; ``write`` is refused."""

    def __init__(self, path: Path):
        self.path = path
        self.raw = sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)
        self.raw.execute("PRAGMA trusted_schema = OFF")
        self.raw.execute("PRAGMA query_only = ON")
        self._database = Database(self.raw, execute_plugins=False)

    def read(self) -> Database:
        return self._database

    @contextmanager
    def write(self) -> Iterator[Database]:
        raise Unreadable(f"{self.path} is only looked at; nothing is written to it.")
        yield  # a context manager has to be a generator

    def close(self) -> None:
        self.raw.close()


class Copy:
    """The documents of a copy under the same nouns as in :class:`webapp.store.Store`."""

    def __init__(self, database: Path):
        self.connection = connection = ReadOnly(database)
        self.devices = Devices(connection, now)
        self.procedures = Procedures(connection, now)
        self.events = Events(connection, now)
        self.photos = Photos(connection, now, database.parent / "photos")
        self.decisions = Decisions(connection, now)
        self.records = Records(connection, now, self.decisions)
        self.passkeys = Passkeys(connection, now)
        self.audit = Audit(connection, now)

    def problems(self) -> list[str]:
        """What is wrong with the database itself and with the entries in it."""
        return check_database(self.connection.raw) or changed_entries(self.events)

    def confirmations(self) -> list[Confirmation]:
        """None in a copy that is older than passkeys."""
        is_known = "confirmations" in self.connection.read().table_names()
        return self.passkeys.confirmations() if is_known else []

    def photo(self, sha256: str) -> bytes | None:
        """The bytes beside the database, as they are; also after closing."""
        path = self.photos.path(sha256)
        return path.read_bytes() if path.is_file() else None

    def photos_to_come(self) -> set[str]:
        """Photos that records name and that had not arrived when the copy was made."""
        sql = "select photo from record_photos where photo not in (select sha256 from photos)"
        return {row["photo"] for row in self.connection.read().query(sql)}


def now() -> datetime:
    return datetime.now(UTC)


@contextmanager
def opened_copy(path: Path) -> Iterator[Copy]:
    """``path`` is a folder made by ``backup``, or a database file; :class:`Unreadable` when it is no copy."""
    database = path / DATABASE if path.is_dir() else path
    if not database.is_file():
        raise Unreadable(f"{path} holds no {DATABASE}, so it is no copy made by firstwater backup.")
    try:
        copy = Copy(database)
        try:
            yield copy
        finally:
            copy.connection.close()
    except (sqlite3.Error, OSError, ValueError, KeyError, TypeError) as error:  # rows that are none of ours
        raise Unreadable(f"{database} cannot be read ({error}).") from error
