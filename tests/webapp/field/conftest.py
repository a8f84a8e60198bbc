"""The application on a port, a browser, and in it the phone of an installer with a visit in work.

The pages need the server for their files alone, so one server serves all tests of this folder.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.journeys.navigators import Installer
from tests.static.live import Live
from webapp import create_app, current
from webapp.settings import Settings

PREPARED_PHONE = (Path(__file__).parent / "prepared-phone.js").read_text()
NARROW = {"width": 320, "height": 700}
PHONE = {"width": 390, "height": 844}
PATIENCE = 30_000  # milliseconds, for a machine that runs other tests at the same time


@pytest.fixture(autouse=True)
def patience():
    expect.set_options(timeout=PATIENCE)


@pytest.fixture(scope="session")
def address(tmp_path_factory) -> Iterator[str]:
    """Where the application is served."""
    app = create_app(Settings.for_tests(tmp_path_factory.mktemp("field")))
    server = Live(app).start()
    yield server.url
    server.stop()
    app.extensions[current.NAME].store.close()


@pytest.fixture
def open_page(chromium) -> Iterator[Callable[..., Page]]:
    """A page in a browser of its own; the worker is left out, so that each test sees the present files."""
    contexts = []

    def opened(viewport=PHONE, **options) -> Page:
        context = chromium.new_context(viewport=viewport, service_workers="block", **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        return page

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def page(open_page) -> Page:
    return open_page()


def prepare(page: Page, address: str) -> str:
    """Make this page's browser a prepared phone; gives the id of its visit in work."""
    page.goto(f"{address}/field/offline")
    return page.evaluate(f"({PREPARED_PHONE})()")


@pytest.fixture
def visit(page, address) -> str:
    return prepare(page, address)


@pytest.fixture
def installer(page, address, visit) -> Installer:
    """The installer, looking at the visit."""
    installer = Installer(page, address)
    installer.open_visit(visit)
    return installer
