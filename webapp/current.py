"""What the running application works with: its store, clock, settings, and who is asking."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any, Protocol

from flask import current_app, g, session

from webapp.settings import Settings
from webapp.store import Person, Store

NAME = "firstwater"
SESSION_TOKEN = "token"  # noqa: S105 - the name under which the cookie carries the token


class Judging(Protocol):
    """:class:`webapp.receiving.Judges`, which stands above this module."""

    def examine(self, texts: Sequence[str], received_at: str) -> Iterator[list[Any]]: ...
    def warm_up(self) -> None: ...
    def close(self) -> None: ...


@dataclass(frozen=True)
class Running:
    """What the factory hangs on the application."""

    settings: Settings
    store: Store
    clock: Callable[[], datetime]
    judges: Judging | None = None


def utc_now() -> datetime:
    return datetime.now(UTC)


def running() -> Running:
    return current_app.extensions[NAME]


def store() -> Store:
    return running().store


def settings() -> Settings:
    return running().settings


def examining() -> Callable[[Sequence[str], str], Iterator[list[Any]]] | None:
    """What verifies and judges records (:data:`webapp.receiving.Examining`), None for this thread."""
    judges = running().judges
    return judges.examine if judges else None


def clock() -> datetime:
    """The time now, aware and in UTC."""
    return running().clock()


def person() -> Person | None:
    """The signed-in person, or None; looked up once per request."""
    if "person" not in g:
        g.person = person_of(session.get(SESSION_TOKEN))
    return g.person


def forget_person() -> None:
    """Who is signed in changes within this request."""
    g.pop("person", None)


def person_of(token: str | None) -> Person | None:
    if not token:
        return None
    limits = settings()
    return store().sessions.person(session_key(token), limits.idle_hours, limits.session_days)


def session_key(token: str) -> str:
    """What the store keeps of a session's token: a reader of the database cannot sign in with it."""
    return sha256(token.encode()).hexdigest()
