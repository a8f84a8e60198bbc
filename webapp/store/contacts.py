"""What a phone said it still has when it asked for work, compared with what was acknowledged to it.

A browser may clear a phone's storage. What had been acknowledged is here; what had not been sent is gone, and
only its person can say what it was. So the office is told.
"""

import json
from dataclasses import dataclass
from typing import Any

from webapp.store.table import Table


@dataclass(frozen=True)
class Contact:
    """``short`` maps visits to ``{held, known}``: fewer entries on the phone than were acknowledged to it."""

    device: str
    at: str
    short: dict[str, dict[str, int]]
    short_at: str | None


@dataclass(frozen=True)
class Loss:
    """A phone that lost entries, or probably did. ``visits`` are the open visits it had entries in.

    ``since`` is when it came without them, or when its person prepared another phone and this one was silent.
    """

    device: str
    person: str
    name: str
    since: str
    certain: bool
    visits: tuple[str, ...]


class Contacts(Table[Contact]):
    noun = "contact"
    name = "phone_contacts"
    key = "device"
    made = Contact

    def thing(self, row: dict) -> Contact:
        return super().thing({**row, "short": json.loads(row["short"])})

    def acknowledged(self, device: str) -> dict[str, int]:
        """How many entries that were made on the device are here, by open visit."""
        sql = "select visit, number from entries_under_way where device = ? order by visit"
        return {row["visit"]: row["number"] for row in self.read().query(sql, [device])}

    def note(self, device: str, held: dict[str, int]) -> list[str]:
        """The phone holds so many of its own entries, by visit; the visits in which some are missing.

        What was missing once stays noted, although the phone fetches it again: there may have been more.
        """
        with self.connection.write() as db:
            known = self.acknowledged(device)
            short = {
                visit: {"held": held.get(visit, 0), "known": number}
                for visit, number in known.items()
                if held.get(visit, 0) < number
            }
            before = self.find(device)
            noted = {**short, **(before.short if before else {})}
            short_at = before.short_at if before and before.short_at else self.now() if short else None
            row: dict[str, Any] = {"device": device, "at": self.now(), "short": json.dumps(noted)}
            db.table("phone_contacts").upsert({**row, "short_at": short_at}, pk="device")
        return sorted(short)

    def losses(self) -> list[Loss]:
        """Phones that came without entries of open visits, and phones that were prepared anew meanwhile.

        A revoked phone is dealt with; so is one whose visits are finished, or that was heard of again.
        """
        return [*self._short(), *self._silent()]

    def _short(self) -> list[Loss]:
        found = []
        for contact in self.select("short_at is not null", order="short_at"):
            device = self._device(contact.device)
            still_open = self.acknowledged(contact.device)
            visits = tuple(visit for visit in contact.short if visit in still_open)
            if visits and device["revoked_at"] is None and contact.short_at:
                found.append(
                    Loss(contact.device, device["person"], device["name"], contact.short_at, True, visits)
                )
        return found

    def _silent(self) -> list[Loss]:
        sql = """select device.*, min(newer.enrolled_at) as since from devices device
            join devices newer on newer.person = device.person and newer.enrolled_at > device.enrolled_at
            left join phone_contacts contact on contact.device = device.thumbprint
            where device.revoked_at is null and newer.revoked_at is null
            and coalesce(contact.at, '') < newer.enrolled_at
            and not exists (select * from events where events.device = device.thumbprint
                and events.received_at >= newer.enrolled_at)
            group by device.thumbprint order by since"""
        found = []
        for row in self.read().query(sql):
            visits = tuple(self.acknowledged(row["thumbprint"]))
            if visits:
                found.append(Loss(row["thumbprint"], row["person"], row["name"], row["since"], False, visits))
        return found

    def _device(self, thumbprint: str) -> dict[str, Any]:
        return next(self.read().query("select * from devices where thumbprint = ?", [thumbprint]))
