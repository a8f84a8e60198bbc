"""How the database is opened: one writer, a reader per thread, durable when committed."""

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlite_utils import Database

from webapp.store.errors import Unavailable

WAIT_FOR_ANOTHER_PROCESS = 10_000  # milliseconds

PAGES_OF_LOG = 8000
"""Pages (32 MB) of the write-ahead log before they are copied into the database.

With SQLite's thousand, two hundred records that come in would wait for a copy several times; the pages that
all of them change are copied once for all.
"""

PRAGMAS = (
    "journal_mode = WAL",
    "synchronous = FULL",  # not kept in the file: each connection has to say it
    f"wal_autocheckpoint = {PAGES_OF_LOG}",
    "foreign_keys = ON",  # off by default in SQLite, and per connection
    f"busy_timeout = {WAIT_FOR_ANOTHER_PROCESS}",
    "trusted_schema = OFF",
)


@contextmanager
def named_failures() -> Iterator[None]:
    """A disk or a database that cannot be used just now becomes :class:`Unavailable`."""
    try:
        yield
    except (sqlite3.OperationalError, OSError) as error:
        unavailable = Unavailable.by(error)
        if unavailable is None:
            raise
        raise unavailable from error


class Connection:
    """The connections of one process to one database file.

    All writing goes through one connection, one thread at a time; each thread reads through its own.
    """

    def __init__(self, path: Path):
        path.parent.mkdir(parents=True, exist_ok=True)
        self.path = path
        self._opened: list[sqlite3.Connection] = []
        self._lock = threading.RLock()
        self._local = threading.local()
        self._writer = self._open()

    def _open(self) -> Database:
        # Without implicit transactions: the only BEGIN is the one in `write`. Database() also switches
        # recursive triggers on, without which INSERT OR REPLACE would slip past the append-only triggers.
        connection = sqlite3.connect(self.path, isolation_level=None, check_same_thread=False)
        self._opened.append(connection)
        database = Database(connection, execute_plugins=False)
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
        return database

    @property
    def in_transaction(self) -> bool:
        return self._writer.conn.in_transaction

    @contextmanager
    def write(self) -> Iterator[Database]:
        """One transaction, rolled back by an exception; a nested use is a savepoint in it.

        :class:`Unavailable` when the disk is full or another program holds the database.
        """
        with self._lock:
            inside = self._savepoint if self.in_transaction else self._transaction
            with named_failures(), inside():
                yield self._writer

    @contextmanager
    def join(self) -> Iterator[Database]:
        """As :meth:`write`, without a savepoint inside a transaction: a failure ends what is around it."""
        with self._lock:
            if self.in_transaction:
                yield self._writer
            else:
                with self.write() as db:
                    yield db

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        # A deferred BEGIN would take the lock at the first write, and fail there instead of waiting here.
        self._writer.execute("BEGIN IMMEDIATE")
        self._local.writing = True
        try:
            yield
            self._writer.execute("COMMIT")
        except BaseException:  # a full disk at COMMIT, too: leave no transaction open behind
            self._writer.rollback()
            raise
        finally:
            self._local.writing = False

    @contextmanager
    def _savepoint(self) -> Iterator[None]:
        # One name for all: SQLite means the innermost of that name.
        self._writer.conn.execute("SAVEPOINT inner")
        try:
            yield
        except BaseException:
            if self._writer.conn.in_transaction:  # a full disk takes the whole transaction back by itself
                self._writer.conn.execute("ROLLBACK TO inner")
                self._writer.conn.execute("RELEASE inner")
            raise
        self._writer.conn.execute("RELEASE inner")

    def read(self) -> Database:
        """The reader of this thread; inside ``write`` the writer, which sees what was just written."""
        if getattr(self._local, "writing", False):
            return self._writer
        if not hasattr(self._local, "reader"):
            self._local.reader = self._open()
            self._local.reader.execute("PRAGMA query_only = ON")
        return self._local.reader

    def vacuum_into(self, target: Path) -> None:
        """Write a consistent copy while others go on; ``target`` must not exist."""
        with closing(sqlite3.connect(self.path)) as connection:  # a reader is kept from writing anywhere
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("VACUUM INTO ?", [str(target)])

    def close(self) -> None:
        with self._lock:
            for connection in self._opened:
                connection.close()
            self._opened.clear()
