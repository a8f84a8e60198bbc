"""Visits, entries, photos and the audit trail."""

import hashlib
import json
import sqlite3
import subprocess
import sys
import uuid

import pytest

from checks.procedure import load, names, procedure_hash
from tests.phone import Phone, sha256
from webapp.store import NotInStore, Refused, Store, Taken, Unit


def test_a_procedure_is_kept_under_the_hash_that_its_pages_name(store: Store) -> None:
    for name in names():
        procedure = load(name)
        kept = store.procedures.keep(procedure)
        assert kept == procedure_hash(procedure)
        assert store.procedures.contents(kept, "0" * 64) == {kept: procedure}


def test_the_same_visit_twice_is_one_visit(phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    again = {name: getattr(visit, name) for name in ("unit", "kind", "procedure", "started_at", "started_by")}
    assert phone.store.visits.start(visit.id, **again) == visit
    with pytest.raises(Taken, match="Another visit already has the id"):
        phone.store.visits.start(visit.id, **{**again, "kind": "repair"})


def test_an_entry_is_kept_byte_for_byte(store: Store, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    event = phone.reading(
        visit.id, 0.1 + 0.2, reason={"code": "re_measured", "text": "\u20ac \U0001f600 \x7f"}
    )
    kept = store.events.keep(event, late=False)
    stored = store.events.get(event["id"])
    assert kept == stored.sha256 == sha256(event) == hashlib.sha256(stored.json.encode()).hexdigest()
    assert stored.content() == event


def test_another_entry_with_the_same_id_is_refused(store: Store, phone: Phone, unit: Unit) -> None:
    event = phone.reading(phone.start(unit).id)
    store.events.keep(event, late=False)
    with pytest.raises(Taken, match="Another entry already has the id"):
        store.events.keep({**event, "offset": 0}, late=False)


def test_entries_have_their_place_per_visit_and_late_ones_get_it_later(
    store: Store, phone: Phone, unit: Unit
) -> None:
    first, second = phone.start(unit).id, phone.start(unit).id
    events = [phone.reading(visit) for visit in (first, second, first)]
    late = phone.reading(first)
    for event in events:
        store.events.keep(event, late=False)
    store.events.keep(late, late=True)
    assert [(one.id, one.sequence) for one in store.events.of_visit(first)] == [
        (events[0]["id"], 1),
        (events[2]["id"], 2),
    ]
    assert [one.id for one in store.events.late(first)] == [late["id"]]
    store.events.merge_late(first)
    assert [one.id for one in store.events.of_visit(first, after=2)] == [late["id"]]
    assert store.events.get(late["id"]).late, "that it came late stays known"
    assert store.events.late(first) == []


def test_a_photo_is_whole_and_named_by_its_hash(store: Store, phone: Phone) -> None:
    data, name = b"picture", hashlib.sha256(b"picture").hexdigest()
    with pytest.raises(NotInStore, match="There is no photo"):
        store.photos.read_bytes(name)
    photo = store.photos.keep(name, data, phone.person.id)
    assert store.photos.keep(name, data, phone.person.id) == photo
    assert store.photos.read_bytes(name) == data
    assert [path.name for path in store.photos.folder.rglob("*") if path.is_file()] == [f"{name}.jpg"]


def test_a_damaged_photo_is_refused(store: Store, phone: Phone) -> None:
    with pytest.raises(Refused, match="arrived damaged"):
        store.photos.keep("0" * 64, b"picture", phone.person.id)
    assert store.photos.all() == []


def test_a_photo_whose_file_was_lost_is_written_again(store: Store, phone: Phone) -> None:
    name = hashlib.sha256(b"picture").hexdigest()
    store.photos.keep(name, b"picture", phone.person.id)
    store.photos.path(name).unlink()
    store.photos.keep(name, b"picture", phone.person.id)
    assert store.photos.read_bytes(name) == b"picture"


def test_a_device_stays_with_its_person_and_a_revoked_one_does_not_return(
    store: Store, phone: Phone, people
) -> None:
    with pytest.raises(Refused, match="belongs to another person"):
        store.devices.enrol(phone.thumbprint, phone.public, people["supervisor"].id, "mine")
    revoked = store.devices.revoke(phone.thumbprint)
    assert store.devices.revoke(phone.thumbprint) == revoked
    with pytest.raises(Refused, match="was revoked"):
        store.devices.enrol(phone.thumbprint, phone.public, phone.person.id, "again")


def test_what_a_device_sent_before_it_was_revoked_stays_before_it(
    store: Store, phone: Phone, unit: Unit, clock
) -> None:
    """Within the same millisecond, and after the server's clock was set back."""
    event = phone.reading(phone.start(unit).id)
    store.events.keep(event, late=False)
    clock.advance(hours=-1)
    assert store.devices.revoke(phone.thumbprint).revoked_at > store.events.get(event["id"]).received_at


def test_the_audit_trail_shows_where_it_was_altered(store: Store, people) -> None:
    for number in range(5):
        store.audit.add("trial", person=people["installer"].id, subject="x", number=number)
    assert store.audit.broken_at() is None
    assert [entry.details["number"] for entry in store.audit.newest(2)] == [4, 3]
    database = sqlite3.connect(store.connection.path)
    database.execute("drop trigger audit_refuses_update")
    database.execute("update audit set details = ? where sequence = 3", [json.dumps({"number": 9})])
    database.commit()
    database.close()
    assert store.audit.broken_at() == 3


def test_two_processes_write_one_unbroken_trail(store: Store) -> None:
    script = """
import sys
from datetime import UTC, datetime
from webapp.store import Store
store = Store(sys.argv[1], lambda: datetime.now(UTC))
for number in range(25):
    store.audit.add("other", person=None, number=number)
"""
    other = subprocess.Popen([sys.executable, "-c", script, str(store.connection.path)])
    for number in range(25):
        store.audit.add("trial", person=None, number=number)
    assert other.wait(timeout=60) == 0
    assert store.audit.broken_at() is None
    assert len(store.audit.newest(100)) == 50


def test_a_taken_out_audit_entry_is_noticed(store: Store) -> None:
    for _ in range(3):
        store.audit.add("trial", person=None)
    database = sqlite3.connect(store.connection.path)
    database.execute("drop trigger audit_refuses_delete")
    database.execute("delete from audit where sequence = 2")
    database.commit()
    database.close()
    assert store.audit.broken_at() == 2


def test_quarantine_keeps_the_same_document_once_per_reason(store: Store, people) -> None:
    person, reasons = people["installer"].id, [{"code": "trial", "detail": "For a test."}]
    first = store.quarantine.keep("record", "a.b.c", person, reasons)
    assert store.quarantine.keep("record", "a.b.c", person, reasons) == first
    store.quarantine.keep("record", "a.b.c", person, [{"code": "other", "detail": "Another."}])
    assert len(store.quarantine.waiting()) == 2
    seen = store.quarantine.note_seen(first.id, people["supervisor"].id, "Looked into it.")
    assert (seen.note, seen.seen_by) == ("Looked into it.", people["supervisor"].id)
    assert store.quarantine.note_seen(first.id, person, "Again.").note == "Looked into it."
    assert [item.document for item in store.quarantine.waiting()] == ["a.b.c"]


def test_a_transaction_is_stored_as_a_whole_or_not_at_all(store: Store, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)

    def keep_two() -> None:
        with store.transaction():
            store.events.keep(phone.reading(visit.id), late=False)
            store.visits.get(str(uuid.uuid4()))

    with pytest.raises(NotInStore):
        keep_two()
    assert store.events.of_visit(visit.id) == []
