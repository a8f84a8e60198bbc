"""The described interface is the one that is there: every call, every right, every answer."""

import os
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
import schemathesis
from flask import Flask
from hypothesis import HealthCheck, given, settings
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi import checks

from tests.phone import PROCEDURE, Phone, named
from tests.webapp.receiving.unsent_file import hashed, jpeg
from webapp import LARGEST_REQUEST
from webapp.description import calls, description
from webapp.limits import COSTS, PIECE, allowances
from webapp.office import imports
from webapp.receiving import events, photos
from webapp.settings import Settings
from webapp.signing import canonical, jws
from webapp.signing.shapes import NAME, SENTENCE
from webapp.store import inbox, photo_parts
from webapp.sync import routes
from webapp.text import PROBLEMS

DOCUMENT = description()
CONFORM = [
    not_a_server_error,
    checks.status_code_conformance,
    checks.content_type_conformance,
    checks.response_schema_conformance,
]
SCHEMA = schemathesis.openapi.from_dict(DOCUMENT)
EXAMPLES = int(os.environ.get("FUZZ_EXAMPLES", "6"))  # of each call
OPERATIONS = [(call.method, call.path) for call in calls.CALLS]


def answer_schema(method: str, path: str) -> dict[str, Any]:
    return DOCUMENT["paths"][path][method.lower()]["responses"]["200"]["content"]["application/json"][
        "schema"
    ]


def test_every_call_and_its_right_are_described(app: Flask) -> None:
    there = {
        (method, re.sub(r"<\w+:(\w+)>", r"{\1}", rule.rule)): app.view_functions[rule.endpoint].right
        for rule in app.url_map.iter_rules()
        for method in rule.methods - {"HEAD", "OPTIONS"}
        if rule.rule.startswith("/api/")
    }
    assert {(call.method, call.path): call.right for call in calls.CALLS} == there


def test_every_code_has_its_sentence() -> None:
    codes = {code for call in calls.CALLS for _, some in call.codes for code in some}
    assert codes <= set(PROBLEMS)


def test_the_limits_in_the_documentation_are_those_of_the_code(tmp_path: Path) -> None:
    table = (Path(__file__).parents[3] / "docs" / "api.md").read_text().partition("### Limits")[2]
    purse = allowances(Settings.for_tests(tmp_path).calls_per_minute)["calls"]
    written = [
        f"| calls of one person | {purse.at_once:,.0f} at once and {purse.a_minute:,.0f} a minute",
        f"each {PIECE // 1024} KiB of a body count as one more, "
        f"`GET /api/work` and `GET /api/units` as {COSTS['sync.units']} |",
        f"`POST /api/visits` and `POST /api/devices` | {routes.LARGEST_VISIT // 1024} KiB",
        f"`POST /api/events` | {routes.LARGEST_EVENTS // 1024**2} MiB, {routes.MOST_EVENTS} entries",
        f"canonical JSON | {events.LARGEST // 1024} KiB",
        f"`POST /api/records/batch` | {jws.LARGEST // 1024**2} MiB, {routes.MOST_RECORDS} records",
        f"a JWS | {jws.LARGEST // 1024**2} MiB",
        f"a photo | {photos.LARGEST // 1024**2} MiB",
        f"pixels of a photo | {photos.MOST_PIXELS // 10**6} million",
        f"one part of a photo | {photo_parts.PART // 1024} KiB",
        f"unfinished photos of one person | {photo_parts.MOST_UNFINISHED} ",
        f"unsent entries | {imports.LARGEST // 1024**2} MiB",
        f"taken in | {inbox.MOST} of a person",
        f"any other body | {LARGEST_REQUEST // 1024**2} MiB",
        f"JSON in JSON | {canonical.DEEPEST} levels",
        f"| {NAME.longest}; {SENTENCE.longest:,} characters",
    ]
    assert [one for one in written if one not in table] == []


