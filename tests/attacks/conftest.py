"""One real application for all attacks of a module, with an installer's phone and a supervisor's desk."""

import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from flask import Flask

from tests.page_lint import LintingClient
from tests.phone import Phone
from webapp import create_app, current
from webapp.settings import Settings
from webapp.store import Store, Unit


@dataclass
class Target:
    """The application, who is signed in, and new units to attack."""

    app: Flask
    store: Store
    phone: Phone
    desk: Phone
    installer: LintingClient
    supervisor: LintingClient

    def unit(self, name: str = "Basement unit") -> Unit:
        site = self.store.sites.all()[0]
        return self.store.units.add(name, uuid.uuid4().hex, site.id, {})

    def visit(self) -> Any:
        return self.phone.start(self.unit())

    def send(self, jws: str) -> dict[str, Any]:
        """A record as the installer's phone sends it; whatever it is, the server answers 200."""
        answer = self.installer.call("POST", "/api/records", json={"jws": jws})
        assert answer.status_code == 200, answer.text
        return answer.json

    def codes(self, jws: str) -> list[str]:
        """Why a record is quarantined."""
        answer = self.send(jws)
        assert answer["state"] == "quarantined", answer
        return [reason["code"] for reason in answer["reasons"]]


@pytest.fixture(scope="module")
def target(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Target]:
    app = create_app(Settings.for_tests(tmp_path_factory.mktemp("attacked")))
    app.test_client_class = LintingClient
    store = app.extensions[current.NAME].store
    store.sites.add("Weir House, basement", "3 Mill Lane", {})
    phone = Phone(store, store.people.add("ilse", "Ilse Brook", "installer", "!"))
    desk = Phone(store, store.people.add("sami", "Sami Weir", "supervisor", "!"), "trial desk")
    yield Target(app, store, phone, desk, signed_in(app, phone), signed_in(app, desk))
    store.close()


def signed_in(app: Flask, phone: Phone) -> LintingClient:
    running = app.extensions[current.NAME]
    running.store.sessions.start(current.session_key(phone.person.login), phone.person.id)
    client = app.test_client()
    with client.session_transaction() as session:
        session[current.SESSION_TOKEN] = phone.person.login
    return client
