"""Signing in and out."""

import time

import pytest
from argon2 import PasswordHasher

from webapp import passwords, throttle
from webapp.passwords import hash_password
from webapp.store import Person, Store

PASSWORD = "five bright brass kettles"


@pytest.fixture
def ilse(store: Store) -> Person:
    return store.people.add("ilse", "Ilse Brook", "installer", hash_password(PASSWORD))


def attempt(client, login: str = "ilse", password: str = PASSWORD, to: str = "/sign-in"):
    return client.submit(to, login=login, password=password)


def test_a_person_signs_in_and_out(client, ilse: Person) -> None:
    response = attempt(client)
    assert (response.status_code, response.location) == (303, "/")
    assert client.get("/api/session").json["person"] == {
        "id": ilse.id,
        "name": "Ilse Brook",
        "role": "installer",
    }
    assert client.press("/sign-out").status_code == 303
    assert client.get("/api/session").status_code == 401


def test_signing_out_never_clears_what_waits_on_the_phone(client, ilse: Person) -> None:
    attempt(client)
    assert "Clear-Site-Data" not in client.press("/sign-out").headers


def test_one_goes_where_one_wanted_to_go(client, ilse: Person) -> None:
    response = client.get("/account?a=b")
    assert (response.status_code, response.location) == (303, "/sign-in?next=/account%3Fa%3Db")
    assert attempt(client, to=response.location).location == "/account?a=b"


@pytest.mark.parametrize(
    "wanted", ["//elsewhere.example", "/\\elsewhere.example", "https://elsewhere.example", "x"]
)
def test_one_is_never_sent_elsewhere(client, ilse: Person, wanted: str) -> None:
    assert attempt(client, to=f"/sign-in?next={wanted}").location == "/"


@pytest.mark.parametrize(
    ("login", "password"), [("ilse", "wrong"), ("nobody", PASSWORD), ("nobody", "wrong")]
)
def test_a_wrong_login_and_a_wrong_password_look_the_same(
    client, ilse: Person, login: str, password: str
) -> None:
    response = attempt(client, login, password)
    assert response.status_code == 401
    assert "Login and password do not belong together." in response.text
    assert f'value="{login}"' in response.text, "what was typed stays, but for the password"
    assert password not in response.text


def test_a_password_typed_as_the_login_is_kept_nowhere(client, store: Store, ilse: Person, tmp_path) -> None:
    attempt(client, PASSWORD, PASSWORD)
    attempt(client, password="wrong")
    failed = [entry for entry in store.audit.newest() if entry.action == "sign_in_failed"]
    assert [entry.subject for entry in failed] == [ilse.id, None]
    store.connection.vacuum_into(tmp_path / "copy.db")
    assert PASSWORD.encode() not in (tmp_path / "copy.db").read_bytes()


def test_an_unknown_login_takes_as_long_as_a_known_one(store: Store, ilse: Person) -> None:
    def seconds(login: str) -> float:
        start = time.perf_counter()
        passwords.check(store, login, "wrong")
        return time.perf_counter() - start

    known, unknown = (min(seconds(login) for _ in range(3)) for login in ("ilse", "nobody"))
    assert 0.3 < known / unknown < 3


def test_a_disabled_person_cannot_sign_in(client, store: Store, ilse: Person) -> None:
    store.people.set_active(ilse.id, False)
    assert attempt(client).status_code == 401


def test_empty_fields_are_named(client, ilse: Person) -> None:
    page = attempt(client, "", "").text
    assert "Enter your login." in page
    assert "Enter your password." in page


def test_the_session_gets_a_new_token_and_the_old_one_ends(app, client, ilse: Person) -> None:
    attempt(client)
    client.get("/api/session")
    with client.session_transaction() as session:
        first = dict(session)
    old = app.test_client()
    with old.session_transaction() as session:
        session.update(first)
    assert old.get("/api/session").status_code == 200
    attempt(client)
    with client.session_transaction() as session:
        assert session["token"] != first["token"]
        assert session.get("csrf_token") != first["csrf_token"]
    assert old.get("/api/session").status_code == 401


def test_the_store_keeps_only_the_hash_of_the_token(client, store: Store, ilse: Person) -> None:
    attempt(client)
    with client.session_transaction() as session:
        token = session["token"]
    keys = [row["key"] for row in store.connection.read().query("select key from sessions")]
    assert len(token) * 6 >= 256
    assert token not in keys


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(client, ilse: Person) -> None:
    cookie = attempt(client).headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie
    assert "Expires=" in cookie


def test_guesses_are_slowed_down_and_let_in_again(client, ilse: Person, clock) -> None:
    for _ in range(3):
        assert attempt(client, password="wrong").status_code == 401
    assert attempt(client, password="wrong").status_code == 401, "the fourth is the first that costs time"
    response = attempt(client)
    assert (response.status_code, response.headers["Retry-After"]) == (429, "1")
    assert "Wait 1 s" in response.text
    clock.advance(seconds=1)
    assert attempt(client).status_code == 303
    clock.advance(seconds=1)
    assert attempt(client, password="wrong").status_code == 401, "success forgets the failures"


