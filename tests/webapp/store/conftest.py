"""A record that a supervisor accepted."""

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Record, Store, Unit


@pytest.fixture
def accepted(store: Store, phone: Phone, desk: Phone, unit: Unit) -> Record:
    answer = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    return store.records.get(answer.sha256)
