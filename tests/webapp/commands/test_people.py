"""firstwater user and firstwater device."""

import json

import pytest

from webapp import current, passwords
from webapp.store import Store

GOOD = "four calm words here"


@pytest.fixture
def kept(tmp_path):
    """The store that the commands wrote, opened anew."""
    opened = []

    def open_again():
        opened.append(Store(tmp_path / "test.db", current.utc_now))
        return opened[-1]

    yield open_again
    for one in opened:
        one.close()


def add(firstwater, login="ada", role="administrator", **options):
    return firstwater("user", "add", login, "--name", "Ada Mere", "--role", role, **options)


def test_the_first_administrator_is_made_with_a_password_asked_for_twice(firstwater, kept):
    ended = add(firstwater, typed=f"{GOOD}\n{GOOD}\n")
    assert ended.status == 0, ended.err
    assert GOOD not in ended.out
    person = passwords.check(kept(), "ada", GOOD)
    assert (person.name, person.role) == ("Ada Mere", "administrator")


def test_a_weak_password_is_refused_with_what_to_do(firstwater):
    ended = add(firstwater, typed="short\nshort\n")
    assert ended.status == 2
    assert "Password: Choose a password of at least 12 characters" in ended.err


def test_a_one_time_password_is_shown_once_and_has_to_be_replaced(firstwater, kept):
    ended = firstwater("user", "add", "ilse", "--name", "Ilse Brook", "--role", "installer", "--one-time")
    shown = ended.out.split("shown only now: ")[1].strip()
    person = passwords.check(kept(), "ilse", shown)
    assert person.one_time_password


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["add", "ada", "--name", "Ada", "--role", "boss"], "'boss' is not one of"),
        (["add", "ada", "--role", "installer"], "Missing option '--name'"),
        (["add", " ", "--name", "Ada", "--role", "installer"], "LOGIN: write at least one character"),
        (["disable", "nobody"], "FIRSTWATER_DATABASE: there is no database"),
    ],
)
def test_bad_input_is_one_line_that_names_the_field(firstwater, arguments, sentence):
    ended = firstwater("user", *arguments)
    assert ended.status == 2
    assert sentence in ended.err
    assert ended.err.count("\n") == 1


def test_a_login_is_given_once(firstwater, store, people):
    ended = add(firstwater, login="installer")
    assert ended.status == 2
    assert "another person signs in as 'installer'" in ended.err


def test_people_are_listed_for_people_and_for_programs(firstwater, store, people):
    assert "installer" in firstwater("user", "list").out
    listed = json.loads(firstwater("user", "list", "--json").out)
    assert {one["login"] for one in listed} == {"installer", "supervisor", "quality", "administrator"}
    assert "password" not in listed[0]


def test_a_disabled_person_is_signed_out_and_may_return(firstwater, store, people, sign_in):
    client = sign_in("installer")
    assert client.get("/account/devices").status_code == 200
    assert firstwater("user", "disable", "installer").status == 0
    assert not store.people.get(people["installer"].id).active
    assert client.get("/account/devices").status_code == 303
    assert firstwater("user", "enable", "installer").status == 0
    assert store.people.get(people["installer"].id).active


def test_a_new_password_replaces_the_old_one(firstwater, store, people):
    assert firstwater("user", "password", "quality", typed=f"{GOOD}\n{GOOD}\n").status == 0
    assert passwords.check(store, "quality", GOOD)


def test_a_mistyped_login_is_answered_with_near_ones(firstwater, store, people):
    ended = firstwater("user", "password", "instaler")
    assert ended.err == "firstwater: LOGIN: nobody signs in as 'instaler'. Did you mean installer?\n"


def test_what_a_command_did_is_in_the_audit_trail(firstwater, store, people):
    firstwater("user", "disable", "quality")
    newest = store.audit.newest(1)[0]
    assert (newest.action, newest.person, newest.subject) == ("person_disabled", None, people["quality"].id)


def test_a_phone_is_revoked_by_the_first_letters_of_its_key(firstwater, store, phone, desk):
    ended = firstwater("device", "revoke", phone.thumbprint[:10])
    assert ended.status == 0
    assert store.devices.get(phone.thumbprint).revoked_at
    assert store.devices.get(desk.thumbprint).revoked_at is None
    assert "revoked" in firstwater("device", "list").out


def test_letters_that_fit_no_key_or_several_revoke_nothing(firstwater, store, phone, desk):
    for letters, sentence in (("no-such", "no key begins"), ("", "2 keys begin")):
        ended = firstwater("device", "revoke", letters)
        assert ended.status == 2
        assert sentence in ended.err
    assert not any(one.revoked_at for one in store.devices.all())
