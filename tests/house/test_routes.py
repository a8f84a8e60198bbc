"""Every route, every role: the table says by hand who may do what, and the application is walked."""

import re

import pytest
from flask import Flask
from werkzeug.routing import Rule

from webapp.rights import RIGHTS, ROLE_RIGHTS, ROLES

# everyone: also without signing in; people: whoever is signed in; otherwise the roles.
TABLE = """
GET  /                                              everyone
GET  /build.js                                      everyone
GET  /manifest.webmanifest                          everyone
GET  /parcels/<string:name>                         everyone
GET  /static/<path:filename>                        everyone
GET  /sw.js                                         everyone

GET  /sign-in                                       everyone
POST /sign-in                                       everyone
POST /sign-out                                      everyone
GET  /account                                       people
GET  /account/devices                               people
GET  /account/devices/<string:thumbprint>           people
POST /account/devices/<string:thumbprint>           people
POST /account/devices/<string:thumbprint>/revoke    people
POST /account/language                              people
GET  /account/passkeys                              people
GET  /account/passkeys/<string:key>                 people
POST /account/passkeys/<string:key>                 people
POST /account/passkeys/<string:key>/remove          people
GET  /account/password                              people
POST /account/password                              people
GET  /account/sessions                              people
POST /account/sessions/<string:key>/end             people
POST /account/sessions/others/end                   people
GET  /devices                                       administrator
GET  /phone                                         installer supervisor
POST /phone                                         installer supervisor
GET  /people                                        administrator
GET  /people/<string:key>                           administrator
POST /people/<string:key>                           administrator
POST /people/<string:key>/disable                   administrator
POST /people/<string:key>/enable                    administrator
POST /people/<string:key>/one-time-password         administrator
POST /people/<string:key>/passkeys/<string:passkey>/remove  administrator
POST /people/<string:key>/sign-out                  administrator
GET  /trail                                         supervisor quality administrator
GET  /people/new                                    administrator
POST /people/new                                    administrator

POST /api/devices                                   installer supervisor
POST /api/events                                    installer supervisor
POST /api/held                                      installer supervisor
GET  /api/photos/<string:sha256>                    people
PUT  /api/photos/<string:sha256>                    installer supervisor
GET  /api/photos/<string:sha256>/parts              installer supervisor
PUT  /api/photos/<string:sha256>/parts              installer supervisor
POST /api/records                                   installer supervisor
POST /api/records/batch                             installer supervisor
GET  /api/passkeys                                  people
POST /api/passkeys                                  people
POST /api/passkeys/options                          people
GET  /api/session                                   people
POST /api/sign-in                                   everyone
POST /api/sign-in/options                           everyone
POST /api/visits                                    installer supervisor
GET  /api/visits/<uuid:visit>/events                installer supervisor
GET  /api/work                                      installer supervisor
GET  /api/units                                     installer supervisor

GET  /field                                         everyone
GET  /field/                                        everyone
GET  /field/<string:slug>/<string:name>             everyone
GET  /field/<string:slug>/procedure.json            everyone
GET  /field/<string:slug>/plate                     everyone
GET  /field/<string:slug>/review                    everyone
GET  /field/offline                                 everyone
GET  /field/visit                                   everyone
GET  /field/kit                                     everyone
GET  /field/attention                                 everyone
GET  /field/waiting                                 everyone

GET  /calculator                                    everyone
GET  /calculator/formula                            everyone
GET  /calculator/forms.json                         everyone

GET  /office                                        supervisor quality administrator
GET  /office/                                       supervisor quality administrator
GET  /office/import                                 installer supervisor
POST /office/import                                 installer supervisor
GET  /office/import/<string:name>                   installer supervisor
POST /office/import/<string:name>                   installer supervisor
GET  /office/photos/<string:sha256>                 supervisor quality administrator
GET  /office/quarantine                             supervisor quality administrator
GET  /office/quarantine/<int:item>                  supervisor quality administrator
GET  /office/quarantine/<int:item>/document         supervisor quality administrator
POST /office/quarantine/<int:item>/seen             supervisor
GET  /office/records                                supervisor quality administrator
GET  /office/records/<string:sha256>                supervisor quality administrator
GET  /office/records/<string:sha256>/certificate.pdf  supervisor quality administrator
POST /office/records/<string:sha256>/decision       supervisor
GET  /office/records/<string:sha256>/reopen         supervisor
GET  /office/records/<string:sha256>/reopening.jws  supervisor quality administrator
GET  /office/records/<string:sha256>/decision.jws   supervisor quality administrator
GET  /office/records/<string:sha256>/record.json    supervisor quality administrator
GET  /office/records/<string:sha256>/record.jws     supervisor quality administrator

GET  /U/<string:token>                              everyone
GET  /u/<string:token>                              everyone
GET  /units                                         people
GET  /units/<string:key>                            people
GET  /units/<string:key>/change                     administrator
POST /units/<string:key>/change                     administrator
GET  /units/<string:key>/label                      people
GET  /units/<string:key>/label.png                  people
GET  /units/<string:key>/label.svg                  people
POST /units/<string:key>/new-label                  administrator
POST /units/<string:key>/take-over                  supervisor administrator
GET  /units/instruments                             people
GET  /units/instruments/<string:key>/change         administrator
POST /units/instruments/<string:key>/change         administrator
GET  /units/instruments/new                         administrator
POST /units/instruments/new                         administrator
GET  /units/new                                     administrator
POST /units/new                                     administrator
GET  /units/sites                                   people
GET  /units/sites/<string:key>/change               administrator
POST /units/sites/<string:key>/change               administrator
GET  /units/sites/new                               administrator
POST /units/sites/new                               administrator
"""

