"""Entry events: append-only, byte for byte, each with a place in its visit once it is merged."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from webapp.signing.canonical import canonical, digest
from webapp.store.errors import Taken
from webapp.store.rows import insert, listed, rows
from webapp.store.table import Table


@dataclass(frozen=True)
class NewEvent:
    """An event that is not in the store yet, with its canonical text."""

    content: dict[str, Any]
    text: bytes
    sha256: str
    late: bool


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
        with self.connection.write():
            kept = self.hashes([event["id"]]).get(event["id"])
            if kept is None:
                self.add([NewEvent(event, text, sha256, late)])
            elif kept != sha256:
                raise Taken("entry", "id", event["id"])
        return sha256

    def add(self, events: Sequence[NewEvent]) -> None:
        """Keep events of which none is in the store, in this order."""
        received_at = self.now()
        with self.connection.join() as db:
            insert(db, "events", *(row_of(event, received_at) for event in events))
            merge(db, ((event.content["visit"], event.content["id"]) for event in events if not event.late))

    def merge_late(self, visit: str) -> None:
        """Give every late event of the visit its place: the visit was returned and is open again."""
        with self.connection.write() as db:
            merge(db, [(visit, event.id) for event in self.late(visit)])

    def hashes(self, ids: Iterable[str]) -> dict[str, str]:
        """The hash of each of these events that is in the store, by id."""
        sql = "select id, sha256 from events where id in (select value from json_each(?))"
        return {row["id"]: row["sha256"] for row in rows(self.read(), sql, [listed(ids)])}

    def left_out(self, visit: str, named: Iterable[str]) -> list[str]:
        """The ids of :meth:`of_visit` that are not among those ``named``."""
        sql = """select event from merged_events where visit = ?
            and event not in (select value from json_each(?)) order by sequence"""
        return [row["event"] for row in rows(self.read(), sql, [visit, listed(named)])]

    def of_visit(self, visit: str, after: int = 0) -> list[StoredEvent]:
        """The merged events of a visit in the order of their coming."""
        return self.select("visit = ? and sequence > ?", [visit, after], "sequence")

    def late(self, visit: str) -> list[StoredEvent]:
        """Those that came too late and are not merged."""
        return self.select("visit = ? and sequence is null", [visit], "received_at, id")

    def find(self, key: str) -> StoredEvent | None:
        found = self.select("id = ?", [key], "id")
        return found[0] if found else None


def merge(db: Database, events: Iterable[tuple[str, str]]) -> None:
    """Give each event, named by visit and id, the next place in its visit."""
    sql = "select coalesce(max(sequence), 0) as last from merged_events where visit = ?"
    last: dict[str, int] = {}
    merged = []
    for visit, event in events:
        last[visit] = 1 + (last[visit] if visit in last else rows(db, sql, [visit])[0]["last"])
        merged.append({"visit": visit, "sequence": last[visit], "event": event})
    insert(db, "merged_events", *merged)


def row_of(event: NewEvent, received_at: str) -> dict[str, Any]:
    content = event.content
    return {
        "id": content["id"],
        "visit": content["visit"],
        "person": content["by"],
        "device": content["device"],
        "field": content["field"],
        "json": event.text.decode(),
        "sha256": event.sha256,
        "received_at": received_at,
        "late": int(event.late),
    }
