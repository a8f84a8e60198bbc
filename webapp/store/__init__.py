"""The store: everything that is kept, behind nouns. SQL lives here and nowhere else.

The nouns are ``people``, ``sessions``, ``failures``, ``passkeys``, ``devices``, ``contacts``, ``sites``,
``units``, ``instruments``, ``procedures``, ``visits``, ``events``, ``photos``, ``records``, ``decisions``,
``quarantine``, ``listing``, ``news`` and ``audit``; their methods give frozen dataclasses.
``get(key)`` raises :class:`NotInStore`, ``find(key)`` gives None. Each method is one transaction;
``with store.transaction():`` makes several of them one.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from webapp.store import keeping
from webapp.store.audit import Audit, AuditEntry
from webapp.store.baselines import Baselines
from webapp.store.connection import Connection
from webapp.store.contacts import Contacts, Loss
from webapp.store.devices import Device, Devices
from webapp.store.errors import NotInStore, Refused, StoreError, Taken, Unavailable
from webapp.store.events import Events, NewEvent, StoredEvent
from webapp.store.listing import Listing
from webapp.store.lists import ListedDecision, ListedQuarantined, ListedRecord, ListedUnit, UnitState
from webapp.store.migrations import upgrade
from webapp.store.news import News
from webapp.store.passkeys import Confirmation, Passkey, Passkeys
from webapp.store.people import People, Person
from webapp.store.photos import Photo, Photos
from webapp.store.quarantine import Quarantine, Quarantined
from webapp.store.records import Decision, Decisions, Record, Records
from webapp.store.sessions import Failures, Sessions
from webapp.store.units import Instrument, Instruments, RetiredLabel, Site, Sites, Unit, Units
from webapp.store.visits import Procedures, Visit, Visits

__all__ = [
    "AuditEntry",
    "Confirmation",
    "Decision",
    "Device",
    "Instrument",
    "ListedDecision",
    "ListedQuarantined",
    "ListedRecord",
    "ListedUnit",
    "Loss",
    "NewEvent",
    "NotInStore",
    "Passkey",
    "Person",
    "Photo",
    "Quarantined",
    "Record",
    "Refused",
    "RetiredLabel",
    "Site",
    "Store",
    "StoreError",
    "StoredEvent",
    "Taken",
    "Unavailable",
    "Unit",
    "UnitState",
    "Visit",
]


class Store:
    """One database file and its folder of photos.

    ``clock`` gives the time as an aware datetime. Opening brings the schema up to date, and makes the lists
    anew when that changed anything.
    """

    def __init__(self, path: Path | str, clock: Callable[[], datetime], photos: Path | str | None = None):
        path = Path(path)
        self.clock = clock
        self.connection = Connection(path)
        self._open_accounts(clock)
        self._open_reference(clock)
        self._open_documents(clock, Path(photos) if photos else path.parent / "photos")
        self.baselines = Baselines(self.connection, self.records, self.procedures)
        self.listing = Listing(self.connection, self.records, self.quarantine, self.baselines)
        self.news = News(self.connection)
        self.audit = Audit(self.connection, clock)
        upgrade(self.connection, self.listing.rebuild)

    def _open_accounts(self, clock: Callable[[], datetime]) -> None:
        self.people = People(self.connection, clock)
        self.sessions = Sessions(self.connection, clock, self.people)
        self.failures = Failures(self.connection, clock)
        self.passkeys = Passkeys(self.connection, clock)
        self.devices = Devices(self.connection, clock)
        self.contacts = Contacts(self.connection, clock)

    def _open_reference(self, clock: Callable[[], datetime]) -> None:
        self.sites = Sites(self.connection, clock)
        self.units = Units(self.connection, clock)
        self.instruments = Instruments(self.connection, clock)
        self.procedures = Procedures(self.connection, clock)

    def _open_documents(self, clock: Callable[[], datetime], photos: Path) -> None:
        self.visits = Visits(self.connection, clock)
        self.events = Events(self.connection, clock)
        self.photos = Photos(self.connection, clock, photos)
        self.decisions = Decisions(self.connection, clock)
        self.records = Records(self.connection, clock, self.decisions)
        self.quarantine = Quarantine(self.connection, clock)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """What happens inside is stored as a whole or not at all; no other thread writes meanwhile."""
        with self.connection.write():
            yield

    @property
    def in_transaction(self) -> bool:
        """Whether one is open still: a database that breaks off takes all of it back by itself."""
        return self.connection.in_transaction

    def backup(self, target: Path) -> dict[str, int]:
        """Copy everything into the folder ``target``; see :func:`webapp.store.keeping.backup`."""
        return keeping.backup(self, target)

    def check(self) -> list[str]:
        """What is wrong, as sentences: database, hashes, photos, audit trail."""
        return keeping.check(self)

    def close(self) -> None:
        self.connection.close()
