"""Every error in one shape: RFC 9457 problem details under /api/, a plain page elsewhere."""

import logging

from flask import Flask, Response, json, render_template, request
from flask_wtf.csrf import CSRFError
from markupsafe import escape
from werkzeug.exceptions import HTTPException

from webapp.language import language, told
from webapp.store import NotInStore, Unavailable
from webapp.text import BY_STATUS, problem_sentences

log = logging.getLogger(__name__)


class Problem(Exception):  # noqa: N818 - named like Werkzeug's own, NotFound and Forbidden
    """An answer that is an error: HTTP ``status``, stable ``code``, sentence, and the field it is about.

    Without ``detail`` the sentence of the code in :mod:`webapp.text` is used, ``details`` put in.
    """

    def __init__(
        self, status: int, code: str, detail: str | None = None, field: str | None = None, **details: object
    ):
        title, sentence = problem_sentences(code, **details)
        super().__init__(detail or sentence)
        detail = told(detail) if detail else None
        self.status = status
        self.code = code
        self.title = title
        self.detail = detail or sentence
        self.field = field
        self.headers: dict[str, str] = {}

    def as_json(self) -> dict[str, object]:
        members: dict[str, object] = {
            "type": f"urn:firstwater:problem:{self.code}",
            "title": self.title,
            "status": self.status,
            "detail": self.detail,
            "code": self.code,
        }
        return members if self.field is None else members | {"field": self.field}


def from_http(error: HTTPException) -> Problem:
    status = error.code or 500
    code = BY_STATUS.get(status) or ("bad_request" if status < 500 else "server_error")
    problem = Problem(status, code)
    problem.headers = {name: value for name, value in error.get_headers() if name in {"Allow", "Retry-After"}}
    return problem


def answer(problem: Problem) -> Response:
    if request.path.startswith("/api/"):
        body = json.dumps(problem.as_json())
        response = Response(body, problem.status, content_type="application/problem+json")
    else:
        response = Response(page(problem), problem.status)
    response.headers.update(problem.headers)
    response.headers["Cache-Control"] = "no-store"
    return response


def page(problem: Problem) -> str:
    try:
        return render_template("error.html", problem=problem)
    except Exception:  # the layout asks the store who is signed in, and the store may be what failed
        log.exception("The error page could not be rendered")
        return (
            f'<!doctype html><html lang="{language()}"><title>{escape(problem.title)}</title>'
            f"<h1>{escape(problem.title)}</h1><p>{escape(problem.detail)}</p></html>"
        )


def install(app: Flask) -> None:
    """Let ``app`` answer every error in the one shape."""

    @app.errorhandler(Problem)
    def known(error: Problem) -> Response:
        return answer(error)

    @app.errorhandler(CSRFError)
    def token(error: CSRFError) -> Response:
        return answer(Problem(400, "csrf"))

    @app.errorhandler(NotInStore)
    def missing(error: NotInStore) -> Response:
        return answer(Problem(404, "not_found", str(error)))

    @app.errorhandler(Unavailable)
    def unavailable(error: Unavailable) -> Response:
        log.error("%s %s: %s", request.method, request.path, error)
        problem = Problem(503, error.code)
        problem.headers["Retry-After"] = "30"
        return answer(problem)

    @app.errorhandler(HTTPException)
    def http(error: HTTPException) -> Response | HTTPException:
        return error if (error.code or 500) < 400 else answer(from_http(error))

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> Response:
        log.exception("%s %s failed", request.method, request.path)
        return answer(Problem(500, "server_error"))
