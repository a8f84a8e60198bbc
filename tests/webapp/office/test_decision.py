"""Countersigning and returning: what is checked before, what follows after, and who may."""

import html5lib
import pytest

from tests.phone import Phone
from webapp.office.offer import MEANINGS, OWN_WORK
from webapp.receiving import receive_events, receive_record


def said(answer):
    """The problems that the page lists on top."""
    page = answer.text
    return page.split('class="error-summary"')[1].split("</ul>")[0] if "error-summary" in page else ""


def test_accepting_makes_the_unit_accepted_and_sets_the_next_service(decide, waiting, store, unit):
    record = waiting()
    answer = decide(record)
    assert answer.status_code == 303
    state = store.listing.unit_state(unit.id)
    assert (state.state, state.record) == ("accepted", record.sha256)
    assert state.next_service == "2027-11-25"  # twelve months after the clock of the tests
    assert store.visits.get(record.visit).state == "accepted"


def test_conditions_are_kept_and_stand_behind_the_label(decide, waiting, store, unit, client):
    decide(waiting(), "accepted_with_conditions", "Second filter within a week.")
    assert store.listing.unit_state(unit.id).conditions == ("Second filter within a week.",)
    assert "Second filter within a week." in client.get(f"/u/{unit.token}").text


def test_a_return_opens_the_visit_again_with_its_reasons(decide, waiting, store):
    record = waiting()
    decide(record, "returned", "The gauge was out of date.")
    visit = store.visits.get(record.visit)
    assert visit.state == "returned"
    assert visit.returned["reasons"] == "The gauge was out of date."
    assert store.records.get(record.sha256).state == "returned"


@pytest.mark.parametrize("decision", ["returned", "accepted_with_conditions"])
def test_a_return_and_conditions_need_reasons_and_nothing_typed_is_lost(decide, waiting, store, decision):
    record = waiting()
    answer = decide(record, decision, "  ")
    assert "Write the reasons" in said(answer)
    page = html5lib.parse(answer.text, namespaceHTMLElements=False)
    chosen = [one.get("value") for one in page.iter("input") if "checked" in one.attrib]
    assert chosen == [decision]
    assert store.records.get(record.sha256).decision is None


def test_the_password_is_asked_for_again(decide, waiting, store):
    record = waiting()
    assert "not your password" in said(decide(record, password="something else"))
    assert "Enter your password." in said(decide(record, password=""))
    assert store.records.get(record.sha256).decision is None


def test_guesses_of_the_password_are_slowed_down(decide, waiting):
    record = waiting()
    answers = [said(decide(record, password="wrong guess")) for _ in range(6)]
    assert "Too many attempts" in answers[-1]


def test_a_decision_that_the_browser_did_not_sign_is_not_taken(decide, waiting, store):
    record = waiting()
    assert "did not sign" in said(decide(record, jws=" "))
    assert store.records.get(record.sha256).decision is None


def test_the_signature_must_be_over_what_the_form_says(decide, waiting, store, desk):
    record = waiting()
    other = desk.signed_decision(record.sha256, "returned", "something else")
    assert "does not belong to" in said(decide(record, "accepted", jws=other))
    elsewhere = desk.signed_decision("0" * 64)
    assert "does not belong to" in said(decide(record, jws=elsewhere))
    assert store.records.get(record.sha256).decision is None


def test_a_signature_of_an_unknown_key_is_refused_and_kept_apart(decide, waiting, store, people):
    record = waiting()
    stranger = Phone(store, people["quality"])
    stranger.person = people["supervisor"]
    answer = decide(record, jws=stranger.signed_decision(record.sha256, meaning=MEANINGS["accepted"]))
    assert "belongs to another person" in said(answer)
    assert store.records.get(record.sha256).decision is None
    assert [one.kind for one in store.quarantine.waiting()] == ["decision"]


def test_a_revoked_key_decides_nothing(decide, waiting, store, desk):
    record = waiting()
    store.devices.revoke(desk.thumbprint)
    assert "revoked" in said(decide(record))
    assert store.records.get(record.sha256).decision is None


def test_nobody_decides_on_a_record_that_they_signed(decide, waiting, sign_in, store, supervisor, desk):
    """OWASP ASVS 5.0.0, 2.3.5: two people for what matters."""
    record = waiting(by=desk)
    page = sign_in(supervisor).get(f"/office/records/{record.sha256}").text
    assert OWN_WORK in page
    assert "Sign the decision" not in page
    decide(record)
    assert store.records.get(record.sha256).decision is None


def test_nobody_decides_on_a_record_in_which_they_entered_something(
    sign_in, store, supervisor, desk, phone, unit
):
    visit = phone.start(unit)
    note = desk.event(visit.id, "test#note", {"value": "I looked in."})
    receive_events(store, [note], desk.person)
    answer = receive_record(store, phone.signed_record(visit, [*phone.entries(visit.id), note]), phone.person)
    assert answer.state == "signed", answer.reasons
    assert OWN_WORK in sign_in(supervisor).get(f"/office/records/{answer.sha256}").text


@pytest.mark.parametrize("role", ["installer", "quality", "administrator"])
def test_only_a_supervisor_decides(waiting, sign_in, store, role):
    record = waiting()
    answer = sign_in(role).press(f"/office/records/{record.sha256}/decision", decision="accepted")
    assert answer.status_code == 403
    assert store.records.get(record.sha256).decision is None


def test_a_decision_is_taken_once(decide, waiting, store):
    record = waiting()
    decide(record)
    again = decide(record, "accepted", meaning=MEANINGS["accepted"])
    assert "Choose one of what is offered." in said(again)
    assert [one.decision for one in store.records.get(record.sha256).decisions] == ["accepted"]


def test_a_page_that_was_opened_before_the_acceptance_reopens_nothing(decide, waiting, store):
    record = waiting()
    decide(record)
    late = decide(record, "returned", "The gauge was out of date.", meaning=MEANINGS["returned"])
    assert "does not belong to" in said(late)
    assert store.records.get(record.sha256).state == "accepted"


def test_a_record_overtaken_by_another_of_the_unit_can_only_be_returned(decide, waiting, sign_in, supervisor):
    first, second = waiting(), waiting()
    decide(first)
    page = sign_in(supervisor).get(f"/office/records/{second.sha256}").text
    assert 'value="returned"' in page
    assert 'value="accepted"' not in page
    assert "accepted meanwhile" in page


def test_the_meanings_that_are_signed_can_be_read_on_the_page(waiting, sign_in, supervisor):
    """21 CFR 11.50(a)(3): the meaning associated with the signature."""
    page = sign_in(supervisor).get(f"/office/records/{waiting().sha256}").text
    for meaning in MEANINGS.values():
        assert meaning in page


def test_every_decision_is_in_the_audit_trail(decide, waiting, store):
    record = waiting()
    decide(record, "returned", "No.")
    assert [one.action for one in store.audit.of(record.sha256)] == ["record_received", "record_returned"]
