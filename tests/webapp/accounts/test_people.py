"""The administration of people."""

import re

import pytest

from webapp.store import Store


@pytest.fixture
def administrator(sign_in):
    return sign_in("administrator")


def shown_password(page: str) -> str:
    return re.search(r"<strong>([2-9A-Z-]{19})</strong>", page).group(1)


def test_a_person_is_added_with_a_password_that_is_shown_once(administrator, client, store: Store) -> None:
    response = administrator.submit("/people/new", login="nils", name="Nils Ford", role="installer")
    password = shown_password(response.text)
    nils = store.people.by_login("nils")
    assert (nils.name, nils.role, nils.one_time_password) == ("Nils Ford", "installer", True)
    assert password not in administrator.get(f"/people/{nils.id}").text
    assert client.submit("/sign-in", login="nils", password=password).status_code == 303
    assert client.get("/").location == "/account/password"


def test_a_taken_login_is_named_and_what_was_typed_stays(administrator) -> None:
    page = administrator.submit("/people/new", login="Installer", name="Nils Ford", role="quality").text
    assert "Another person already has the login" in page
    assert 'value="Nils Ford"' in page


def test_the_list_shows_everybody_with_role_and_state(administrator, store: Store, people) -> None:
    store.people.set_active(people["quality"].id, False)
    page = administrator.get("/people").text
    for name in ("Ilse Brook", "Sami Weir", "Quinn Leat", "Ada Mere", "Disabled"):
        assert name in page


def test_name_and_role_can_be_changed_and_both_are_in_the_audit_trail(
    administrator, store: Store, people
) -> None:
    key = people["installer"].id
    administrator.submit(f"/people/{key}", name="Ilse Brook-Weir", role="supervisor")
    assert (store.people.get(key).name, store.people.get(key).role) == ("Ilse Brook-Weir", "supervisor")
    entry = store.audit.of(key)[-1]
    assert (entry.action, entry.details["role_before"], entry.details["role"]) == (
        "person_changed",
        "installer",
        "supervisor",
    )
    assert entry.person == people["administrator"].id


def test_a_new_one_time_password_signs_the_person_out(administrator, sign_in, store: Store, people) -> None:
    theirs = sign_in("installer")
    page = administrator.press(f"/people/{people['installer'].id}/one-time-password").text
    assert shown_password(page)
    assert theirs.get("/account").status_code == 303
    assert store.people.get(people["installer"].id).one_time_password


def test_a_disabled_person_is_signed_out_and_may_be_let_in_again(
    administrator, sign_in, store: Store, people
) -> None:
    theirs = sign_in("installer")
    administrator.press(f"/people/{people['installer'].id}/disable")
    assert not store.people.get(people["installer"].id).active
    assert theirs.get("/account").status_code == 303
    administrator.press(f"/people/{people['installer'].id}/enable")
    assert store.people.get(people["installer"].id).active


def test_nobody_locks_themselves_out(administrator, store: Store, people) -> None:
    key = people["administrator"].id
    administrator.press(f"/people/{key}/disable")
    page = administrator.submit(f"/people/{key}", name="Ada Mere", role="quality").text
    assert "Ask another administrator" in page
    assert (store.people.get(key).active, store.people.get(key).role) == (True, "administrator")


def test_an_unknown_person_is_not_found(administrator) -> None:
    response = administrator.get("/people/nobody")
    assert response.status_code == 404
    assert "There is no person" in response.text
