"""Who did what on the server: append-only, each entry holding the hash of the one before it."""

import json
from dataclasses import asdict, dataclass
from typing import Any

from webapp.signing import trail
from webapp.signing.canonical import identity
from webapp.store.rows import insert, rows
from webapp.store.table import Table


@dataclass(frozen=True)
class AuditEntry:
    """``subject`` is the id of what was acted on; ``details`` never hold passwords or tokens."""

    sequence: int
    at: str
    person: str | None
    action: str
    subject: str | None
    details: dict[str, Any]
    previous: str
    sha256: str

    def as_json(self) -> dict[str, Any]:
        """All members, in the form that is hashed."""
        return asdict(self)


class Audit(Table[AuditEntry]):
    noun = "audit entry"
    name = "audit"
    key = "sequence"
    made = AuditEntry

    def thing(self, row: dict) -> AuditEntry:
        return super().thing({**row, "details": json.loads(row["details"])})

    def add(
        self, action: str, *, person: str | None, subject: str | None = None, **details: Any
    ) -> AuditEntry:
        """Note an action; ``person`` is the id of who did it, None for a command on the server."""
        with self.connection.join() as db:
            last = rows(db, "select sequence, sha256 from audit order by sequence desc limit 1")
            entry: dict[str, Any] = {
                "sequence": last[0]["sequence"] + 1 if last else 1,
                "at": self.now(),
                "person": person,
                "action": action,
                "subject": subject,
                "details": details,
                "previous": last[0]["sha256"] if last else trail.FIRST,
            }
            entry["sha256"] = identity(entry)
            insert(db, "audit", {**entry, "details": json.dumps(details)})
        return AuditEntry(**entry)

    def of(self, subject: str) -> list[AuditEntry]:
        return self.select("subject = ?", [subject], "sequence")

    def newest(self, number: int = 100, before: int | None = None) -> list[AuditEntry]:
        """The last entries, the newest first; with ``before`` those that came before this one."""
        return self.select("sequence < ?", [before or 2**62], f"sequence desc limit {int(number)}")

    def entries(self) -> list[dict[str, Any]]:
        """The whole trail, the oldest first, in the form that is hashed."""
        return [one.as_json() for one in self.select(order="sequence")]

    def broken_at(self) -> int | None:
        """The first entry whose hash or place in the chain is wrong, or None."""
        fault = trail.first_fault(self.entries())
        return fault.place if fault else None
