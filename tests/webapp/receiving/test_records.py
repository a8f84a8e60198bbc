"""Records: accepted as they are, or quarantined with the reason; never dropped."""

import hashlib
from collections.abc import Callable
from typing import Any

import pytest

from tests.phone import PROCEDURE, Phone, named, sha256
from webapp.receiving import Answer, receive_decision, receive_events, receive_record, reopen_quarantined
from webapp.store import Store, Unit, Visit

ELSEWHERE = "0" * 64


@pytest.fixture
def visit(phone: Phone, unit: Unit) -> Visit:
    return phone.start(unit)


@pytest.fixture
def send(store: Store, phone: Phone) -> Callable[[str], Answer]:
    return lambda text: receive_record(store, text, phone.person)


def codes(answer: Answer) -> list[str]:
    return [reason["code"] for reason in answer.reasons]


def test_a_record_brings_its_entries_along(store: Store, phone: Phone, visit: Visit, send) -> None:
    events = phone.entries(visit.id)
    text = phone.signed_record(visit, events)
    answer = send(text)
    assert (answer.state, answer.reasons) == ("signed", [])
    assert store.records.get(answer.sha256).jws == text, "kept byte for byte"
    assert [one.content() for one in store.events.of_visit(visit.id)] == events
    assert store.visits.get(visit.id).state == "signed"
    assert [one.sha256 for one in store.listing.queue()] == [answer.sha256]


def test_sending_a_record_again_changes_nothing(store: Store, phone: Phone, visit: Visit, send) -> None:
    text = phone.signed_record(visit)
    assert send(text) == send(text)
    assert len(store.records.all()) == 1
    assert store.quarantine.all() == []


def test_another_signature_over_the_same_content_is_the_same_record(store: Store, phone, visit, send) -> None:
    content = phone.record(visit, phone.entries(visit.id))
    first = phone.sign(content, "firstwater-record+jws")
    second = phone.sign(content, "firstwater-record+jws")
    assert first != second, "ECDSA signatures are randomised"
    assert send(first).sha256 == send(second).sha256 == sha256(content)
    assert store.records.get(sha256(content)).jws == first


def test_the_record_names_photos_until_they_come(store: Store, phone: Phone, visit: Visit, send) -> None:
    name = hashlib.sha256(b"picture").hexdigest()
    events = phone.entries(visit.id)
    events.insert(0, phone.event(visit.id, "test.picture", {"sha256": name, "type": "image/jpeg", "size": 7}))
    answer = send(phone.signed_record(visit, events))
    assert (answer.state, codes(answer)) == ("signed", ["photos_missing"])
    assert answer.reasons[0]["photos"] == [name]
    store.photos.keep(name, b"picture", phone.person.id)
    assert store.records.get(answer.sha256).reasons == []


def test_entries_that_the_record_leaves_out_are_named(store: Store, phone: Phone, visit: Visit, send) -> None:
    other = phone.reading(visit.id, 7.0)
    receive_events(store, [other], phone.person)
    answer = send(phone.signed_record(visit))
    assert (answer.state, codes(answer)) == ("signed", ["events_left_out"])
    assert answer.reasons[0]["events"] == [other["id"]]


def test_reference_data_that_differ_are_named(
    store: Store, phone: Phone, visit: Visit, unit: Unit, send
) -> None:
    plate = {"maximum_pressure": {"value": 6, "unit": "bar"}}
    content = phone.record(visit, phone.entries(visit.id))
    store.units.change(unit.id, name=unit.name, serial=unit.serial, site=unit.site, plate=plate)
    answer = send(phone.sign(content, "firstwater-record+jws"))
    assert (answer.state, codes(answer)) == ("signed", ["reference_differs"])
    assert answer.reasons[0]["places"] == ["plate.maximum_pressure"]


def test_values_read_at_the_unit_are_named_for_the_supervisor(
    store: Store, phone: Phone, visit: Visit, unit: Unit, send
) -> None:
    plate = {"maximum_pressure": {"value": 5, "typed": "5", "unit": "bar"}}
    store.units.change(unit.id, name=unit.name, serial=unit.serial, site=unit.site, plate=plate)
    read = phone.event(visit.id, "plate.maximum_pressure", {"typed": "6", "unit": "bar", "value": 6})
    strange = phone.event(visit.id, "plate.colour", {"value": "red"})
    events = [read, strange, *phone.entries(visit.id)]
    answer = send(phone.signed_record(visit, events))
    assert (answer.state, codes(answer)) == ("signed", ["plate_read_at_unit"])
    assert answer.reasons[0]["fields"] == ["plate.maximum_pressure"]
    assert "Maximum pressure: 6 bar (the office had 5 bar)" in answer.reasons[0]["detail"]
    content = store.records.get(answer.sha256).content()
    assert content["judgement"]["quantities"]["plate.maximum_pressure"]["value"] == 6
    assert content["unit"]["plate"] == plate


