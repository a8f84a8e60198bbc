"""Every way in which an error can arise gives the one shape: RFC 9457 under /api/, a page elsewhere."""

import io

import pytest
from werkzeug.test import TestResponse

from tests.phone import Phone
from webapp.problems import Problem
from webapp.rights import right
from webapp.text import BY_STATUS, PROBLEMS, problem_sentences

MEMBERS = {"type", "title", "status", "detail", "code"}


def assert_problem(response: TestResponse, status: int, code: str, field: str | None = None) -> None:
    assert response.status_code == status
    assert response.content_type == "application/problem+json"
    assert response.headers["Cache-Control"] == "no-store"
    body = response.json
    assert set(body) == (MEMBERS if field is None else MEMBERS | {"field"})
    assert (body["status"], body["code"], body.get("field")) == (status, code, field)
    assert body["type"] == f"urn:firstwater:problem:{code}"
    assert body["title"]
    assert body["detail"]


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


def test_without_a_session(client) -> None:
    assert_problem(client.get("/api/session"), 401, "not_signed_in")
    assert_problem(client.post("/api/events", json={"events": []}), 401, "not_signed_in")


def test_without_the_right(sign_in) -> None:
    assert_problem(sign_in("quality").get("/api/work"), 403, "forbidden")


def test_without_a_token(installer) -> None:
    assert_problem(installer.post("/api/events", json={"events": []}), 400, "csrf")


def test_an_address_that_is_not_there(client) -> None:
    assert_problem(client.get("/api/nowhere"), 404, "not_found")


def test_a_thing_that_is_not_there(installer) -> None:
    assert_problem(installer.get("/api/visits/00000000-0000-4000-8000-000000000000/events"), 404, "not_found")


def test_a_method_that_is_not_allowed(installer) -> None:
    response = installer.call("DELETE", "/api/work")
    assert_problem(response, 405, "method_not_allowed")
    assert "GET" in response.headers["Allow"]


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"[NaN]", b'{"events": [], "events": []}', b"\xff", b"[" * 5000, b'{"events":' * 60 + b"1"],
)
def test_what_is_no_json(installer, body: bytes) -> None:
    response = installer.call("POST", "/api/events", data=body, content_type="application/json")
    assert_problem(response, 400, "not_json")


@pytest.mark.parametrize(
    ("body", "field"), [([], None), ({}, "events"), ({"events": 1}, "events"), ({"events": [], "x": 1}, "x")]
)
def test_json_of_another_shape(installer, body: object, field: str | None) -> None:
    assert_problem(installer.call("POST", "/api/events", json=body), 400, "shape", field)


def test_another_kind_of_content(installer) -> None:
    assert_problem(installer.call("POST", "/api/events", data="events=1"), 415, "wrong_media_type")


def test_too_much(installer) -> None:
    body = b'{"events": [' + b" " * (4 * 1024 * 1024) + b"]}"
    response = installer.call("POST", "/api/events", data=body, content_type="application/json")
    assert_problem(response, 413, "too_large")


def test_too_much_without_a_stated_length(installer) -> None:
    body = io.BytesIO(b'{"events": [' + b" " * (4 * 1024 * 1024) + b"]}")
    response = installer.call(
        "POST",
        "/api/events",
        input_stream=body,
        content_type="application/json",
        environ_overrides={"wsgi.input_terminated": True},
        headers={"Transfer-Encoding": "chunked"},
    )
    assert_problem(response, 413, "too_large")


def test_much_more_than_any_address_takes(installer) -> None:
    body = bytes(10 * 1024 * 1024)
    assert_problem(
        installer.call("PUT", f"/api/photos/{'0' * 64}", data=body, content_type="image/jpeg"),
        413,
        "too_large",
    )


def test_an_error_of_ours_says_nothing_about_the_inside(app, installer, caplog) -> None:
    @right("anyone")
    def breaks() -> None:
        raise ZeroDivisionError("a secret of the inside")

    app.add_url_rule("/api/breaks", "breaks", breaks)
    response = installer.get("/api/breaks")
    assert_problem(response, 500, "server_error")
    assert "secret" not in response.text
    assert "a secret of the inside" in caplog.text, "the log has it"


def test_a_store_that_fails_is_told_as_an_error_of_the_server(store, client, installer) -> None:
    store.close()
    assert_problem(installer.get("/api/session"), 500, "server_error")
    page = client.get("/sign-in")
    assert page.status_code in {200, 500}


def test_elsewhere_it_is_a_page(client, sign_in) -> None:
    response = client.get("/nowhere")
    assert (response.status_code, response.mimetype) == (404, "text/html")
    assert "There is nothing here" in response.text
    assert "not_found" in response.text
    assert sign_in("quality").get("/people").status_code == 403
    assert "This page was open too long" in sign_in("installer").post("/account/password").text


def test_the_page_comes_even_when_the_layout_cannot(app, monkeypatch) -> None:
    """The layout asks who is signed in; when that fails the sentence is told without it."""
    from webapp import current

    def breaks() -> None:
        raise OSError

    monkeypatch.setattr(current, "person", breaks)
    app.test_client_class = None
    response = app.test_client().get("/nowhere")
    assert response.status_code == 404
    assert "<h1>There is nothing here</h1>" in response.text


def test_every_code_has_a_title_and_a_sentence() -> None:
    assert set(BY_STATUS.values()) <= set(PROBLEMS)
    for code, (title, sentence) in PROBLEMS.items():
        assert title, code
        assert sentence.endswith("."), code


def test_details_are_put_into_the_sentence() -> None:
    assert problem_sentences("too_many_attempts", seconds=4)[1] == "Wait 4 s, then try again."
    assert Problem(429, "too_many_attempts", seconds=4).detail == "Wait 4 s, then try again."


def test_a_refused_record_is_an_answer_and_no_error(installer, phone: Phone) -> None:
    response = installer.call("POST", "/api/records", json={"jws": "nonsense"})
    assert (response.status_code, response.json["state"]) == (200, "quarantined")
