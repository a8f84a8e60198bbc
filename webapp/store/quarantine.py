"""What could not be accepted, with the reasons. Nothing is dropped; a supervisor looks at it."""

import json
from dataclasses import dataclass
from typing import Any

from webapp.signing.canonical import digest
from webapp.store.table import Table


@dataclass(frozen=True)
class Quarantined:
    """``document`` is the JWS of a record or decision, or the JSON of an event, exactly as it came.

    ``reasons`` are ``{code, detail, field}``. ``seen_by`` and ``note`` say who looked and wrote what.
    """

    id: int
    kind: str
    sha256: str
    document: str
    visit: str | None
    unit: str | None
    person: str
    reasons: list[dict[str, Any]]
    received_at: str
    seen_by: str | None = None
    seen_at: str | None = None
    note: str | None = None


class Quarantine(Table[Quarantined]):
    noun = "quarantined document"
    name = "known_quarantine"
    made = Quarantined

    def thing(self, row: dict) -> Quarantined:
        return super().thing({**row, "reasons": json.loads(row["reasons"])})

    def keep(
        self,
        kind: str,
        document: str,
        person: str,
        reasons: list[dict[str, Any]],
        visit: str | None = None,
        unit: str | None = None,
    ) -> Quarantined:
        """Keep a document; the same for the same reasons is kept once."""
        row = {
            "kind": kind,
            "sha256": digest(document.encode()),
            "document": document,
            "person": person,
            "reasons": json.dumps(reasons),
            "visit": visit,
            "unit": unit,
            "received_at": self.now(),
        }
        with self.connection.write() as db:
            db.table("quarantine").insert(row, ignore=True)
            key = [kind, row["sha256"], row["reasons"]]
            kept = self.select("kind = ? and sha256 = ? and reasons = ?", key, "id")[0]
            self.refresh_states("id = ?", kept.id)
        return kept

    def note_seen(self, item: int, person: str, note: str) -> Quarantined:
        """A supervisor has looked at it; the first note stays."""
        with self.connection.write() as db:
            row = {"item": item, "person": person, "note": note, "seen_at": self.now()}
            db.table("quarantine_seen").insert(row, ignore=True)
            self.refresh_states("id = ?", item)
        return self.number(item)

    def refresh_states(self, where: str = "1", *values: object) -> None:
        """The narrow rows that lists are made of; a document and its reasons may be as large as a record."""
        sql = f"""insert or replace into quarantine_states
            select id, kind, visit, unit, person, coalesce(json_extract(reasons, '$[0].detail'), ''),
                max(json_array_length(reasons) - 1, 0), received_at, seen_at
            from known_quarantine where {where}"""  # noqa: S608 - no outside text in it
        with self.connection.write() as db:
            db.execute(sql, values)

    def number(self, item: int) -> Quarantined:
        return self.get(item)  # type: ignore[arg-type]

    def waiting(self) -> list[Quarantined]:
        """What nobody has looked at yet, the oldest first."""
        return self.select("seen_at is null", order="id")

    def of_visit(self, visit: str) -> list[Quarantined]:
        return self.select("visit = ?", [visit], "id")

    def find(self, key: str) -> Quarantined | None:
        found = self.select("id = ?", [key], "id")
        return found[0] if found else None

    def all(self) -> list[Quarantined]:
        return self.select(order="id desc")
