"""A phone that lost its storage is noticed, because it asks for work without what it had sent."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_events, receive_record
from webapp.store import Store


@pytest.fixture
def light(tmp_path: Path, clock) -> Iterator[Store]:
    """A store without an application."""
    made = Store(tmp_path / "light.db", clock)
    yield made
    made.close()


@pytest.fixture
def phone(light: Store) -> Phone:
    return Phone(light, light.people.add("ilse", "Ilse Brook", "installer", "!"))


@pytest.fixture
def visit(light: Store, phone: Phone) -> str:
    return open_visit(light, phone)


def open_visit(store: Store, phone: Phone) -> str:
    """An open visit with two acknowledged entries of the phone."""
    site = store.sites.add("Weir House, basement", "", {})
    visit = phone.start(store.units.add("Basement unit", "FW-0001", site.id, {}))
    receive_events(store, [phone.reading(visit.id), phone.reading(visit.id, 7)], phone.person)
    return visit.id


def losses(store: Store) -> list[tuple[str, bool]]:
    return [(one.name, one.certain) for one in store.contacts.losses()]


def test_the_phone_is_told_what_it_lacks_and_the_office_that_it_did(sign_in, store, people) -> None:
    phone = Phone(store, people["installer"])
    visit = open_visit(store, phone)
    body = {"device": phone.thumbprint, "visits": {}}
    answer = sign_in("installer").call("POST", "/api/held", json=body)
    assert answer.json == {"short": [visit]}
    office = sign_in("supervisor")
    page = office.get("/office/").text
    assert "Phones that may have lost entries" in page
    assert "Open visit of Basement unit. Came on 25 November 2026 without entries" in page
    refused = office.call("POST", "/api/held", json=body)
    assert (refused.status_code, refused.json["code"]) == (422, "device_unknown"), "it is somebody else's"


def test_a_phone_that_has_everything_is_not_noticed(light, phone: Phone, visit) -> None:
    assert light.contacts.note(phone.thumbprint, {visit: 2}) == []
    assert light.contacts.note(phone.thumbprint, {visit: 3}) == [], "one is not sent yet"
    assert losses(light) == []


def test_a_phone_without_entries_it_had_sent_is_noticed_until_the_visit_is_finished(
    light, phone: Phone, visit
) -> None:
    assert light.contacts.note(phone.thumbprint, {visit: 1}) == [visit]
    assert light.contacts.note(phone.thumbprint, {visit: 2}) == [], "it has fetched them again"
    assert losses(light) == [("trial phone", True)]
    desk = Phone(light, light.people.add("sami", "Sami Weir", "supervisor", "!"))
    answer = receive_record(light, phone.signed_record(light.visits.get(visit)), phone.person)
    receive_decision(light, desk.signed_decision(answer.sha256), desk.person, 12)
    assert losses(light) == []


def test_a_phone_that_was_prepared_anew_is_noticed_until_the_old_one_is_heard_of(
    light, phone: Phone, visit, clock
) -> None:
    clock.advance(hours=1)
    again = Phone(light, phone.person, "the same phone again")
    light.contacts.note(again.thumbprint, {})
    assert losses(light) == [("trial phone", False)]
    clock.advance(minutes=1)
    light.contacts.note(phone.thumbprint, {visit: 2})
    assert losses(light) == [], "it was a second phone"


def counted(store: Store) -> dict[str, int]:
    """How many entries stand in each open visit, counted in the entries themselves."""
    sql = """select visit, count(*) as number from events join visit_states using (visit)
        where state not in ('signed', 'accepted') group by visit"""
    return {row["visit"]: row["number"] for row in store.connection.read().query(sql)}


def test_what_a_phone_has_in_open_visits_is_known_through_signature_return_and_late_entries(
    light, phone: Phone, visit
) -> None:
    desk = Phone(light, light.people.add("sami", "Sami Weir", "supervisor", "!"))
    other = Phone(light, light.people.add("ivor", "Ivor Lane", "installer", "!"))
    receive_events(light, [other.reading(visit, 8)], other.person)
    assert light.contacts.acknowledged(phone.thumbprint) == {visit: 2}
    assert counted(light) == {visit: 3}
    signed = receive_record(light, phone.signed_record(light.visits.get(visit)), phone.person)
    receive_events(light, [phone.reading(visit, 9)], phone.person)
    assert light.contacts.acknowledged(phone.thumbprint) == counted(light) == {}
    receive_decision(light, desk.signed_decision(signed.sha256, "returned", "Again."), desk.person, 12)
    assert light.contacts.acknowledged(phone.thumbprint) == {visit: 6}
    assert counted(light) == {visit: 7}
    receive_events(light, [phone.reading(visit, 5)], phone.person)
    assert light.contacts.acknowledged(phone.thumbprint) == {visit: 7}
    light.listing.rebuild()
    assert light.contacts.acknowledged(phone.thumbprint) == {visit: 7}
    assert light.contacts.acknowledged(other.thumbprint) == {visit: 1}


def test_a_revoked_phone_is_dealt_with(light, phone: Phone, visit) -> None:
    light.contacts.note(phone.thumbprint, {})
    assert losses(light) == [("trial phone", True)]
    light.devices.revoke(phone.thumbprint)
    assert losses(light) == []
