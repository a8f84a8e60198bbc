"""What later visits are compared with is what the unit's last accepted record says."""

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Record, Store, Unit
from webapp.store.baselines import values_of

NOTHING = {"record": None, "values": {}}


@pytest.fixture
def record(store: Store, phone: Phone, unit: Unit) -> Record:
    answer = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    return store.records.get(answer.sha256)


def decide(store: Store, desk: Phone, record: Record, decision: str, reasons: str = "") -> None:
    receive_decision(store, desk.signed_decision(record.sha256, decision, reasons), desk.person, 12)


def test_a_record_that_waits_or_was_returned_sets_none(
    store: Store, desk: Phone, record: Record, unit: Unit
) -> None:
    assert store.baselines.of_unit(unit.id) == NOTHING
    decide(store, desk, record, "returned", "The photo is dark.")
    assert store.baselines.of_unit(unit.id) == NOTHING


def test_an_accepted_record_sets_it_and_asking_twice_gives_the_same(
    store: Store, desk: Phone, record: Record, unit: Unit
) -> None:
    decide(store, desk, record, "accepted")
    baseline = {"record": record.sha256, "values": {"pressure": {"value": 6.5, "unit": "bar"}}}
    assert store.baselines.of_unit(unit.id) == baseline
    assert store.baselines.of_unit(unit.id) == baseline
    assert store.baselines.of_unit("another") == NOTHING


def test_it_holds_while_its_record_is_open_again_and_gives_way_to_the_corrected_one(
    store: Store, phone: Phone, desk: Phone, record: Record, unit: Unit
) -> None:
    decide(store, desk, record, "accepted")
    decide(store, desk, record, "returned", "The count has come.")
    assert store.baselines.of_unit(unit.id)["record"] == record.sha256
    again = phone.signed_record(store.visits.get(record.visit), record.content()["events"])
    corrected = store.records.get(receive_record(store, again, phone.person).sha256)
    decide(store, desk, corrected, "accepted")
    assert store.baselines.of_unit(unit.id)["record"] == corrected.sha256


def test_only_numbers_that_the_record_has_are_values() -> None:
    flow = {"id": "flow", "from": "membrane.flow", "unit": "L/min"}
    drop = {"id": "drop", "from": "filter.drop", "unit": "bar"}
    judgement = {"quantities": {"membrane.flow": {"value": 1.5}, "filter.drop": {"value": None}}}
    assert values_of(judgement, {"baseline": [flow, drop]}) == {"flow": {"value": 1.5, "unit": "L/min"}}
    assert values_of(judgement, {}) == {}
