"""The page of a unit for those who are signed in: its state, its records, who decided, and its label."""

import pytest

from webapp.receiving import receive_decision, receive_record


@pytest.fixture
def record(store, unit, phone, desk):
    sha256 = receive_record(store, phone.signed_record(phone.start(unit)), phone.person).sha256
    text = desk.signed_decision(sha256, "accepted_with_conditions", "Second filter within a week.")
    receive_decision(store, text, desk.person, 12)
    return store.records.get(sha256)


def test_it_shows_state_conditions_dates_and_who_decided(sign_in, unit, record):
    page = sign_in("quality").get(f"/units/{unit.id}").text
    for part in ("Accepted with conditions", "Second filter within a week.", "25 November 2026", "Sami Weir"):
        assert part in page
    assert f"/office/records/{record.sha256}/certificate.pdf" in page


def test_an_installer_sees_the_state_and_no_door_to_the_office(sign_in, unit, record):
    page = sign_in("installer").get(f"/units/{unit.id}").text
    assert "Accepted with conditions" in page
    assert "/office/" not in page


def test_the_public_page_shows_conditions_and_dates_and_no_name_of_a_person(client, unit, record):
    page = client.get(f"/u/{unit.token}").text
    for part in ("Accepted with conditions", "Second filter within a week.", "25 November 2027"):
        assert part in page
    for private in ("Sami Weir", "Ilse Brook", record.sha256):
        assert private not in page


def test_an_overdue_service_is_said_on_the_public_page(client, unit, record, clock):
    assert "overdue" not in client.get(f"/u/{unit.token}").text
    clock.advance(days=366)
    assert "(overdue)" in client.get(f"/u/{unit.token}").text


@pytest.mark.parametrize("role", ["installer", "administrator"])
def test_the_label_comes_as_page_svg_and_png(sign_in, unit, role):
    client = sign_in(role)
    assert f"/units/{unit.id}/label.svg" in client.get(f"/units/{unit.id}/label").text
    assert client.get(f"/units/{unit.id}/label.svg").mimetype == "image/svg+xml"
    assert client.get(f"/units/{unit.id}/label.png").data.startswith(b"\x89PNG")


def test_strangers_get_no_label(client, unit):
    assert client.get(f"/units/{unit.id}/label.svg").status_code == 303