NOBODY = "nobody"
DISABLED = "disabled"
FIRST_PASSWORD = "first password"
ROWS = [(line.split()[0], line.split()[1], " ".join(line.split()[2:])) for line in TABLE.splitlines() if line]
VALUES = {
    "uuid": "00000000-0000-4000-8000-000000000000",
    "int": "1",
    "path": "app.css",
    "string": "0" * 64,
}
TYPES = {"uuid", "int", "path", "string"}


def allowed(words: str) -> set[str]:
    if words == "everyone":
        return {NOBODY, *ROLES}
    return set(ROLES) if words == "people" else set(words.split())


def address(rule: str) -> str:
    return re.sub(r"<(\w+):\w+>", lambda found: VALUES[found[1]], rule)


def routes(app: Flask) -> list[tuple[str, Rule]]:
    found = [(method, rule) for rule in app.url_map.iter_rules() for method in rule.methods]
    return [(method, rule) for method, rule in found if method not in {"HEAD", "OPTIONS"}]


def test_every_route_declares_its_right(app: Flask) -> None:
    for _, rule in routes(app):
        view = app.view_functions[rule.endpoint]
        assert getattr(view, "right", None) in RIGHTS, (
            f"{view.__module__}.{view.__name__} ({rule.rule}) declares no right: it answers 403. "
            f'Put @right("...") under its route; the rights are {", ".join(sorted(RIGHTS))}.'
        )


def test_the_table_holds_every_route_and_no_other(app: Flask) -> None:
    there = {(method, rule.rule) for method, rule in routes(app)}
    listed = {(method, rule) for method, rule, _ in ROWS}
    assert len(listed) == len(ROWS), "A route stands twice in the table."
    assert there - listed == set(), "Write into the table of this file who may use these routes."
    assert listed - there == set(), "Take these routes out of the table: they are gone."


