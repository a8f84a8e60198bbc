"""The application as the factory makes it."""

from dataclasses import replace

import pytest
from flask import request

from checks.procedure import load, names, procedure_hash
from webapp import create_app, current
from webapp.rights import NAVIGATION, has_right


def test_the_present_procedures_are_kept_at_the_start(store) -> None:
    hashes = [procedure_hash(load(name)) for name in names()]
    assert sorted(store.procedures.contents(*hashes)) == sorted(hashes)


@pytest.mark.parametrize(
    ("role", "place"),
    [
        ("installer", "/field"),
        ("supervisor", "/office/"),
        ("quality", "/office/"),
        ("administrator", "/people"),
    ],
)
def test_everybody_starts_where_their_work_is(sign_in, role: str, place: str) -> None:
    assert sign_in(role).get("/").location == place


def test_strangers_start_at_the_sign_in_page(client) -> None:
    response = client.get("/")
    assert (response.status_code, response.location) == (303, "/sign-in")


@pytest.mark.parametrize(
    ("role", "labels"),
    [
        ("installer", ["Work", "Units", "Account"]),
        ("supervisor", ["Work", "Records", "Units", "Account"]),
        ("quality", ["Records", "Units", "Account"]),
        ("administrator", ["Records", "Units", "People", "Account"]),
    ],
)
def test_the_navigation_holds_what_a_role_may_enter(sign_in, role: str, labels: list[str]) -> None:
    page = sign_in(role).get("/account").text
    found = [label for label in ("Work", "Records", "Units", "People", "Account") if f">{label}</a>" in page]
    assert found == labels
    assert '<a href="/account" aria-current="page">Account</a>' in page


def test_every_place_of_the_navigation_answers(sign_in) -> None:
    for role in ("installer", "supervisor", "quality", "administrator"):
        client = sign_in(role)
        with client.application.test_request_context():
            for url, _, right in NAVIGATION:
                if has_right(current.store().people.by_login(role), right):
                    assert client.get(url).status_code == 200, url


def test_two_applications_do_not_share_anything(app, tmp_path_factory, settings, clock) -> None:
    folder = tmp_path_factory.mktemp("other")
    other = create_app(replace(settings, database=folder / "test.db", photos=folder / "photos"), clock)
    current_store = other.extensions[current.NAME].store
    assert current_store.people.all() == []
    assert current_store is not app.extensions[current.NAME].store
    current_store.close()


def test_behind_a_proxy_the_address_of_the_visitor_is_believed(settings, clock) -> None:
    app = create_app(replace(settings, proxies=1), clock)
    seen: list[str | None] = []
    app.before_request_funcs[None].insert(0, lambda: seen.append(request.remote_addr))
    app.test_client().get("/sign-in", headers={"X-Forwarded-For": "203.0.113.7"})
    assert seen == ["203.0.113.7"]
    app.extensions[current.NAME].store.close()
