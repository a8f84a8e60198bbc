"""Rights: deny by default."""

import pytest

from webapp.problems import Problem
from webapp.rights import ROLE_RIGHTS, ROLES, has_right, right
from webapp.store import Person

PEOPLE = {role: Person(role, role, role.title(), role) for role in ROLES}

# Written by hand: who has which right.
EXPECTED = {
    "anyone": {None, *ROLES},
    "signed_in": set(ROLES),
    "fill": {"installer", "supervisor"},
    "countersign": {"supervisor"},
    "read": {"supervisor", "quality", "administrator"},
    "administer": {"administrator"},
    "take_over": {"supervisor", "administrator"},
}


@pytest.mark.parametrize("role", [None, *ROLES])
@pytest.mark.parametrize("name", EXPECTED)
def test_each_role_has_its_rights_and_no_others(name: str, role: str | None) -> None:
    assert has_right(PEOPLE.get(role), name) == (role in EXPECTED[name])


def test_an_undeclared_right_is_nobodys() -> None:
    assert not any(has_right(person, None) for person in [None, *PEOPLE.values()])


def test_an_administrator_cannot_sign() -> None:
    assert not ROLE_RIGHTS["administrator"] & {"fill", "countersign"}


def test_a_misspelt_right_cannot_be_declared() -> None:
    with pytest.raises(ValueError, match="There is no right 'coutersign'"):
        right("coutersign")


@pytest.mark.parametrize("role", ROLES)
def test_a_view_without_a_right_answers_403(app, sign_in, client, role: str) -> None:
    app.add_url_rule("/forgotten", "forgotten", lambda: "secret")
    assert client.get("/forgotten").status_code == 403
    assert sign_in(role).get("/forgotten").status_code == 403


def test_what_was_sent_without_a_session_leads_to_the_sign_in_page(client) -> None:
    response = client.post("/people/new")
    assert (response.status_code, response.location) == (303, "/sign-in")


def test_a_refusal_keeps_its_parts() -> None:
    problem = Problem(403, "forbidden")
    assert (problem.status, problem.code) == (403, "forbidden")


def test_a_refusal_is_logged(sign_in, people, caplog) -> None:
    assert sign_in("installer").get("/people").status_code == 403
    assert f"GET accounts.people refused to person {people['installer'].id}" in caplog.text
