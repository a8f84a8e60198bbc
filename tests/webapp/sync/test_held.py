"""A phone that lost its storage is noticed, because it asks for work without what it had sent."""

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_events, receive_record


@pytest.fixture
def visit(store, phone: Phone, unit) -> str:
    """An open visit with two acknowledged entries of the phone."""
    visit = phone.start(unit)
    receive_events(store, [phone.reading(visit.id), phone.reading(visit.id, 7)], phone.person)
    return visit.id


def say(client, phone: Phone, **visits: int):
    return client.call("POST", "/api/held", json={"device": phone.thumbprint, "visits": visits})


def losses(store) -> list[tuple[str, bool]]:
    return [(one.name, one.certain) for one in store.contacts.losses()]


def test_a_phone_that_has_everything_is_not_noticed(sign_in, store, phone: Phone, visit) -> None:
    assert say(sign_in("installer"), phone, **{visit: 2}).json == {"short": []}
    assert say(sign_in("installer"), phone, **{visit: 3}).json == {"short": []}, "one is not sent yet"
    assert losses(store) == []


def test_a_phone_without_entries_it_had_sent_is_noticed_for_good(
    sign_in, store, phone, visit, desk, unit
) -> None:
    installer, office = sign_in("installer"), sign_in("supervisor")
    assert say(installer, phone).json == {"short": [visit]}
    assert say(installer, phone, **{visit: 2}).json == {"short": []}, "it has fetched them again"
    page = office.get("/office/").text
    assert "Phones that may have lost entries" in page
    assert "Open visit of Basement unit. Came on 25 November 2026 without entries" in page

    answer = receive_record(store, phone.signed_record(store.visits.get(visit)), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    assert losses(store) == [], "the visit is finished"


def test_a_phone_that_was_prepared_anew_is_noticed_until_the_old_one_is_heard_of(
    sign_in, store, phone: Phone, visit, clock, people
) -> None:
    installer = sign_in("installer")
    clock.advance(hours=1)
    again = Phone(store, people["installer"], "the same phone again")
    assert losses(store) == [("trial phone", False)]
    assert (
        "Not heard of since Ilse Brook prepared another phone" in sign_in("supervisor").get("/office/").text
    )
    clock.advance(minutes=1)
    say(installer, phone, **{visit: 2})
    assert losses(store) == [], "it was a second phone"
    assert say(installer, again).json == {"short": []}


def test_a_revoked_phone_is_dealt_with(sign_in, store, phone: Phone, visit) -> None:
    say(sign_in("installer"), phone)
    assert losses(store) == [("trial phone", True)]
    store.devices.revoke(phone.thumbprint)
    assert losses(store) == []


def test_nobody_speaks_for_the_phone_of_somebody_else(sign_in, store, phone: Phone, visit) -> None:
    answer = say(sign_in("supervisor"), phone)
    assert (answer.status_code, answer.json["code"]) == (422, "device_unknown")
    assert store.contacts.all() == []
