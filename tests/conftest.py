"""An application over a store of its own, one person per role, a signed-in client for each, and phones."""

import secrets
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask
from playwright.sync_api import Browser, Playwright, sync_playwright

from tests import browser
from tests.page_lint import LintingClient
from tests.phone import Phone
from tests.static.cellar import Cellar, real_server
from webapp import create_app, current
from webapp.rights import ROLES
from webapp.settings import Settings
from webapp.store import Person, Store, Unit

NAMES = {
    "installer": "Ilse Brook",
    "supervisor": "Sami Weir",
    "quality": "Quinn Leat",
    "administrator": "Ada Mere",
}
NO_PASSWORD = "!"  # no hash: nobody signs in with it; the tests of passwords make real ones


def todays_clock() -> datetime:
    """The clock for a server that a real browser asks: the browser's own time cannot be stood still."""
    return datetime.now(UTC)


class Clock:
    """A clock that stands still until a test moves it."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def advance(self, **time: float) -> None:
        self.now += timedelta(**time)


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """One for the whole process: a second one in the same thread is refused."""
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def chromium(playwright: Playwright) -> Iterator[Browser]:
    """A browser without a profile; each test takes a context of its own."""
    launched = browser.launch(playwright)
    yield launched
    launched.close()


@pytest.fixture
def cellar(tmp_path: Path) -> Iterator[Cellar]:
    """The application as phones meet it, with one installer and one unit; a test stops and starts it."""
    with real_server(tmp_path) as server:
        yield server


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings.for_tests(tmp_path)


@pytest.fixture
def app(settings: Settings, clock: Clock) -> Iterator[Flask]:
    app = create_app(settings, clock)
    app.test_client_class = LintingClient
    yield app
    app.extensions[current.NAME].store.close()


@pytest.fixture
def store(app: Flask) -> Store:
    return app.extensions[current.NAME].store


@pytest.fixture
def client(app: Flask) -> LintingClient:
    """Nobody is signed in; every page it fetches is linted."""
    return app.test_client()


@pytest.fixture
def people(store: Store) -> dict[str, Person]:
    """One person per role, by role."""
    return {role: store.people.add(role, NAMES[role], role, NO_PASSWORD) for role in ROLES}


@pytest.fixture
def sign_in(app: Flask, store: Store, people: dict[str, Person]) -> Callable[..., LintingClient]:
    """A client with a session, for a role or for a person: ``sign_in("installer")``."""

    def signed_in(who: str | Person) -> LintingClient:
        person = people[who] if isinstance(who, str) else who
        token = secrets.token_urlsafe(32)
        store.sessions.start(current.session_key(token), person.id)
        client = app.test_client()
        with client.session_transaction() as session:
            session[current.SESSION_TOKEN] = token
        return client

    return signed_in


@pytest.fixture
def unit(store: Store) -> Unit:
    site = store.sites.add("Weir House, basement", "3 Mill Lane", {})
    return store.units.add("Basement unit", "FW-0001", site.id, {})


@pytest.fixture
def phone(store: Store, people: dict[str, Person]) -> Phone:
    """The installer's phone."""
    return Phone(store, people["installer"])


@pytest.fixture
def desk(store: Store, people: dict[str, Person]) -> Phone:
    """The supervisor's device."""
    return Phone(store, people["supervisor"], "trial desk")
