"""What the store knows of the things that some events name: each is looked up once."""

from collections.abc import Iterable
from typing import Any

from webapp.store import Device, Store, Visit


class Known:
    """For the events of one request or record, within one transaction: nobody else writes meanwhile.

    ``hashes`` are those of the events that the store has, by id; who keeps more of them adds theirs.
    """

    def __init__(self, store: Store, events: Iterable[str]):
        self.store = store
        self.hashes = store.events.hashes(events)
        self._visits: dict[str, Visit | None] = {}
        self._devices: dict[str, Device | None] = {}

    def visit(self, key: str) -> Visit | None:
        if key not in self._visits:
            self._visits[key] = self.store.visits.find(key)
        return self._visits[key]

    def device(self, thumbprint: str) -> Device | None:
        if thumbprint not in self._devices:
            self._devices[thumbprint] = self.store.devices.find(thumbprint)
        return self._devices[thumbprint]


def ids_of(events: Iterable[Any]) -> list[str]:
    """The ids of what may be events."""
    return [found for event in events if (found := event_id(event)) is not None]


def event_id(event: Any) -> str | None:
    found = event.get("id") if isinstance(event, dict) else None
    return found if isinstance(found, str) else None
