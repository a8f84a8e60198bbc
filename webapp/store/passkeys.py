"""Passkeys: the public halves of keys that a person's authenticators hold, and what they have confirmed.

A passkey is removed, never deleted: what it confirmed earlier can still be verified.
"""

import json
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from webapp.store.errors import Refused, Taken
from webapp.store.table import Table, written

MOST = 20  # of one person


@dataclass(frozen=True)
class Passkey:
    """``id`` and ``public_key`` (a COSE key) in base64url; ``counter`` is the highest that was seen."""

    id: str
    person: str
    name: str
    public_key: str
    counter: int
    made_at: str
    used_at: str | None = None
    removed_at: str | None = None

    def as_evidence(self) -> dict[str, Any]:
        """The public half, and whose it is: what verifies a confirmation (docs/api.md, Bundle)."""
        return {name: getattr(self, name) for name in ("id", "person", "public_key", "made_at", "removed_at")}


@dataclass(frozen=True)
class Confirmation:
    """How a passkey confirmed the document with this identity: ``assertion`` is kept as it came."""

    document: str
    passkey: str
    assertion: dict[str, Any]
    verified_at: str

    def as_evidence(self) -> dict[str, Any]:
        return {name: getattr(self, name) for name in ("document", "verified_at", "assertion")}


class Passkeys(Table[Passkey]):
    noun = "passkey"
    name = "passkeys"
    made = Passkey

    def add(self, key: str, person: str, name: str, public_key: str, counter: int) -> Passkey:
        if len(self.of(person)) >= MOST:
            raise Refused("too_many_passkeys", f"A person has at most {MOST} passkeys. Remove one first.")
        made = Passkey(key, person, name, public_key, counter, self.now())
        try:
            with self.connection.write() as db:
                db.table("passkeys").insert(made.__dict__)
        except sqlite3.IntegrityError as error:
            raise Taken("passkey", "id", key) from error
        return made

    def of(self, person: str) -> list[Passkey]:
        """Those that can be used, the oldest first."""
        return self.select("person = ? and removed_at is null", [person], "made_at, rowid")

    def rename(self, key: str, name: str) -> None:
        with self.connection.write() as db:
            db.table("passkeys").update(self.get(key).id, {"name": name})

    def remove(self, key: str) -> None:
        """From now on nothing that it confirms is accepted. Removing again changes nothing."""
        with self.connection.write() as db:
            if self.get(key).removed_at is None:
                db.table("passkeys").update(key, {"removed_at": self.now()})

    def note_use(self, key: str, counter: int) -> None:
        """The counter never goes back: a phone without signal may deliver its confirmations late."""
        with self.connection.write() as db:
            highest = max(counter, self.get(key).counter)
            db.table("passkeys").update(key, {"used_at": self.now(), "counter": highest})

    def use_challenge(self, challenge: str, forget_before: datetime) -> bool:
        """Whether this challenge is used for the first time; those from before the instant are forgotten."""
        with self.connection.write() as db:
            db.table("used_challenges").delete_where("used_at < ?", [written(forget_before)])
            row = {"challenge": challenge, "used_at": self.now()}
            return (
                db.execute(
                    "insert or ignore into used_challenges values (:challenge, :used_at)", row
                ).rowcount
                == 1
            )

    def keep_confirmation(self, document: str, passkey: str, assertion: dict[str, Any]) -> None:
        """Keep how ``document`` was confirmed. The first confirmation of a document stays."""
        row = {"document": document, "passkey": passkey, "assertion": json.dumps(assertion)}
        with self.connection.write() as db:
            db.table("confirmations").insert({**row, "verified_at": self.now()}, ignore=True)

    def confirmation(self, document: str) -> Confirmation | None:
        for row in self.read().query("select * from confirmations where document = ?", [document]):
            return confirmation_of(row)
        return None

    def evidence(self, documents: Iterable[str]) -> dict[str, list[dict[str, Any]]]:
        """The confirmations of these documents and the passkeys that verify them (docs/api.md, Bundle)."""
        found = [one for one in map(self.confirmation, documents) if one]
        passkeys = [self.get(key) for key in dict.fromkeys(one.passkey for one in found)]
        return {
            "confirmations": [one.as_evidence() for one in found],
            "passkeys": [one.as_evidence() for one in passkeys],
        }

    def confirmations(self) -> list[Confirmation]:
        """All of them, the oldest first."""
        rows = self.read().query("select * from confirmations order by verified_at, rowid")
        return [confirmation_of(row) for row in rows]


def confirmation_of(row: dict[str, Any]) -> Confirmation:
    return Confirmation(**{**row, "assertion": json.loads(row["assertion"])})