def test_the_answers_of_the_ordinary_way_are_as_described(sign_in, store, phone: Phone, unit) -> None:
    client = sign_in("installer")
    store.procedures.keep(PROCEDURE)
    visit = {"id": "a" * 8 + "-1111-4111-8111-" + "b" * 12, "unit": unit.id, "kind": "commissioning"}
    visit |= {"procedure": named(PROCEDURE), "started_at": "2026-11-25T09:00:00.000Z"}
    entries, photo = phone.entries(visit["id"]), jpeg()
    name, span = hashed(photo), {"Content-Range": f"bytes 0-{len(photo) - 1}/{len(photo)}"}
    steps: list[tuple[str, str, str, dict[str, Any]]] = [
        ("GET", "/api/session", "", {}),
        ("POST", "/api/visits", "", {"json": visit}),
        ("POST", "/api/events", "", {"json": {"events": [*entries, {"id": "x"}]}}),
        ("POST", "/api/held", "", {"json": {"device": phone.thumbprint, "visits": {visit["id"]: 3}}}),
        ("GET", "/api/visits/{visit}/events", f"/api/visits/{visit['id']}/events", {}),
        ("PUT", "/api/photos/{sha256}/parts", f"/api/photos/{name}/parts", {"data": photo, "headers": span}),
        ("GET", "/api/photos/{sha256}/parts", f"/api/photos/{name}/parts", {}),
        ("PUT", "/api/photos/{sha256}", f"/api/photos/{name}", {"data": photo, "content_type": "image/jpeg"}),
    ]
    for method, path, address, what in steps:
        answer = client.call(method, address or path, **what)
        assert answer.status_code == 200, answer.text
        jsonschema_rs.validate(answer_schema(method, path), answer.json)
    record = phone.signed_record(store.visits.get(visit["id"]), entries)
    for _ in range(2):
        answer = client.call("POST", "/api/records", json={"jws": record}).json
        assert answer["state"] == "signed"
        jsonschema_rs.validate(answer_schema("POST", "/api/records"), answer)
    jsonschema_rs.validate(answer_schema("GET", "/api/work"), client.get("/api/work").json)


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Flask, dict, dict[str, str]]]:
    """An application with a signed-in installer, and what there is to name in a path."""
    from webapp import create_app, current

    for_tests = Settings.for_tests(tmp_path_factory.mktemp("described"))
    # A long run of examples calls more often than anybody may.
    app = create_app(replace(for_tests, calls_per_minute=0))
    store = app.extensions[current.NAME].store
    person = store.people.add("installer", "Ilse Brook", "installer", "!")
    site = store.sites.add("Weir House", "", {})
    phone = Phone(store, person)
    visit = phone.start(store.units.add("Basement unit", "FW-0001", site.id, {}))
    store.photos.keep(hashed(jpeg()), jpeg(), person.id)
    store.sessions.start(current.session_key("t"), person.id)
    client = app.test_client()
    with client.session_transaction() as session:
        session[current.SESSION_TOKEN] = "t"
    token = client.get("/api/session").json["csrf"]
    sent: dict[str, Any] = {"headers": {"X-CSRFToken": token, "Accept-Encoding": "identity"}}
    sent["cookies"] = {"session": client.get_cookie("session").value}
    yield app, sent, {"visit": visit.id, "sha256": hashed(jpeg())}
    store.close()


@pytest.mark.parametrize(("method", "path"), OPERATIONS, ids=[" ".join(one) for one in OPERATIONS])
def test_whatever_is_sent_is_answered_as_described(served, method: str, path: str) -> None:
    app, sent, known = served
    operation = SCHEMA[path][method]
    cases = operation.as_strategy()
    if operation.body:  # what fits, and what does not
        cases |= operation.as_strategy(generation_mode=GenerationMode.NEGATIVE)

    @given(case=cases)
    @settings(
        max_examples=EXAMPLES,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    def answered(case: Any) -> None:
        if case.path_parameters and len(next(iter(case.path_parameters.values()))) % 2:
            case.path_parameters.update({name: known[name] for name in case.path_parameters})
        case.cookies, case.headers = {}, {n: v for n, v in case.headers.items() if n != "X-CSRFToken"}
        response = case.call(base_url="http://localhost", app=app, **sent)
        case.validate_response(response, checks=CONFORM)

    answered()
