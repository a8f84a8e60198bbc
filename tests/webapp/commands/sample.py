"""Three accepted records of one unit, with photos, confirmed by a passkey: as a bundle and as a backup."""

import base64
import hashlib
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from tests.authenticator import Authenticator, base64url
from tests.phone import Phone
from webapp.commands.export import bundle
from webapp.passkeys import Place, creation_options, verify_new
from webapp.receiving import receive_decision, receive_record
from webapp.store import Person, Store, Unit

PLACE = Place.of("https://water.example")


class Clock:
    """Ten seconds later at each look, so that nothing has the time of anything else."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=10)
        return self.now


@dataclass
class Sample:
    """``records`` are identities, the oldest first; ``photos`` the hashes of what each of them shows."""

    phone: Phone
    desk: Phone
    bundle: dict[str, Any]
    backup: Path
    records: list[str]
    photos: list[str]
    forged: str


def make(folder: Path) -> Sample:
    store = Store(folder / "test.db", Clock())
    phone = Phone(store, store.people.add("ilse", "Ilse Brook", "installer", "!"))
    desk = Phone(store, store.people.add("sami", "Sami Weir", "supervisor", "!"))
    site = store.sites.add("Weir House", "3 Mill Lane", {})
    unit = store.units.add("Basement unit", "FW-0001", site.id, {})
    passkey = with_passkey(store, phone.person)
    photos = [keep_photo(store, phone, number) for number in range(3)]
    records = [commission(store, phone, desk, unit, photo, passkey) for photo in photos]
    written = bundle(store, store.records.all()[::-1], {"unit": unit.id}, with_photos=True)
    forged = false_verdict(phone, unit)
    store.backup(folder / "copy")
    store.close()
    return Sample(phone, desk, written, folder / "copy", records, photos, forged)


def with_passkey(store: Store, person: Person) -> Authenticator:
    authenticator = Authenticator("https://water.example", "water.example")
    made = verify_new(PLACE, "abcd", authenticator.make(creation_options(PLACE, person, "abcd", [])))
    store.passkeys.add(made.id, person.id, "phone", made.public_key, made.counter)
    return authenticator


def keep_photo(store: Store, phone: Phone, number: int) -> str:
    data = b"\xff\xd8 picture %d" % number
    sha256 = hashlib.sha256(data).hexdigest()
    store.photos.keep(sha256, data, phone.person.id)
    return sha256


def commission(
    store: Store, phone: Phone, desk: Phone, unit: Unit, photo: str, passkey: Authenticator
) -> str:
    visit = phone.start(unit)
    shown = {"sha256": photo, "type": "image/jpeg", "size": 12}
    events = [phone.event(visit.id, "test.picture", shown), *phone.entries(visit.id)]
    text = phone.signed_record(visit, events, previous=store.units.get(unit.id).previous)
    payload = text.split(".")[1]
    sha256 = hashlib.sha256(base64.urlsafe_b64decode(payload + "=" * (-len(payload) % 4)))
    answer = receive_record(store, text, phone.person, passkey.confirm(base64url(sha256.digest())), PLACE)
    assert answer.state == "signed", answer.reasons
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    return answer.sha256


def false_verdict(phone: Phone, unit: Unit) -> str:
    """Rightly signed, and a pass where the readings fail."""
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id, tight="no"))
    content["judgement"]["record"]["verdict"] = "pass"
    return phone.sign(content, "firstwater-record+jws")
