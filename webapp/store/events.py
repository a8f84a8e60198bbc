"""Entry events: append-only, byte for byte, each with a place in its visit once it is merged."""

import json
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from webapp.signing.canonical import canonical, digest
from webapp.store.errors import Taken
from webapp.store.table import Table


@dataclass(frozen=True)
class StoredEvent:
    """``json`` is canonical. ``late``: it came after its visit had been signed.

    ``sequence`` is its place in the visit, or None for a late one that was not merged.
    """

    id: str
    visit: str
    person: str
    device: str
    field: str
    json: str
    sha256: str
    late: bool
    received_at: str
    sequence: int | None = None

    def content(self) -> dict[str, Any]:
        """The event, as docs/api.md describes it."""
        return json.loads(self.json)


class Events(Table[StoredEvent]):
    noun = "entry"
    name = "known_events"
    made = StoredEvent

    def thing(self, row: dict) -> StoredEvent:
        return super().thing({**row, "late": bool(row["late"])})

    def keep(self, event: dict[str, Any], late: bool) -> str:
        """Keep an event; the hash of what is stored. The same again changes nothing, another one is Taken."""
        text = canonical(event)
        sha256 = digest(text)
        with self.connection.write() as db:
            found = self.find(event["id"])
            if found is None:
                self._insert(db, event, text.decode(), sha256, late)
            elif found.sha256 != sha256:
                raise Taken("entry", "id", event["id"])
        return sha256

    def _insert(self, db: Database, event: dict[str, Any], text: str, sha256: str, late: bool) -> None:
        row = {"id": event["id"], "visit": event["visit"], "person": event["by"], "device": event["device"]}
        row |= {"field": event["field"], "json": text, "sha256": sha256, "received_at": self.now()}
        db.table("events").insert({**row, "late": int(late)})
        if not late:
            self._merge(db, event["visit"], event["id"])

    def _merge(self, db: Database, visit: str, event: str) -> None:
        db.execute(
            "insert into merged_events select ?, coalesce(max(sequence), 0) + 1, ? "
            "from merged_events where visit = ?",
            [visit, event, visit],
        )

    def merge_late(self, visit: str) -> None:
        """Give every late event of the visit its place: the visit was returned and is open again."""
        with self.connection.write() as db:
            for event in self.late(visit):
                self._merge(db, visit, event.id)

    def of_visit(self, visit: str, after: int = 0) -> list[StoredEvent]:
        """The merged events of a visit in the order of their coming."""
        return self.select("visit = ? and sequence > ?", [visit, after], "sequence")

    def late(self, visit: str) -> list[StoredEvent]:
        """Those that came too late and are not merged."""
        return self.select("visit = ? and sequence is null", [visit], "received_at, id")

    def find(self, key: str) -> StoredEvent | None:
        found = self.select("id = ?", [key], "id")
        return found[0] if found else None
