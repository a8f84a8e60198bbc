"""Enrolled keys and their ends. A key belongs to one person for good."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from webapp.store.errors import Refused
from webapp.store.lists import ONE_MORE
from webapp.store.table import Table, written

RECEIVED = " union all ".join(
    f"select max(received_at) as at from {table} where device = :device"  # noqa: S608 - no outside text in it
    for table in ("events", "records", "decisions")
)


@dataclass(frozen=True)
class Device:
    """A phone's or a desk's signing key; ``jwk`` is the public half, ``person`` the id of its owner."""

    thumbprint: str
    jwk: dict[str, Any]
    person: str
    name: str
    enrolled_at: str
    revoked_at: str | None = None

    @property
    def place(self) -> str:
        """Where it stands in the list of all devices."""
        return f"{self.enrolled_at}~{self.thumbprint}"


class Devices(Table[Device]):
    noun = "device"
    name = "devices"
    key = "thumbprint"
    made = Device

    def thing(self, row: dict) -> Device:
        return super().thing({**row, "jwk": json.loads(row["jwk"])})

    def enrol(self, thumbprint: str, jwk: dict, person: str, name: str) -> Device:
        """Keep a key; the same key again gives what was kept. Refused: another person's, or a revoked one."""
        with self.connection.write() as db:
            found = self.find(thumbprint)
            if found is None:
                found = Device(thumbprint, jwk, person, name, self.now())
                db.table("devices").insert({**found.__dict__, "jwk": json.dumps(jwk)})
        if found.person != person:
            raise Refused(
                "key_of_another", "This key belongs to another person. Make a new one on this phone."
            )
        if found.revoked_at:
            raise Refused(
                "device_revoked", "This key was revoked. Prepare the phone again to make a new one."
            )
        return found

    def of(self, person: str) -> list[Device]:
        return self.select("person = ?", [person], "enrolled_at")

    def rename(self, thumbprint: str, name: str) -> None:
        with self.connection.write() as db:
            db.table("devices").update(self.get(thumbprint).thumbprint, {"name": name})

    def page(self, before: str = "", limit: int = ONE_MORE) -> list[Device]:
        """Devices of all people, the one that was enrolled last first; ``before`` is a device's place."""
        at, _, key = before.rpartition("~")
        return self.select(
            "(enrolled_at, thumbprint) < (?, ?)",
            [at or "~", key],
            f"enrolled_at desc, thumbprint desc limit {int(limit)}",
        )

    def last_uses(self, devices: Iterable[Device]) -> dict[str, str]:
        """When the server last received something that each of them signed or entered."""
        sql = f"select max(at) as at from ({RECEIVED})"  # noqa: S608 - no outside text in it
        found = {
            one.thumbprint: next(self.read().query(sql, {"device": one.thumbprint}))["at"] for one in devices
        }
        return {thumbprint: at for thumbprint, at in found.items() if at}

    def revoke(self, thumbprint: str) -> Device:
        """From now on nothing that this key signs is accepted. Revoking again changes nothing.

        The time is after everything that was received from it, also within a millisecond and when the
        server's clock was set back: what was accepted stays valid.
        """
        with self.connection.write() as db:
            if self.get(thumbprint).revoked_at is None:
                db.table("devices").update(thumbprint, {"revoked_at": self._after_last_use(thumbprint)})
            return self.get(thumbprint)

    def _after_last_use(self, thumbprint: str) -> str:
        last = self.last_uses([self.get(thumbprint)]).get(thumbprint)
        if last is None or last < self.now():
            return self.now()
        return written(datetime.fromisoformat(last) + timedelta(milliseconds=1))
