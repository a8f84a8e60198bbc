"""Decisions: who may make which, and what follows."""

import pytest

from tests.phone import Phone, sha256
from webapp.receiving import Answer, receive_decision, receive_events, receive_record
from webapp.receiving.decisions import add_months, next_service
from webapp.store import Record, Store, Unit


@pytest.fixture
def record(store: Store, phone: Phone, unit: Unit) -> Record:
    answer = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    return store.records.get(answer.sha256)


def decide(by: Phone, record: Record, decision: str = "accepted", reasons: str = "", **changes) -> Answer:
    text = by.signed_decision(record.sha256, decision, reasons, **changes)
    return receive_decision(by.store, text, by.person, 12)


def codes(answer: Answer) -> list[str]:
    return [reason["code"] for reason in answer.reasons]


def test_acceptance_makes_the_record_the_units_last_one(store: Store, desk: Phone, record: Record) -> None:
    assert decide(desk, record).state == "accepted"
    state = store.listing.unit_state(record.unit)
    assert (state.state, state.record) == ("accepted", record.sha256)
    assert (state.accepted_on, state.next_service) == ("2026-11-25", "2027-11-25")
    assert store.units.get(record.unit).previous == record.sha256
    assert store.visits.get(record.visit).state == "accepted"
    assert store.records.get(record.sha256).decision.person == desk.person.id


def test_a_site_may_say_when_the_next_service_is_due(
    store: Store, desk: Phone, record: Record, unit: Unit
) -> None:
    site = store.sites.get(unit.site)
    store.sites.change(site.id, name=site.name, address=site.address, values={"service_months": {"value": 3}})
    decide(desk, record)
    assert store.listing.unit_state(record.unit).next_service == "2027-02-25"


def test_the_date_that_was_agreed_and_signed_comes_before_the_usual_interval(
    store: Store, phone: Phone, unit: Unit
) -> None:
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id))
    content["judgement"]["quantities"]["next_service.agreed"] = {"value": 20_800, "unit": "date"}
    text = phone.sign(content, "firstwater-record+jws")
    store.records.keep(sha256(content), content, text, [])
    kept = store.records.get(sha256(content))
    assert next_service(store, kept, 12) == "2026-12-13"  # 20,800 days after 1970-01-01, by date(1)


def test_conditions_are_shown_with_the_unit(store: Store, desk: Phone, record: Record) -> None:
    assert decide(desk, record, "accepted_with_conditions", "Result of the count to follow.").state
    state = store.listing.unit_state(record.unit)
    assert (state.state, state.conditions) == (
        "accepted_with_conditions",
        ("Result of the count to follow.",),
    )


def test_a_return_opens_the_visit_with_what_came_late(
    store: Store, phone: Phone, desk: Phone, record: Record
) -> None:
    late = phone.reading(record.visit, 7.0)
    receive_events(store, [late], phone.person)
    assert [one.id for one in store.events.late(record.visit)] == [late["id"]]
    before = len(store.events.of_visit(record.visit))
    assert decide(desk, record, "returned", "The pressure is not clear.").state == "returned"
    visit = store.visits.get(record.visit)
    assert visit.state == "returned"
    assert visit.returned == {
        "reasons": "The pressure is not clear.",
        "by": desk.person.id,
        "at": "2026-11-25T09:30:00.000Z",
    }
    assert [one.id for one in store.events.of_visit(record.visit, after=before)] == [late["id"]]
    assert store.listing.unit_state(record.unit).state == "not_commissioned"


def test_a_corrected_record_cites_the_returned_one_which_stays(
    store, phone: Phone, desk, record: Record
) -> None:
    decide(desk, record, "returned", "Measure again.")
    visit = store.visits.get(record.visit)
    again = receive_record(store, phone.signed_record(visit), phone.person)
    assert again.state == "signed"
    assert store.records.get(again.sha256).corrects == record.sha256
    assert store.records.get(record.sha256).state == "returned"
    assert decide(desk, store.records.get(again.sha256)).state == "accepted"


def test_nobody_decides_on_what_they_signed(store: Store, desk: Phone, unit: Unit) -> None:
    own = receive_record(store, desk.signed_record(desk.start(unit)), desk.person)
    assert codes(decide(desk, store.records.get(own.sha256))) == ["own_work"]
    assert store.records.get(own.sha256).state == "signed"


