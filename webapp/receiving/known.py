"""What the store knows of the things that documents name: each is looked up once."""

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from webapp.store import Device, Person, Site, Store, Unit, Visit

Thing = TypeVar("Thing")


class Known:
    """For the documents of one request, within one transaction: nobody else writes meanwhile.

    ``hashes`` are those of the events that the store has, by id; who keeps more of them adds theirs.
    What documents change, like the state of their visit, is not looked up here by who keeps several.
    """

    def __init__(self, store: Store, events: Iterable[str] = ()):
        self.store = store
        self.hashes: dict[str, str] = {}
        self.look_up(events)
        self._found: dict[tuple[str, str], Any] = {}

    def look_up(self, events: Iterable[str]) -> None:
        """Learn the hashes of these events."""
        wanted = list(events)
        if wanted:
            self.hashes |= self.store.events.hashes(wanted)

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


def ids_of(events: Iterable[Any]) -> list[str]:
    """The ids of what may be events."""
    return [found for event in events if (found := event_id(event)) is not None]


def event_id(event: Any) -> str | None:
    found = event.get("id") if isinstance(event, dict) else None
    return found if isinstance(found, str) else None
