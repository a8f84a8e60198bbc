"""Passkeys: made by the signed-in person, and good for signing in; see W3C Web Authentication, level 2."""

import pytest

from tests.authenticator import PRESENT, Authenticator
from webapp.passkeys import Place, creation_options, verify_new
from webapp.passwords import hash_password
from webapp.store import Store

PASSWORD = "five bright brass kettles"
PLACE = Place.of("http://localhost")


@pytest.fixture(scope="module")
def hashed() -> str:
    return hash_password(PASSWORD)


@pytest.fixture
def ilse(store: Store, people, hashed):
    store.people.set_password(people["installer"].id, hashed)
    return people["installer"]


@pytest.fixture
def here(sign_in, ilse):
    return sign_in("installer")


def add(client, authenticator: Authenticator, name: str = "phone"):
    options = client.call("POST", "/api/passkeys/options", json={"password": PASSWORD})
    assert options.status_code == 200, options.json
    credential = authenticator.make(options.json)
    return client.call("POST", "/api/passkeys", json={"name": name, "credential": credential})


@pytest.fixture
def mine(store: Store, people) -> Authenticator:
    """Ilse's passkey, on a device that counts; made without the page, which would ask for the password."""
    authenticator, ilse = Authenticator(counter=0), people["installer"]
    options = creation_options(PLACE, ilse, "abcd", [])
    made = verify_new(PLACE, "abcd", authenticator.make(options))
    store.passkeys.add(made.id, ilse.id, "phone", made.public_key, made.counter)
    return authenticator


def challenge(client) -> str:
    return client.post("/api/sign-in/options", json={}, headers={"X-CSRFToken": client.token()}).json[
        "challenge"
    ]


def answer(client, assertion: dict, to: str = "/api/sign-in"):
    return client.post(to, json=assertion, headers={"X-CSRFToken": client.token()})


def sign_in_with(client, authenticator: Authenticator, **changes):
    return answer(client, authenticator.confirm(challenge(client), **changes))


def test_a_passkey_is_made_after_the_password_and_listed(here, store: Store, ilse) -> None:
    response = add(here, Authenticator(), "blue phone")
    assert response.json["name"] == "blue phone"
    assert "blue phone" in here.get("/account/passkeys").text
    assert here.get("/api/passkeys").json == {
        "rp_id": "localhost",
        "passkeys": [{"id": response.json["id"], "name": "blue phone"}],
    }
    assert store.audit.newest(1)[0].action == "passkey_added"


def test_the_browser_is_asked_for_a_discoverable_passkey_with_verification(here, ilse) -> None:
    options = here.call("POST", "/api/passkeys/options", json={"password": PASSWORD}).json
    assert options["rp"]["id"] == "localhost"
    assert options["authenticatorSelection"]["residentKey"] == "required"
    assert options["authenticatorSelection"]["userVerification"] == "required"
    assert len(options["challenge"]) * 6 >= 256


def test_without_the_password_there_is_no_new_passkey(here) -> None:
    response = here.call("POST", "/api/passkeys/options", json={"password": "wrong"})
    assert (response.status_code, response.json["code"]) == (403, "wrong_password")


def test_an_answer_without_a_question_of_this_session_is_refused(here, sign_in, ilse) -> None:
    options = here.call("POST", "/api/passkeys/options", json={"password": PASSWORD}).json
    body = {"name": "x", "credential": Authenticator().make(options)}
    other = sign_in("installer").call("POST", "/api/passkeys", json=body)
    assert (other.status_code, other.json["code"]) == (400, "challenge_old")
    assert here.call("POST", "/api/passkeys", json=body).status_code == 200
    assert here.call("POST", "/api/passkeys", json=body).json["code"] == "challenge_old", "used once"


def test_a_passkey_made_for_another_address_is_refused(here) -> None:
    response = add(here, Authenticator(origin="https://elsewhere.example"))
    assert (response.status_code, response.json["code"]) == (400, "passkey_not_valid")


def test_a_person_signs_in_with_the_passkey_alone(client, mine: Authenticator, store: Store, people) -> None:
    response = sign_in_with(client, mine)
    assert (response.status_code, response.json) == (200, {"next": "/"})
    assert client.get("/api/session").json["person"]["id"] == people["installer"].id
    entry = store.audit.newest(1)[0]
    assert (entry.action, entry.details["how"]) == ("signed_in", "passkey")


def test_one_is_led_on_but_never_elsewhere(client, mine: Authenticator) -> None:
    there = answer(client, mine.confirm(challenge(client)), "/api/sign-in?next=//elsewhere.example")
    assert there.json["next"] == "/"


