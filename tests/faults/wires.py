"""The way between a phone and a server, and what can happen on it."""

import http.client
import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Protocol

from flask import Flask
from itsdangerous import URLSafeTimedSerializer

from webapp import current, limits

JSON = "application/json"
Headers = dict[str, str]


class Lost(Exception):  # noqa: N818 - what the phone notices, not a mistake
    """No answer came. The phone cannot know whether the request was carried out."""


@dataclass(frozen=True)
class Reply:
    status: int
    body: Any

    @property
    def code(self) -> str | None:
        return self.body.get("code") if isinstance(self.body, dict) else None


class Wire(Protocol):
    def call(
        self, method: str, path: str, body: bytes | None = None, kind: str = JSON, more: Headers | None = None
    ) -> Reply: ...


class InProcess:
    """Straight into the application. ``fate`` says what happens to the request after ``spared`` others.

    ``arrives``; ``lost`` on the way there; ``reply_lost`` after the server has carried it out; ``too_many``:
    the person has called too often; a number: the database breaks off after so many steps of its machine,
    wherever that is in the request.
    """

    def __init__(self, app: Flask, token: str):
        self.app, self.token = app, token
        self.fate: str | int = "arrives"
        self.spared = 0
        self.headers, content = signed_in(app, token)
        self.client = app.test_client()
        with self.client.session_transaction() as session:
            session.update(content)

    def call(
        self, method: str, path: str, body: bytes | None = None, kind: str = JSON, more: Headers | None = None
    ) -> Reply:
        with self.trouble(self.next_fate()):
            headers = {**self.headers, **(more or {})}
            answer = self.client.open(path, method=method, data=body, content_type=kind, headers=headers)
        return Reply(answer.status_code, answer.json)

    def next_fate(self) -> str | int:
        if self.spared:
            self.spared -= 1
            return "arrives"
        fate, self.fate = self.fate, "arrives"
        return fate

    @contextmanager
    def trouble(self, fate: str | int) -> Iterator[None]:
        if fate == "lost":
            raise Lost
        if isinstance(fate, int):
            with broken_off(self.app, fate):
                yield
        elif fate == "too_many":
            with nothing_left(self.app):
                yield
        else:
            yield
        if fate == "reply_lost":
            raise Lost


class NothingLeft(limits.Limits):
    """Everybody has called too often just now."""

    def filled(self, purse: str, who: str) -> float:
        return 0.0


@contextmanager
def nothing_left(app: Flask) -> Iterator[None]:
    usual = app.extensions[limits.NAME]
    app.extensions[limits.NAME] = NothingLeft(usual.allowances)
    try:
        yield
    finally:
        app.extensions[limits.NAME] = usual


@contextmanager
def broken_off(app: Flask, steps: int) -> Iterator[None]:
    """Let SQLite stop in the middle of a write: the statement fails and the transaction has to go back."""
    writer = app.extensions[current.NAME].store.connection._writer.conn
    left = steps

    def count_down() -> bool:
        nonlocal left
        left -= 1
        return left == 0

    writer.set_progress_handler(count_down, 1)
    try:
        yield
    finally:
        writer.set_progress_handler(None, 0)


class OverHttp:
    """A connection to a real server, opened anew after a failure. ``app`` knows the server's secret key."""

    def __init__(self, app: Flask, port: int, token: str):
        self.port = port
        self.headers, content = signed_in(app, token)
        serializer = app.session_interface.get_signing_serializer(app)
        self.headers["Cookie"] = f"{app.config['SESSION_COOKIE_NAME']}={serializer.dumps(content)}"
        self.connection: http.client.HTTPConnection | None = None
        self.answers = 0

    def call(
        self, method: str, path: str, body: bytes | None = None, kind: str = JSON, more: Headers | None = None
    ) -> Reply:
        if self.connection is None:
            self.connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            self.connection.request(
                method, path, body, {"Content-Type": kind, **self.headers, **(more or {})}
            )
            answer = self.connection.getresponse()
            reply = Reply(answer.status, json.loads(answer.read()))
        except (OSError, http.client.HTTPException) as error:
            self.close()
            raise Lost from error
        self.answers += 1
        return reply

    def close(self) -> None:
        if self.connection is not None:
            self.connection.close()
            self.connection = None


def signed_in(app: Flask, token: str) -> tuple[dict[str, str], dict[str, str]]:
    """The headers and the content of a session's cookie, as `GET /api/session` would give them."""
    secret = "0" * 40
    signed = URLSafeTimedSerializer(app.secret_key, salt="wtf-csrf-token").dumps(secret)
    return {"X-CSRFToken": signed}, {current.SESSION_TOKEN: token, "csrf_token": secret}