def test_a_record_that_names_a_baseline_as_entered_is_quarantined(phone: Phone, visit: Visit, send) -> None:
    entered = phone.event(visit.id, "baseline.pressure", {"typed": "6", "unit": "bar", "value": 6})
    answer = send(phone.signed_record(visit, [entered, *phone.entries(visit.id)]))
    assert (answer.state, codes(answer)) == ("quarantined", ["shape"])


def test_a_clock_that_was_ahead_is_named(phone: Phone, visit: Visit, send) -> None:
    answer = send(phone.signed_record(visit, signed_at="2026-11-25T09:36:00.000Z"))
    assert codes(answer) == ["clock_ahead"]
    assert answer.state == "signed"


def altered(content: dict[str, Any], place: str, value: Any) -> dict[str, Any]:
    *path, last = place.split(".")
    inner = content
    for name in path:
        inner = inner[int(name) if name.isdigit() else name]
    inner[last] = value
    return content


@pytest.mark.parametrize(
    ("offset", "expected"),
    [
        (None, None),
        (59_000, None),
        (720_000, "The phone's clock was 12 min slow when it last met the server."),
        (-90_000_000, "The phone's clock was 1500 min fast when it last met the server."),
    ],
)
def test_a_clock_that_was_wrong_is_named(phone: Phone, visit: Visit, send, offset, expected) -> None:
    answer = send(phone.signed_record(visit, clock_offset=offset))
    assert answer.state == "signed"
    details = [reason["detail"] for reason in answer.reasons if reason["code"] == "clock_off"]
    assert details == ([expected] if expected else [])


OTHER = "The phone judged with other formulas than the server"


@pytest.mark.parametrize(
    ("place", "value", "state", "detail"),
    [
        (None, None, "signed", f"{OTHER}; the verdicts are the same."),
        ("quantities", 11, "signed", "values differ at judgement.quantities.test.limit.value."),
        ("rules", "fail", "quarantined", "which differ at judgement.rules.test.tight.verdict."),
    ],
)
def test_other_formulas_are_told_and_keep_a_record_out_only_where_a_verdict_differs(
    store: Store, phone: Phone, visit: Visit, send, place, value, state, detail
) -> None:
    content = phone.record(visit, phone.entries(visit.id), formulas="0" * 64)
    if place == "quantities":
        content["judgement"][place]["test.limit"]["value"] = value
    elif place:
        content["judgement"][place]["test.tight"]["verdict"] = value
    answer = send(phone.sign(content, "firstwater-record+jws"))
    assert (answer.state, codes(answer)) == (state, ["formulas_differ"])
    assert answer.reasons[0]["detail"].startswith(OTHER)
    assert answer.reasons[0]["detail"].endswith(detail)
    assert len(store.quarantine.waiting()) == (state == "quarantined"), "kept there, never dropped"


@pytest.mark.parametrize(
    ("place", "value", "code"),
    [
        ("visit", "00000000-0000-4000-8000-000000000000", "event_elsewhere"),
        ("kind", "repair", "visit_differs"),
        ("previous", ELSEWHERE, "chain_broken"),
        ("corrects", ELSEWHERE, "corrects_differs"),
        ("procedure.hash", ELSEWHERE, "procedure_unknown"),
        ("judgement.record.verdict", "conditional_pass", "verdicts_differ"),
        ("judgement.quantities.test.limit", {}, "verdicts_differ"),
        ("events.0.content.value", 9.9, "verdicts_differ"),
        ("signer.id", "somebody", "signer_differs"),
        ("signer.role", "quality", "role_differs"),
        ("device", "A" * 43, "device_differs"),
        ("meaning", "", "shape"),
        ("signed_at", "yesterday", "shape"),
        ("type", "firstwater-decision", "shape"),
        ("extra", 1, "shape"),
    ],
)
def test_what_does_not_fit_is_quarantined(store, phone: Phone, visit, send, place, value, code) -> None:
    content = phone.record(visit, phone.entries(visit.id))
    if place.startswith("judgement.quantities"):
        content["judgement"]["quantities"]["test.limit"] = value
    else:
        altered(content, place, value)
    text = phone.sign(content, "firstwater-record+jws")
    answer = send(text)
    assert answer.state == "quarantined"
    assert code in codes(answer)
    assert answer.sha256 == sha256(content)
    assert [item.document for item in store.quarantine.waiting()] == [text]
    assert store.records.all() == []
    assert store.events.select(order="id") == [], "nothing is stored by half"


def test_an_incomplete_record_cannot_be_signed(phone: Phone, visit: Visit, send) -> None:
    assert codes(send(phone.signed_record(visit, [phone.reading(visit.id)]))) == ["incomplete"]


