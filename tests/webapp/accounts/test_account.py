"""One's own account and devices."""

from datetime import timedelta

import pytest

from tests.phone import Phone
from webapp.passwords import fits, hash_password
from webapp.store import Store
from webapp.store.table import written

PASSWORD = "five bright brass kettles"
NEW = "seven slow silver otters"


@pytest.fixture
def ilse(store: Store, people):
    store.people.set_password(people["installer"].id, hash_password(PASSWORD))
    return people["installer"]


def test_the_account_page_says_who_one_is(sign_in) -> None:
    assert "Ilse Brook" in sign_in("installer").get("/account").text


def test_a_new_password_ends_the_other_sessions(sign_in, store: Store, ilse) -> None:
    here, there = sign_in("installer"), sign_in("installer")
    response = here.submit("/account/password", present=PASSWORD, new=NEW, again=NEW)
    assert response.status_code == 303
    assert fits(store.people.password(ilse.id).hash, NEW)
    assert here.get("/account").status_code == 200
    assert there.get("/account").status_code == 303


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"present": "wrong"}, "Check it and enter it again."),
        ({"again": "another one here"}, "The two new passwords differ."),
        ({"new": "short", "again": "short"}, "Choose a password of at least 12 characters"),
        ({"new": "", "again": ""}, "Enter a new password."),
    ],
)
def test_what_hinders_a_new_password_is_said(
    sign_in, store: Store, ilse, fields: dict, sentence: str
) -> None:
    filled = {"present": PASSWORD, "new": NEW, "again": NEW} | fields
    response = sign_in("installer").submit("/account/password", **filled)
    assert response.status_code == 200
    assert sentence in response.text
    assert fits(store.people.password(ilse.id).hash, PASSWORD)


def test_with_a_one_time_password_one_has_to_choose_an_own_one_first(
    sign_in, client, store: Store, ilse
) -> None:
    until = written(store.clock() + timedelta(days=7))
    store.people.set_password(ilse.id, hash_password(PASSWORD), until)
    assert client.submit("/sign-in", login="installer", password=PASSWORD).status_code == 303
    assert client.get("/account").location == "/account/password"
    response = client.get("/api/session")
    assert (response.status_code, response.json["code"]) == (403, "new_password_needed")
    client.submit("/account/password", present=PASSWORD, new=NEW, again=NEW)
    assert client.get("/account").status_code == 200


def test_a_one_time_password_runs_out(client, store: Store, ilse, clock) -> None:
    store.people.set_password(ilse.id, hash_password(PASSWORD), written(store.clock() + timedelta(days=7)))
    clock.advance(days=7, seconds=1)
    assert client.submit("/sign-in", login="installer", password=PASSWORD).status_code == 401


def test_the_devices_are_listed_and_can_be_revoked(sign_in, store: Store, phone: Phone) -> None:
    client = sign_in("installer")
    assert "trial phone" in client.get("/account/devices").text
    assert client.press(f"/account/devices/{phone.thumbprint}/revoke").location == "/account/devices"
    assert store.devices.find(phone.thumbprint).revoked_at is not None
    assert "Revoked" in client.get("/account/devices").text


def test_a_device_of_somebody_else_is_not_there(sign_in, store: Store, desk: Phone) -> None:
    response = sign_in("installer").press(f"/account/devices/{desk.thumbprint}/revoke")
    assert response.status_code == 404
    assert store.devices.find(desk.thumbprint).revoked_at is None


def test_an_administrator_revokes_anybodys_device(sign_in, store: Store, phone: Phone) -> None:
    response = sign_in("administrator").press(f"/account/devices/{phone.thumbprint}/revoke")
    assert response.location == f"/people/{phone.person.id}"
    assert store.devices.find(phone.thumbprint).revoked_at is not None


def test_the_page_for_preparing_a_phone_has_what_its_script_needs(sign_in, phone: Phone) -> None:
    page = sign_in("installer").get("/phone").text
    assert 'data-module="prepare-phone"' in page
    assert 'name="name"' in page
    assert 'name="password"' in page
    assert "trial phone" in page
    # A press before the script is there would send the form to a server that can do nothing with it.
    assert '<button class="button" disabled data-until-started>' in page
    assert "the button works in a moment" in page


def test_without_javascript_the_page_says_so_and_shows_no_password(sign_in, people) -> None:
    response = sign_in("installer").submit("/phone", name="mine", password=PASSWORD)
    assert "needs JavaScript" in response.text
    assert PASSWORD not in response.text
