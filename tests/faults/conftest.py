"""A server that can be killed, the test's own view of its files, and two people at work."""

import secrets
import socket
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from flask import Flask

from tests.faults.handset import Handset
from tests.faults.installer import Installer
from tests.faults.launcher import Launcher
from tests.faults.wires import OverHttp
from tests.phone import PROCEDURE
from webapp import create_app, current
from webapp.settings import Settings


def free_port() -> int:
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def launcher(tmp_path: Path) -> Iterator[Launcher]:
    launcher = Launcher(tmp_path, free_port())
    yield launcher
    launcher.close()


@pytest.fixture
def app(tmp_path: Path) -> Iterator[Flask]:
    """The test's own view of the same files, as a command on the server would have it."""
    app = create_app(Settings.for_tests(tmp_path), lambda: datetime.now(UTC))
    yield app
    app.extensions[current.NAME].store.close()


@pytest.fixture
def installers(app: Flask, launcher: Launcher) -> Iterator[list[Installer]]:
    """Two people, each with a unit, a phone and a session."""
    store = app.extensions[current.NAME].store
    store.procedures.keep(PROCEDURE)
    place = store.sites.add("Weir House", "3 Mill Lane", {})
    made = []
    for number, login in enumerate(("ilse", "ivor")):
        person = store.people.add(login, login.title(), "installer", "!")
        unit = store.units.add(f"Unit {number}", f"FW-{number}", place.id, {})
        token = secrets.token_urlsafe(32)
        store.sessions.start(current.session_key(token), person.id)
        handset = Handset(store, person, wire=OverHttp(app, launcher.port, token))
        handset.previous = {unit.id: None}
        made.append(Installer(handset, unit.id, number))
    yield made
    for installer in made:
        installer.handset.wire.close()