def test_the_declared_rights_are_those_of_the_table(app: Flask) -> None:
    words = {(method, rule): words for method, rule, words in ROWS}
    for method, rule in routes(app):
        name = app.view_functions[rule.endpoint].right
        roles = {role for role in ROLES if name in ROLE_RIGHTS[role] or name in {"anyone", "signed_in"}}
        by_right = roles | ({NOBODY} if name == "anyone" else set())
        assert by_right == allowed(words[method, rule.rule]), f"{method} {rule.rule} declares {name}"


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory):
    """One application and one client per role for the whole table."""
    from tests.conftest import NAMES, NO_PASSWORD
    from webapp import create_app, current
    from webapp.settings import Settings

    app = create_app(Settings.for_tests(tmp_path_factory.mktemp("walk")))
    store = app.extensions[current.NAME].store
    clients = {NOBODY: app.test_client()}
    for role in ROLES:
        person = store.people.add(role, NAMES[role], role, NO_PASSWORD)
        store.sessions.start(current.session_key(role), person.id)
        clients[role] = app.test_client()
        with clients[role].session_transaction() as session:
            session[current.SESSION_TOKEN] = role
    clients[DISABLED] = client_of(app, store, DISABLED, active=0)
    clients[FIRST_PASSWORD] = client_of(app, store, FIRST_PASSWORD, one_time_password=1)
    yield clients
    store.close()


def client_of(app: Flask, store, login: str, **state: int):
    """A supervisor who was signed in before the account came into this state."""
    from tests.conftest import NO_PASSWORD
    from webapp import current

    person = store.people.add(login, login, "supervisor", NO_PASSWORD)
    store.sessions.start(current.session_key(login), person.id)
    store.people.change(person.id, **state)
    client = app.test_client()
    with client.session_transaction() as session:
        session[current.SESSION_TOKEN] = login
    return client


@pytest.mark.parametrize("role", [NOBODY, *ROLES])
@pytest.mark.parametrize(("method", "rule", "words"), ROWS, ids=[f"{row[0]} {row[1]}" for row in ROWS])
def test_each_role_gets_where_it_may_and_no_further(
    walked, method: str, rule: str, words: str, role: str
) -> None:
    """A change without a form token passes the guard and is then stopped (400): nothing changes."""
    response = walked[role].open(address(rule), method=method, buffered=True)
    is_sent_to_sign_in = response.status_code == 303 and response.location.startswith("/sign-in")
    is_stopped = response.status_code in {401, 403} or (is_sent_to_sign_in and rule not in {"/", "/sign-out"})
    assert is_stopped != (role in allowed(words)), f"{response.status_code} {response.location}"
    if is_stopped and role == NOBODY:
        assert response.status_code == (401 if rule.startswith("/api/") else 303)
    elif is_stopped:
        assert response.status_code == 403
    elif method != "GET":
        assert response.status_code == 400


@pytest.mark.parametrize(("method", "rule", "words"), ROWS, ids=[f"{row[0]} {row[1]}" for row in ROWS])
def test_a_disabled_person_gets_no_further_than_a_stranger(
    walked, method: str, rule: str, words: str
) -> None:
    answers = [walked[who].open(address(rule), method=method, buffered=True) for who in (DISABLED, NOBODY)]
    assert answers[0].status_code == answers[1].status_code
    assert answers[0].location == answers[1].location


@pytest.mark.parametrize(("method", "rule", "words"), ROWS, ids=[f"{row[0]} {row[1]}" for row in ROWS])
def test_who_has_a_one_time_password_can_only_choose_an_own_one(
    walked, method: str, rule: str, words: str
) -> None:
    response = walked[FIRST_PASSWORD].open(address(rule), method=method, buffered=True)
    if words == "everyone" or rule == "/account/password":
        return
    if "supervisor" not in allowed(words):
        assert response.status_code == 403
    elif rule.startswith("/api/"):
        assert (response.status_code, response.json["code"]) == (403, "new_password_needed")
    else:
        assert (response.status_code, response.location) == (303, "/account/password")


def test_addresses_are_kebab_case_with_typed_parameters(app: Flask) -> None:
    for _, rule in routes(app):
        for part in rule.rule.strip("/").split("/"):
            found = re.fullmatch(r"<(?:(\w+):)?\w+>", part)
            if found:
                assert found[1] in TYPES, f"{rule.rule}: say the type, for example <string:key>"
            else:
                assert re.fullmatch(r"[a-z0-9.-]*|U", part), f"{rule.rule}: write {part!r} in-kebab-case"


def test_nothing_is_changed_by_a_get(app: Flask) -> None:
    for _, rule in routes(app):
        assert not ("GET" in rule.methods and rule.rule.endswith(("/disable", "/enable", "/revoke", "/seen")))