def test_guesses_elsewhere_do_not_keep_the_owner_out(app, client, ilse: Person) -> None:
    """The device cookie of OWASP's page on slow online guessing: a known browser is counted by itself."""
    assert attempt(client).status_code == 303
    client.press("/sign-out")
    guesser = app.test_client()
    for _ in range(5):
        attempt(guesser, password="wrong")
    assert attempt(guesser, password="wrong").status_code == 429
    assert attempt(client).status_code == 303


def test_a_known_browser_is_slowed_down_by_its_own_failures(client, ilse: Person) -> None:
    attempt(client)
    client.press("/sign-out")
    assert [attempt(client, password="wrong").status_code for _ in range(5)][-1] == 429


def test_a_known_browser_is_known_for_its_own_account_alone(app, client, store: Store, ilse: Person) -> None:
    store.people.add("sami", "Sami Weir", "supervisor", hash_password(PASSWORD))
    attempt(client, "sami")
    client.press("/sign-out")
    for _ in range(5):
        attempt(app.test_client(), password="wrong")
    assert attempt(client).status_code == 429


def test_an_account_of_ones_own_does_not_make_guesses_at_others_free(
    client, store: Store, ilse: Person
) -> None:
    for number in range(throttle.FREE_PER_ADDRESS + 1):
        throttle.begin_attempt(store, f"login {number}", "127.0.0.1")
        throttle.begin_attempt(store, "own", "127.0.0.1")
        throttle.succeeded(store, "own", "127.0.0.1")
        if throttle.begin_attempt(store, "next", "127.0.0.1"):
            return
    pytest.fail("the address was never slowed down")


def test_an_unknown_account_is_slowed_down_alike(client, ilse: Person) -> None:
    for _ in range(4):
        attempt(client, "nobody")
    assert attempt(client, "nobody").status_code == 429
    assert attempt(client).status_code == 303, "others are not held up"


@pytest.mark.parametrize(
    ("failures", "wait"), [(0, 0), (3, 0), (4, 1), (5, 2), (6, 4), (7, 8), (13, 512), (14, 900), (99, 900)]
)
def test_the_wait_doubles_up_to_fifteen_minutes(failures: int, wait: int) -> None:
    assert throttle.wait_after(failures, throttle.FREE_PER_ACCOUNT) == wait


def test_one_address_is_slowed_down_over_many_accounts(client, store: Store, ilse: Person) -> None:
    for number in range(throttle.FREE_PER_ADDRESS + 1):
        assert throttle.begin_attempt(store, f"login {number}", "127.0.0.1") == 0
    assert attempt(client).status_code == 429


def test_a_hash_with_older_parameters_is_renewed(client, store: Store, ilse: Person) -> None:
    weak = PasswordHasher(time_cost=1, memory_cost=8192, parallelism=1)
    store.people.set_password(ilse.id, weak.hash(PASSWORD))
    assert attempt(client).status_code == 303
    kept = store.people.password(ilse.id).hash
    assert not passwords.HASHER.check_needs_rehash(kept)
    assert passwords.fits(kept, PASSWORD)


def test_the_parameters_are_at_least_those_of_owasp() -> None:
    """OWASP Password Storage Cheat Sheet: argon2id with m = 47104 KiB, t = 1, p = 1 or an equal choice."""
    hashed = hash_password("x")
    assert hashed.startswith("$argon2id$v=19$m=47104,t=2,p=1$")


def test_letters_are_the_same_however_the_keyboard_composed_them() -> None:
    assert passwords.fits(hash_password("caf\u00e9 au lait noir"), "cafe\u0301 au lait noir")


@pytest.mark.parametrize(
    ("password", "sentence"),
    [
        ("short", "at least 12"),
        ("x" * 201, "at most 200"),
        ("abababababab", "at least 5 different"),
        ("my name is ilse ok", "without your own name"),
        (PASSWORD, None),
        ("\u6c34\u8def\u306f\u3044\u3064\u3082\u9759\u304b\u306b\u6d41\u308c\u308b", None),
        ("correct horse battery staple " * 6, None),  # 174 characters
        ("password1234", "guessed first"),
        ("P@ssw0rd12345", "guessed first"),
        ("qwertyuiop12", "guessed first"),
        ("Firstwater2026!", "guessed first"),
        ("Millbrook2026!", "guessed first"),
        ("iloveyou-iloveyou", "guessed first"),
    ],
)
def test_what_makes_a_weak_password(ilse: Person, password: str, sentence: str | None) -> None:
    found = passwords.weakness(password, ilse, "https://water.millbrook.example")
    assert (found is None) if sentence is None else (sentence in found)
