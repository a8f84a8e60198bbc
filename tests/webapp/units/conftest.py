"""A real application over a store in a temporary file, and one signed-in client per role."""

import secrets
from datetime import UTC, datetime

import pytest

from webapp import create_app, current
from webapp.settings import Settings

NOW = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)


@pytest.fixture
def app(tmp_path):
    app = create_app(Settings.for_tests(tmp_path), lambda: NOW)
    app.config.update(TESTING=True, WTF_CSRF_ENABLED=False)
    yield app
    app.extensions[current.NAME].store.close()


@pytest.fixture
def store(app):
    return app.extensions[current.NAME].store


@pytest.fixture
def client(app, store):
    """`client(role)` gives a test client signed in as somebody of this role; `client(None)` a stranger's."""

    def make(role):
        browser = app.test_client()
        if role:
            person = store.people.by_login(role) or store.people.add(role, f"The {role}", role, "no password")
            token = secrets.token_urlsafe(16)
            store.sessions.start(current.session_key(token), person.id)
            with browser.session_transaction() as session:
                session[current.SESSION_TOKEN] = token
        return browser

    return make


@pytest.fixture
def site(store):
    return store.sites.add("Weir House", "Second floor", {"supply_system": {"value": "tn_s"}})


@pytest.fixture
def unit(store, site):
    plate = {
        "water_grade": {"value": "iso_3696_2"},
        "maximum_pressure": {"value": 6, "typed": "6,0", "unit": "bar"},
    }
    return store.units.add("Analyser feed", "W-17", site.id, plate)