def test_nobody_decides_on_a_record_that_holds_an_entry_of_theirs(
    store, phone: Phone, desk, unit: Unit
) -> None:
    visit = phone.start(unit)
    theirs = desk.reading(visit.id, 7.5)
    receive_events(store, [theirs], desk.person)
    events = phone.entries(visit.id)
    events[0]["replaces"] = [theirs["id"]]
    answer = receive_record(store, phone.signed_record(visit, [theirs, *events]), phone.person)
    assert answer.state == "signed"
    assert codes(decide(desk, store.records.get(answer.sha256))) == ["own_work"]


def test_only_a_supervisor_decides(store: Store, record: Record, people) -> None:
    colleague = Phone(store, people["administrator"])
    assert codes(decide(colleague, record)) == ["role_differs"]
    posing = colleague.signature("I reviewed this record.")["signer"] | {"role": "supervisor"}
    assert codes(decide(colleague, record, signer=posing)) == ["signer_differs"]


@pytest.mark.parametrize("decision", ["returned", "accepted_with_conditions"])
def test_reasons_are_needed(desk: Phone, record: Record, decision: str) -> None:
    assert codes(decide(desk, record, decision, "  ")) == ["reasons_missing"]


def test_a_failed_record_can_only_be_returned(store: Store, phone: Phone, desk: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    answer = receive_record(
        store, phone.signed_record(visit, phone.entries(visit.id, tight="no")), phone.person
    )
    record = store.records.get(answer.sha256)
    assert record.verdict == "fail"
    assert codes(decide(desk, record)) == ["record_fails"]
    assert codes(decide(desk, record, "accepted_with_conditions", "All the same.")) == ["record_fails"]
    assert decide(desk, record, "returned", "It leaks.").state == "returned"


def test_the_same_decision_again_gives_the_same_answer_and_another_none(
    store: Store, desk, record: Record
) -> None:
    text = desk.signed_decision(record.sha256)
    assert receive_decision(store, text, desk.person, 12) == receive_decision(store, text, desk.person, 12)
    assert codes(decide(desk, record)) == ["already_decided"]
    assert store.records.get(record.sha256).state == "accepted"
    assert [item.kind for item in store.quarantine.waiting()] == ["decision"]


def test_a_returned_record_is_not_decided_again(store: Store, desk: Phone, record: Record) -> None:
    decide(desk, record, "returned", "Measure again.")
    assert codes(decide(desk, record)) == ["already_decided"]
    assert codes(decide(desk, record, "returned", "And again.")) == ["already_decided"]
    assert store.records.get(record.sha256).state == "returned"


def test_a_record_that_was_overtaken_can_only_be_returned(
    store: Store, phone: Phone, desk: Phone, unit: Unit
) -> None:
    texts = [phone.signed_record(phone.start(unit)) for _ in range(2)]
    records = [store.records.get(receive_record(store, text, phone.person).sha256) for text in texts]
    assert decide(desk, records[0]).state == "accepted"
    assert codes(decide(desk, records[1])) == ["chain_fork"]
    assert decide(desk, records[1], "returned", "Sign again.").state == "returned"


def test_a_decision_about_an_unknown_record_is_kept_apart(store: Store, desk: Phone) -> None:
    answer = receive_decision(store, desk.signed_decision("0" * 64), desk.person, 12)
    assert codes(answer) == ["record_unknown"]
    assert len(store.quarantine.waiting()) == 1


def test_a_decision_with_a_revoked_key_is_kept_apart(store: Store, desk: Phone, record: Record) -> None:
    text = desk.signed_decision(record.sha256)
    store.devices.revoke(desk.thumbprint)
    assert codes(receive_decision(store, text, desk.person, 12)) == ["device_revoked"]


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    # The last day of a shorter month stands in, as calendars do; 2028 is a leap year.
    [
        ("2026-11-25", 12, "2027-11-25"),
        ("2026-08-31", 1, "2026-09-30"),
        ("2027-12-31", 2, "2028-02-29"),
        ("2026-11-30", 1, "2026-12-30"),
        ("2026-12-15", 1, "2027-01-15"),
    ],
)
def test_months_are_added_as_calendars_do(day: str, months: int, expected: str) -> None:
    from datetime import date

    assert add_months(date.fromisoformat(day), months).isoformat() == expected
