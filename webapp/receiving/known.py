"""What the store knows of the things that documents name: each is looked up once."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from webapp.store import Device, NewEvent, Person, Record, Site, Store, Unit, Visit

Thing = TypeVar("Thing")


class Known:
    """For the documents of one request, within one transaction: nobody else writes meanwhile.

    ``hashes`` are those of the events that the store has, by id; who keeps more of them adds theirs.
    Who keeps or quarantines a record says so (:meth:`kept`, :meth:`changed`), because its visit changes.
    """

    def __init__(self, store: Store, events: Iterable[str] = ()):
        self.store = store
        self.hashes: dict[str, str] = {}
        self._asked: set[str] = set()
        self._found: dict[tuple[str, str], Any] = {}
        self.look_up(events)

    def look_up(self, events: Iterable[str]) -> None:
        """Learn the hashes of these events."""
        wanted = set(events) - self._asked
        if wanted:
            self._asked |= wanted
            self.hashes |= self.store.events.hashes(wanted)

    def look_up_records(self, records: Mapping[str, Mapping[str, Any]]) -> None:
        """Learn what is asked for each of these records, by identity, with one question for all of them."""
        store, contents = self.store, records.values()
        self.look_up(event for content in contents for event in ids_of(content["events"]))
        self._learn("record", records, store.records.find_all)
        self._learn("visit", {content["visit"] for content in contents}, store.visits.find_all)
        self._learn("unit", {content["unit"]["id"] for content in contents}, store.units.find_all)

    def kept(self, record: Record, events: Iterable[NewEvent]) -> None:
        """A record was kept, with events that were new."""
        self.hashes |= {event.content["id"]: event.sha256 for event in events}
        self._found["record", record.sha256] = record
        self.changed(record.visit)

    def changed(self, visit: str) -> None:
        """The state of a visit may be another one now."""
        self._found.pop(("visit", visit), None)

    def forget(self) -> None:
        """Something that was kept was taken back: everything is asked anew."""
        self.hashes.clear()
        self._asked.clear()
        self._found.clear()

    def record(self, sha256: str) -> Record | None:
        return self._once("record", sha256, self.store.records.find)

    def visit(self, key: str) -> Visit | None:
        return self._once("visit", key, self.store.visits.find)

    def device(self, thumbprint: str) -> Device | None:
        return self._once("device", thumbprint, self.store.devices.find)

    def person(self, key: str) -> Person:
        return self._once("person", key, self.store.people.get)

    def unit(self, key: str) -> Unit | None:
        return self._once("unit", key, self.store.units.find)

    def site(self, key: str) -> Site:
        return self._once("site", key, self.store.sites.get)

    def _once(self, noun: str, key: str, find: Callable[[str], Thing]) -> Thing:
        if (noun, key) not in self._found:
            self._found[noun, key] = find(key)
        return self._found[noun, key]

    def _learn(
        self, noun: str, keys: Iterable[str], find_all: Callable[[Iterable[str]], Mapping[str, Any]]
    ) -> None:
        found = find_all(keys)
        self._found |= {(noun, key): found.get(key) for key in keys}


def ids_of(events: Iterable[Any]) -> list[str]:
    """The ids of what may be events."""
    return [found for event in events if (found := event_id(event)) is not None]


def event_id(event: Any) -> str | None:
    found = event.get("id") if isinstance(event, dict) else None
    return found if isinstance(found, str) else None