def test_an_answer_cannot_be_sent_twice(client, app, mine: Authenticator) -> None:
    asked = challenge(client)
    with client.session_transaction() as session:
        before = dict(session)
    assertion = mine.confirm(asked)
    assert answer(client, assertion).status_code == 200
    thief = app.test_client()
    with thief.session_transaction() as session:
        session.update(before)
    mine.counter = 100
    again = answer(thief, assertion)
    assert (again.status_code, again.json["code"]) == (400, "challenge_old")


def test_a_challenge_is_valid_for_five_minutes(client, mine: Authenticator, clock) -> None:
    asked = challenge(client)
    clock.advance(minutes=5, seconds=1)
    assert answer(client, mine.confirm(asked)).json["code"] == "challenge_old"


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"flags": PRESENT}, "without looking at finger, face or code"),
        ({"origin": "https://elsewhere.example"}, "from another site"),
        ({"crossOrigin": True}, "inside another site's page"),
        ({"type": "webauthn.create"}, "made for something else"),
        ({"challenge": "AAAA"}, "another challenge"),
    ],
)
def test_what_does_not_verify_signs_nobody_in(
    client, mine: Authenticator, changes: dict, reason: str
) -> None:
    response = sign_in_with(client, mine, **changes)
    assert (response.status_code, response.json["code"]) == (401, "passkey_unknown"), reason
    assert client.get("/api/session").status_code == 401


def test_another_key_under_the_same_name_signs_nobody_in(client, mine: Authenticator) -> None:
    forged = Authenticator(counter=50)
    forged.id, forged.handle = mine.id, mine.handle
    assert sign_in_with(client, forged).status_code == 401


def test_a_counter_that_goes_back_tells_of_a_copy(client, app, mine: Authenticator) -> None:
    assert sign_in_with(client, mine).status_code == 200
    mine.counter = 0
    response = sign_in_with(app.test_client(), mine)
    assert (response.status_code, response.json["code"]) == (401, "passkey_counter")


def test_a_passkey_that_does_not_count_may_be_used_again(here, app) -> None:
    synced = Authenticator(counter=None)
    add(here, synced)
    for _ in range(2):
        assert sign_in_with(app.test_client(), synced).status_code == 200


def test_a_removed_passkey_and_a_disabled_person_stay_outside(
    here, client, app, store: Store, mine: Authenticator, ilse
) -> None:
    other = Authenticator()
    add(here, other, "second")
    key = here.get("/api/passkeys").json["passkeys"][1]["id"]
    page = f"/account/passkeys/{key}"
    assert "Check it and enter it again" in here.press(f"{page}/remove", password="wrong").text
    assert here.press(f"{page}/remove", password=PASSWORD).location == "/account/passkeys"
    assert sign_in_with(client, other).status_code == 401
    store.people.set_active(ilse.id, False)
    assert sign_in_with(app.test_client(), mine).status_code == 401


def test_a_passkey_has_a_name_that_can_be_changed(here, mine: Authenticator) -> None:
    key = here.get("/api/passkeys").json["passkeys"][0]["id"]
    assert here.submit(f"/account/passkeys/{key}", name="work phone").location == "/account/passkeys"
    assert here.get("/api/passkeys").json["passkeys"][0]["name"] == "work phone"


def test_a_passkey_of_somebody_else_is_not_there(here, sign_in, mine: Authenticator, store: Store) -> None:
    key = here.get("/api/passkeys").json["passkeys"][0]["id"]
    assert sign_in("supervisor").get(f"/account/passkeys/{key}").status_code == 404
    assert sign_in("supervisor").press(f"/account/passkeys/{key}/remove", password="x").status_code == 404
    assert store.passkeys.get(key).removed_at is None


def test_an_administrator_removes_a_lost_passkey(
    here, sign_in, mine: Authenticator, store: Store, ilse
) -> None:
    key = here.get("/api/passkeys").json["passkeys"][0]["id"]
    administrator = sign_in("administrator")
    assert administrator.press(f"/people/nobody/passkeys/{key}/remove").status_code == 404
    assert administrator.press(f"/people/{ilse.id}/passkeys/{key}/remove").location == f"/people/{ilse.id}"
    assert store.passkeys.get(key).removed_at is not None
    assert store.audit.newest(1)[0].details == {"passkey": key}


def test_guesses_with_passkeys_are_slowed_down_per_address(client, mine: Authenticator) -> None:
    forged = Authenticator()
    forged.handle = mine.handle
    codes = [sign_in_with(client, forged).status_code for _ in range(22)]
    assert codes[-1] == 429
    assert set(codes[:20]) == {401}
