"""What later visits are compared with is what the unit's last accepted record says."""

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Record, Store, Unit
from webapp.store.baselines import START, gone_on, values_of

NOTHING = {"record": None, "values": {}, "last": None}


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
    values = {"pressure": {"value": 6.5, "unit": "bar"}}
    baseline = {"record": record.sha256, "values": values, "last": None}
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


def told(flow: float | None, drop: float | None = None, membranes: str = "in_use") -> dict:
    """The content of an accepted record, as far as a baseline asks for it."""
    known = {"membrane.flow": flow, "filter.drop": drop, "membrane.state": membranes}
    quantities = {name: {"value": value} for name, value in known.items()}
    return {"signed_at": "2026-11-25T09:00:00.000Z", "judgement": {"quantities": quantities}}


NEW_MEMBRANE = [{"quantity": "membrane.state", "is": ["new"], "given": None}]
BASELINE = [
    {"id": "flow", "from": "membrane.flow", "unit": "L/min", "anew": NEW_MEMBRANE},
    {"id": "drop", "from": "filter.drop", "unit": "bar", "anew": None},
]
COMMISSIONING = {"sets_baseline": True, "compares": False, "baseline": BASELINE}
REQUALIFICATION = {"sets_baseline": True, "compares": True, "baseline": BASELINE}
SERVICE = {"sets_baseline": False, "compares": True, "baseline": BASELINE}


def after(*visits: tuple[dict, dict]) -> dict:
    state = START
    for number, (procedure, content) in enumerate(visits):
        state = gone_on(state, f"{number}", content, procedure)
    return state


def flow_and_record(state: dict) -> tuple[float, str | None]:
    return state["values"]["flow"]["value"], state["values"]["flow"].get("record")


def test_small_losses_add_up_because_no_later_visit_moves_the_acceptance() -> None:
    state = after(
        (COMMISSIONING, told(2.0)),
        (REQUALIFICATION, told(1.8)),
        (SERVICE, told(1.7)),
        (REQUALIFICATION, told(1.6)),
    )
    assert state["record"] == "0"
    assert flow_and_record(state) == (2.0, None)
    assert state["last"]["record"] == "3"
    assert state["last"]["values"]["flow"]["value"] == 1.6


@pytest.mark.parametrize("procedure", [REQUALIFICATION, SERVICE])
def test_new_membranes_are_compared_with_themselves_and_everything_else_with_the_acceptance(
    procedure,
) -> None:
    state = after(
        (COMMISSIONING, told(2.0, 0.3)), (procedure, told(2.2, 0.4, "new")), (REQUALIFICATION, told(2.1, 0.5))
    )
    assert flow_and_record(state) == (2.2, "1")
    assert state["values"]["drop"] == {"value": 0.3, "unit": "bar"}


def test_new_membranes_without_a_value_have_none_until_a_requalification_finds_it() -> None:
    first = [(COMMISSIONING, told(2.0)), (SERVICE, told(None, membranes="new"))]
    assert "flow" not in after(*first)["values"]
    assert "flow" not in after(*first, (SERVICE, told(2.1)))["values"]
    assert flow_and_record(after(*first, (REQUALIFICATION, told(2.1)))) == (2.1, "2")


def test_a_unit_that_was_commissioned_elsewhere_starts_with_its_first_requalification() -> None:
    state = after((SERVICE, told(1.9)), (REQUALIFICATION, told(2.0)), (REQUALIFICATION, told(1.8)))
    assert flow_and_record(state) == (2.0, "1")
    assert after((SERVICE, told(1.9)))["values"] == {}


def test_a_new_commissioning_and_an_old_requalification_that_told_nothing_of_parts_set_all() -> None:
    old = {**REQUALIFICATION, "baseline": [{"id": "flow", "from": "membrane.flow", "unit": "L/min"}]}
    for procedure in (COMMISSIONING, old):
        state = after((COMMISSIONING, told(2.0)), (procedure, told(1.8)))
        assert (state["record"], flow_and_record(state)) == ("1", (1.8, None))
