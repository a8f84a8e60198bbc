"""Requests that no phone sends: each is refused with a code, and nothing of it is kept."""

import json

import pytest

JSON = "application/json"


def post(target, path: str, body: bytes | str, kind: str = JSON, **headers: str):
    return target.installer.call("POST", path, data=body, content_type=kind, headers=headers)


@pytest.fixture
def event(target) -> dict:
    return target.phone.reading(target.visit().id)


@pytest.mark.parametrize(
    "body",
    [
        b'{"events": [], "events": []}',
        b'{"events": [NaN]}',
        b'{"events": [Infinity]}',
        b'{"events": ' + b"[" * 50 + b"]" * 50 + b"}",
        b'{"events": ' + b"[" * 1_000_000,
        b'{"events": [' + b"9" * 10_000 + b"]}",
        b'{"events": [-' + b"9" * 400 + b"]}",
        b'{"events": []} {}',
        b"{'events': []}",
        b'\xef\xbb\xbf{"events": []}',
        b'{"events": ["\xff"]}',
        '{"events": []}'.encode("utf-16"),
        b'{"events": ["\\ud800"',
        b"",
        b"null",
        b"\x00",
    ],
    ids=range(16),
)
def test_what_is_not_strict_json_is_refused(target, body) -> None:
    answer = post(target, "/api/events", body)
    assert answer.status_code == 400, answer.text
    assert answer.json["code"] in {"not_json", "shape"}


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('"value": 6.5', '"value": 1e999', "not_canonical"),
        ('"value": 6.5', '"value": -1e999', "not_canonical"),
        ('"typed": "6.5"', '"typed": "\\ud800"', "not_canonical"),
        ('"test.pressure"', '"__proto__.x"', "shape"),
        ('"offset": 60', '"offset": 1e400', "shape"),
        ('"offset": 60', '"offset": true', "shape"),
        ('"item": null', '"item": "../../etc"', "shape"),
        ('"replaces": []', '"replaces": [{"$ne": 1}]', "shape"),
    ],
)
def test_one_hostile_entry_is_refused_by_itself(target, event, old, new, code) -> None:
    text = json.dumps({"events": [event]})
    assert old in text
    answer = post(target, "/api/events", text.replace(old, new)).json
    assert ([one["code"] for one in answer["refused"]], answer["received"]) == ([code], [])
    assert target.store.events.find(event["id"]) is None


def test_numbers_at_the_edge_are_kept_as_javascript_holds_them(target) -> None:
    """RFC 8785, appendix B: both sides hash the same digits."""
    visit = target.visit().id
    for number in ("1e308", "5e-324", "9007199254740993", "-0.0", "123456789012345678901234567890"):
        event = json.dumps(target.phone.reading(visit)).replace('"value": 6.5', f'"value": {number}')
        assert post(target, "/api/events", f'{{"events": [{event}]}}').json["refused"] == []


@pytest.mark.parametrize(
    "kind",
    [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=x",
        "",
        "application/xml",
    ],
)
def test_another_content_type_is_refused(target, kind) -> None:
    """A form of another site can send these without being asked first by the browser."""
    assert post(target, "/api/events", b'{"events": []}', kind).status_code == 415


@pytest.mark.parametrize("name", ["X-HTTP-Method-Override", "X-HTTP-Method", "X-Method-Override"])
def test_no_header_turns_one_method_into_another(target, name) -> None:
    answer = target.installer.get("/api/visits", headers={name: "POST"})
    assert answer.status_code == 405
    assert post(target, "/api/work", b"{}", **{name: "GET"}).status_code == 405
    assert target.installer.get("/api/events?_method=POST").status_code == 405


def test_a_change_needs_the_token_and_a_session(target) -> None:
    assert target.installer.post("/api/events", json={"events": []}).json["code"] == "csrf"
    stolen = target.supervisor.token()
    answer = target.installer.post("/api/events", json={"events": []}, headers={"X-CSRFToken": stolen})
    assert answer.json["code"] == "csrf"
    assert target.app.test_client().post("/api/events", json={"events": []}).status_code == 401


@pytest.mark.parametrize(
    "path",
    [
        "/api/photos/%0d%0aSet-Cookie:%20a=b",
        "/api/visits/%0d%0a/events",
        "/office/import/x%0d%0aLocation:%20https:%2F%2Fexample.org",
        "/sign-in?next=%0d%0aLocation:%20https:%2F%2Fexample.org",
        "/api/visits/' or 1=1 --/events",
        "/static/..%2f..%2fwebapp%2f__init__.py",
        "/static/%2e%2e/%2e%2e/pyproject.toml",
        "/api/photos/..%2f..%2ftest.db",
    ],
)
def test_nothing_in_an_address_becomes_a_header_or_a_path(target, path) -> None:
    answer = target.supervisor.get(path)
    assert answer.status_code in {200, 303, 400, 404}
    assert "Set-Cookie" not in answer.headers or "a=b" not in answer.headers["Set-Cookie"]
    assert "example.org" not in answer.headers.get("Location", "")
    assert b"create_app" not in answer.data
    assert b"SQLite" not in answer.data


def test_another_host_in_the_request_leads_nowhere_else(target) -> None:
    client = target.app.test_client()
    answer = client.get("/office/", headers={"Host": "evil.example", "X-Forwarded-Host": "evil.example"})
    assert answer.status_code == 303
    assert answer.location.startswith("/sign-in")


@pytest.mark.parametrize(
    ("path", "size", "status"),
    [
        ("/api/visits", 17 * 1024, 413),
        ("/api/events", 4 * 1024 * 1024 + 1, 413),
        ("/api/records", 8 * 1024 * 1024 + 1, 413),
        ("/api/records/batch", 8 * 1024 * 1024 + 1, 413),
        ("/api/devices", 17 * 1024, 413),
    ],
)
def test_every_body_has_its_largest_size(target, path, size, status) -> None:
    answer = post(target, path, b'{"a":"' + b"x" * size + b'"}')
    assert (answer.status_code, answer.json["code"]) == (status, "too_large")


def test_a_length_that_lies_is_no_way_around_the_limit(target) -> None:
    body = b"[" * (5 * 1024 * 1024)
    token = target.installer.token()
    answer = target.installer.post(
        "/api/events",
        data=body,
        content_type=JSON,
        headers={"X-CSRFToken": token},
        environ_overrides={"CONTENT_LENGTH": "", "wsgi.input_terminated": True},
    )
    assert (answer.status_code, answer.json["code"]) == (413, "too_large")


def test_a_very_long_record_of_nothing_is_kept_apart_within_limits(target) -> None:
    assert target.codes("a" * 1_000_000 + ".b.c")[0] == "not_a_jws"
