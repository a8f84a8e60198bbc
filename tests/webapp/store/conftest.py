"""A record that a supervisor accepted, and a store that has something of everything."""

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Record, Store, Unit

NOTHING = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # of no bytes


@pytest.fixture
def accepted(store: Store, phone: Phone, desk: Phone, unit: Unit) -> Record:
    answer = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    return store.records.get(answer.sha256)


@pytest.fixture
def full(store: Store, phone: Phone, desk: Phone, unit: Unit) -> Store:
    """Something in every table: accepted, returned, waiting, quarantined, late, retired."""
    store.photos.keep(NOTHING, b"", phone.person.id)
    visit = phone.start(unit)
    picture = phone.event(visit.id, "test.picture", {"sha256": NOTHING, "type": "image/jpeg", "size": 0})
    text = phone.signed_record(visit, [picture, *phone.entries(visit.id)])
    first = receive_record(store, text, phone.person)
    receive_record(store, phone.signed_record(visit, previous="0" * 64), phone.person)
    store.quarantine.note_seen(store.quarantine.waiting()[0].id, desk.person.id, "Looked into it.")
    store.events.keep(phone.reading(visit.id), late=True)
    receive_decision(store, desk.signed_decision(first.sha256), desk.person, 12)
    other = store.units.add("Second unit", "FW-0002", unit.site, {"maximum_pressure": {"value": 6}})
    waiting = receive_record(store, phone.signed_record(phone.start(other)), phone.person)
    receive_decision(store, desk.signed_decision(waiting.sha256, "returned", "Not clear."), desk.person, 12)
    store.sessions.start("key", phone.person.id)
    store.failures.add("address")
    store.instruments.add(
        kind="gauge", name="G", serial="1", calibration_due=None, unit="bar", range_minimum=0, range_maximum=6
    )
    return store
