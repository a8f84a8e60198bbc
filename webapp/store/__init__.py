"""The store: everything that is kept, behind nouns. SQL lives here and nowhere else.

``store.people``, ``.sessions``, ``.failures``, ``.devices``, ``.sites``, ``.units``, ``.instruments``,
``.procedures``, ``.visits``, ``.events``, ``.photos``, ``.records``, ``.quarantine``, ``.listing`` and ``.audit``
give frozen dataclasses.
``get(key)`` raises :class:`NotInStore`, ``find(key)`` gives None. Each method is one transaction;
``with store.transaction():`` makes several of them one.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from webapp.store.connection import Connection
from webapp.store.errors import NotInStore, Refused, StoreError, Taken
from webapp.store.migrations import MIGRATIONS
from webapp.store.people import People, Person
from webapp.store.sessions import Failures, Sessions
from webapp.store.units import Instrument, Instruments, Site, Sites, Unit, Units

__all__ = [
    "Instrument",
    "NotInStore",
    "Person",
    "Refused",
    "Site",
    "Store",
    "StoreError",
    "Taken",
    "Unit",
]


class Store:
    """One database file and its folder of photos.

    ``clock`` gives the time as an aware datetime. Opening brings the schema up to date.
    """

    def __init__(self, path: Path | str, clock: Callable[[], datetime], photos: Path | str | None = None):
        path = Path(path)
        self.clock = clock
        self.connection = Connection(path)
        with self.connection.write() as db:
            MIGRATIONS.apply(db)
        self.people = People(self.connection, clock)
        self.sessions = Sessions(self.connection, clock, self.people)
        self.failures = Failures(self.connection, clock)
        self.sites = Sites(self.connection, clock)
        self.units = Units(self.connection, clock)
        self.instruments = Instruments(self.connection, clock)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """What happens inside is stored as a whole or not at all; no other thread writes meanwhile."""
        with self.connection.write():
            yield

    def close(self) -> None:
        self.connection.close()