def test_a_record_from_a_revoked_phone_is_quarantined(store: Store, phone: Phone, visit: Visit, send) -> None:
    text = phone.signed_record(visit)
    store.devices.revoke(phone.thumbprint)
    assert codes(send(text)) == ["device_revoked"]
    assert store.visits.get(visit.id).state == "quarantined"


def test_a_record_from_a_phone_never_enrolled_is_quarantined(
    store: Store, phone: Phone, visit, send, people
) -> None:
    stranger = Phone(store, people["installer"])
    stranger.thumbprint = "B" * 43
    assert codes(send(stranger.signed_record(visit))) == ["device_unknown"]


def test_text_that_is_no_record_is_quarantined_too(store: Store, send) -> None:
    answer = send("nonsense")
    assert codes(answer) == ["not_a_jws"]
    assert answer.sha256 == hashlib.sha256(b"nonsense").hexdigest()
    assert store.quarantine.waiting()[0].document == "nonsense"


def test_entries_of_others_must_have_come_from_them(
    store: Store, phone: Phone, visit: Visit, send, people
) -> None:
    colleague = Phone(store, people["supervisor"])
    theirs = colleague.reading(visit.id, 7.5)
    events = [theirs, *phone.entries(visit.id)]
    events[1]["replaces"] = [theirs["id"]]
    text = phone.signed_record(visit, events)
    assert codes(send(text)) == ["event_unknown"]
    receive_events(store, [theirs], colleague.person)
    reopen_quarantined(store, store.quarantine.waiting()[0].id, colleague.person, "The entry has come now.")
    assert send(text).state == "signed"


def test_an_entry_that_was_altered_after_it_was_sent_is_noticed(
    store: Store, phone: Phone, visit, send
) -> None:
    events = phone.entries(visit.id)
    receive_events(store, [{**events[0], "app": "another"}], phone.person)
    assert codes(send(phone.signed_record(visit, events))) == ["event_differs"]


def test_a_second_record_of_a_signed_visit_is_quarantined_beside_it(
    store: Store, phone: Phone, visit, send
) -> None:
    first = send(phone.signed_record(visit))
    second = send(phone.signed_record(visit))
    assert codes(second) == ["already_signed"]
    assert store.visits.get(visit.id).state == "signed"
    assert store.visits.get(visit.id).record == first.sha256


def test_two_records_of_one_unit_cannot_both_follow_the_same_one(
    store, phone: Phone, desk, unit, send
) -> None:
    visits = phone.start(unit), phone.start(unit)
    texts = [phone.signed_record(visit) for visit in visits]
    first = send(texts[0])
    receive_decision(store, desk.signed_decision(first.sha256), desk.person, 12)
    assert codes(send(texts[1])) == ["chain_fork"]
    again = phone.signed_record(store.visits.get(visits[1].id))
    assert store.quarantine.waiting()[0].visit == visits[1].id
    assert send(again).state == "signed"


def test_a_quarantined_visit_is_open_again_once_a_supervisor_looked(
    store: Store, phone, desk, visit, send
) -> None:
    wrong = phone.record(visit, phone.entries(visit.id))
    wrong["judgement"]["record"]["verdict"] = "conditional_pass"
    send(phone.sign(wrong, "firstwater-record+jws"))
    assert store.visits.get(visit.id).state == "quarantined"
    item = store.quarantine.waiting()[0]
    reopen_quarantined(store, item.id, desk.person, "Update the app and sign again.")
    found = store.visits.get(visit.id)
    assert (found.state, found.returned["reasons"]) == ("returned", "Update the app and sign again.")
    assert send(phone.signed_record(found)).state == "signed"


def test_a_record_by_somebody_else_than_the_sender_is_quarantined(
    store: Store, phone: Phone, visit, people
) -> None:
    answer = receive_record(store, phone.signed_record(visit), people["supervisor"])
    assert codes(answer) == ["signer_differs"]


def test_the_trial_procedure_is_named_as_the_store_keeps_it(store: Store) -> None:
    assert store.procedures.keep(PROCEDURE) == named(PROCEDURE)["hash"]


def test_a_record_is_looked_up_as_a_whole_however_many_entries_it_has(
    store: Store, phone: Phone, unit: Unit
) -> None:
    def looked_up(corrections: int) -> int:
        visit = phone.start(store.units.add("Unit", f"{corrections}", unit.site, {}))
        entries = phone.entries(visit.id)
        for number in range(corrections):
            entries.append(phone.event(visit.id, "test#note", {"value": f"Note {number}"}))
        receive_events(store, entries[:-1], phone.person)
        asked: list[str] = []
        store.connection._writer.conn.set_trace_callback(asked.append)
        assert receive_record(store, phone.signed_record(visit, entries), phone.person).state == "signed"
        store.connection._writer.conn.set_trace_callback(None)
        assert len(store.events.of_visit(visit.id)) == len(entries)
        return len([sql for sql in asked if sql.startswith("select")])

    assert looked_up(1) == looked_up(40) < 25
