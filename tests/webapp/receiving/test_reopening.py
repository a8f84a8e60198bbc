"""An accepted record that is re-opened because a result came later, and the corrected one after it."""

from dataclasses import replace

import pytest

from tests.phone import Phone
from webapp.receiving import Answer, receive_decision, receive_events, receive_record
from webapp.store import Record, Store, Unit

RESULT_HAS_COME = "The laboratory's result has come."


def decide(by: Phone, record: str, decision: str = "accepted", reasons: str = "") -> Answer:
    return receive_decision(by.store, by.signed_decision(record, decision, reasons), by.person, 12)


def codes(answer: Answer) -> list[str]:
    return [reason["code"] for reason in answer.reasons]


@pytest.fixture
def accepted(store: Store, phone: Phone, desk: Phone, unit: Unit) -> Record:
    sha256 = receive_record(store, phone.signed_record(phone.start(unit)), phone.person).sha256
    assert decide(desk, sha256, "accepted_with_conditions", "Count to follow.").state
    return store.records.get(sha256)


@pytest.fixture
def reopened(store: Store, desk: Phone, accepted: Record, clock) -> Record:
    clock.advance(days=6)
    assert decide(desk, accepted.sha256, "returned", RESULT_HAS_COME).state == "returned"
    return store.records.get(accepted.sha256)


def test_the_visit_is_open_again_and_the_acceptance_holds(store: Store, accepted, reopened: Record) -> None:
    visit = store.visits.get(reopened.visit)
    assert (visit.state, visit.record) == ("returned", reopened.sha256)
    assert visit.returned["reasons"] == RESULT_HAS_COME
    state = store.listing.unit_state(reopened.unit)
    assert (state.state, state.record) == ("accepted_with_conditions", reopened.sha256)
    assert (state.accepted_on, state.reopened_on) == ("2026-11-25", "2026-12-01")
    assert store.units.get(reopened.unit).previous == reopened.sha256


def test_both_decisions_are_kept_in_order(store: Store, accepted: Record, reopened: Record) -> None:
    assert [one.decision for one in reopened.decisions] == ["accepted_with_conditions", "returned"]
    assert reopened.decisions[0] == accepted.decision
    assert (reopened.state, reopened.reopening.reasons) == ("reopened", RESULT_HAS_COME)
    actions = [one.action for one in store.audit.of(reopened.sha256)]
    assert actions == ["record_received", "record_accepted_with_conditions", "record_reopened"]


def test_what_came_late_is_merged(store: Store, phone: Phone, desk: Phone, accepted: Record) -> None:
    late = phone.reading(accepted.visit, 7.0)
    receive_events(store, [late], phone.person)
    decide(desk, accepted.sha256, "returned", RESULT_HAS_COME)
    assert late["id"] in [one.id for one in store.events.of_visit(accepted.visit)]


def test_the_corrected_record_follows_the_one_that_it_corrects(
    store: Store, phone: Phone, desk: Phone, reopened: Record
) -> None:
    visit = store.visits.get(reopened.visit)
    answer = receive_record(store, phone.signed_record(visit), phone.person)
    assert answer.state == "signed", answer.reasons
    corrected = store.records.get(answer.sha256)
    assert (corrected.corrects, corrected.previous) == (reopened.sha256, reopened.sha256)
    assert store.listing.unit_state(reopened.unit).record == reopened.sha256

    assert decide(desk, corrected.sha256).state == "accepted"
    state = store.listing.unit_state(reopened.unit)
    assert (state.state, state.record, state.reopened_on) == ("accepted", corrected.sha256, None)
    assert state.conditions == ()
    assert store.records.get(reopened.sha256) == reopened, "the first record stays as it was"
    assert store.records.corrections(reopened.sha256) == [store.records.get(corrected.sha256)]
    assert set(store.records.accepted(reopened.unit)) == {reopened.sha256, corrected.sha256}


def test_a_corrected_record_that_names_no_record_before_it_is_kept_apart(
    store: Store, phone: Phone, reopened: Record
) -> None:
    visit = store.visits.get(reopened.visit)
    forked = receive_record(store, phone.signed_record(visit, previous=None), phone.person)
    assert codes(forked) == ["chain_fork"]
    other = receive_record(store, phone.signed_record(replace(visit, record=None)), phone.person)
    assert codes(other) == ["corrects_differs"]


def test_the_derived_lists_can_be_made_anew(store: Store, reopened: Record) -> None:
    before = (store.listing.unit_state(reopened.unit), store.visits.get(reopened.visit))
    store.listing.rebuild()
    assert (store.listing.unit_state(reopened.unit), store.visits.get(reopened.visit)) == before
    assert store.records.get(reopened.sha256) == reopened


def test_a_record_is_reopened_once(store: Store, desk: Phone, reopened: Record) -> None:
    assert codes(decide(desk, reopened.sha256, "returned", "Again.")) == ["already_decided"]
    assert codes(decide(desk, reopened.sha256)) == ["already_decided"]


def test_reasons_are_needed_and_nobody_reopens_their_own(store, people, desk, accepted: Record) -> None:
    assert codes(decide(desk, accepted.sha256, "returned", " ")) == ["reasons_missing"]
    own = Phone(store, people["installer"], "another phone")
    assert codes(decide(own, accepted.sha256, "returned", RESULT_HAS_COME)) == ["own_work", "role_differs"]
    assert store.records.get(accepted.sha256).state == "accepted_with_conditions"


def test_only_the_last_accepted_record_of_a_unit_is_reopened(
    store: Store, phone: Phone, desk: Phone, unit: Unit, accepted: Record
) -> None:
    """Else an old visit would speak for the unit again."""
    later = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    decide(desk, later.sha256)
    assert codes(decide(desk, accepted.sha256, "returned", RESULT_HAS_COME)) == ["superseded"]
    assert decide(desk, later.sha256, "returned", RESULT_HAS_COME).state == "returned"


def test_a_phone_that_sends_the_record_again_hears_that_it_was_returned(
    store: Store, phone: Phone, reopened: Record
) -> None:
    assert receive_record(store, reopened.jws, phone.person).state == "returned"
