"""Signed records and the decisions about them: append-only, as they came."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from webapp.signing import jws
from webapp.signing.photos import photos_named
from webapp.store.rows import insert, rows
from webapp.store.table import Table


@dataclass(frozen=True)
class Decision:
    """A countersignature or return. ``next_service`` is the date that was set with an acceptance."""

    sha256: str
    record: str
    jws: str
    decision: str
    reasons: str
    person: str
    device: str
    signed_at: str
    received_at: str
    next_service: str | None

    def content(self) -> dict[str, Any]:
        """The signed payload (docs/api.md)."""
        return json.loads(jws.read(self.jws).payload)


@dataclass(frozen=True)
class Record:
    """A signed record. ``state`` is signed, accepted, accepted_with_conditions, returned or reopened.

    ``reasons`` is what a supervisor should know before deciding: photos still to come, entries left out,
    reference data that differ. ``decisions`` are in order: none while it waits, then an acceptance or
    a return, and after an acceptance perhaps the return that re-opened its visit.
    """

    sha256: str
    visit: str
    unit: str
    jws: str
    verdict: str
    person: str
    device: str
    previous: str | None
    corrects: str | None
    signed_at: str
    received_at: str
    state: str
    reasons: list[dict[str, Any]]
    decisions: tuple[Decision, ...] = ()

    @property
    def decision(self) -> Decision | None:
        """The acceptance or the return of a record that waited."""
        return self.decisions[0] if self.decisions else None

    @property
    def reopening(self) -> Decision | None:
        """The return of a record that had been accepted."""
        return self.decisions[1] if len(self.decisions) > 1 else None

    def content(self) -> dict[str, Any]:
        """The signed payload (docs/api.md)."""
        return json.loads(jws.read(self.jws).payload)


class Decisions(Table[Decision]):
    noun = "decision"
    name = "decisions"
    key = "sha256"
    made = Decision

    def all(self) -> list[Decision]:
        return self.select(order="sequence")

    def keep(self, sha256: str, content: dict[str, Any], text: str, next_service: str | None) -> Decision:
        """Keep a verified decision; ``content`` is its payload."""
        row = {
            "sha256": sha256,
            "record": content["record"],
            "jws": text,
            "decision": content["decision"],
            "reasons": content["reasons"],
            "person": content["signer"]["id"],
            "device": content["device"],
            "signed_at": content["signed_at"],
            "received_at": self.now(),
            "next_service": next_service,
        }
        with self.connection.write() as db:
            insert(db, "decisions", row)
        return self.get(sha256)

    def about(self, record: str) -> tuple[Decision, ...]:
        """All of a record, in the order of their coming."""
        return tuple(self.select("record = ?", [record], "sequence"))


class Records(Table[Record]):
    noun = "record"
    name = "known_records"
    key = "sha256"
    made = Record

    def __init__(self, connection: Any, clock: Any, decisions: Decisions):
        super().__init__(connection, clock)
        self.decisions = decisions

    def thing(self, row: dict) -> Record:
        reasons = [*json.loads(row["notes"]), *self._photos_missing(row["sha256"])]
        return super().thing({**row, "reasons": reasons, "decisions": self.decisions.about(row["sha256"])})

    def _photos_missing(self, record: str) -> list[dict[str, Any]]:
        missing = self.missing_photos(record)
        detail = f"{len(missing)} of its photos are still to come."
        return [{"code": "photos_missing", "detail": detail, "photos": missing}] if missing else []

    def keep(self, sha256: str, content: dict[str, Any], text: str, notes: list[dict[str, Any]]) -> Record:
        """Keep a verified record; ``content`` is its payload, ``text`` the JWS as it came."""
        row = {
            "sha256": sha256,
            "visit": content["visit"],
            "unit": content["unit"]["id"],
            "jws": text,
            "verdict": content["judgement"]["record"]["verdict"],
            "person": content["signer"]["id"],
            "device": content["device"],
            "previous": content["previous"],
            "corrects": content["corrects"],
            "signed_at": content["signed_at"],
            "received_at": self.now(),
            "notes": json.dumps(notes),
        }
        photos = [{"record": sha256, "photo": photo} for photo in photos_named(content["events"])]
        with self.connection.join() as db:
            insert(db, "records", row)
            insert(db, "record_photos", *photos)
        # As it would be read; what is as large as a record is not read back for that.
        reasons = [*notes, *(self._photos_missing(sha256) if photos else [])]
        return super().thing({**row, "state": state_by(()), "reasons": reasons})

    def missing_photos(self, record: str) -> list[str]:
        sql = """select photo from record_photos where record = ?
            and photo not in (select sha256 from photos) order by photo"""
        return [row["photo"] for row in rows(self.read(), sql, [record])]

    def find(self, key: str) -> Record | None:
        found = self.select("sha256 = ?", [key], "sha256")
        return found[0] if found else None

    def of_unit(self, unit: str) -> list[Record]:
        """The newest first."""
        return self.select("unit = ?", [unit], "sequence desc")

    def of_visit(self, visit: str) -> list[Record]:
        """The newest first."""
        return self.select("visit = ?", [visit], "sequence desc")

    def accepted(self, unit: str) -> list[str]:
        """The identities of the unit's accepted records, those that were re-opened as well."""
        sql = """select record from decisions join records on records.sha256 = record
            where unit = ? and decision <> 'returned'"""
        return [row["record"] for row in rows(self.read(), sql, [unit])]

    def corrections(self, record: str) -> list[Record]:
        """The records that were signed in the place of this one."""
        return self.select("corrects = ?", [record], "sequence")

    def all(self) -> list[Record]:
        return self.select(order="sequence desc")


def state_by(decisions: Sequence[Decision]) -> str:
    """The state of a record by its decisions, the oldest first."""
    if len(decisions) > 1:
        return "reopened"
    return decisions[0].decision if decisions else "signed"
