"""The application on a port, and a phone's browser that looks at its calculator."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.static.live import Live
from webapp import create_app, current
from webapp.settings import Settings

PATIENCE = 30_000  # milliseconds, for a machine that runs other tests at the same time


@pytest.fixture(scope="session")
def server(tmp_path_factory) -> Iterator[Live]:
    app = create_app(Settings.for_tests(tmp_path_factory.mktemp("calculator")))
    server = Live(app).start()
    yield server
    server.stop()
    app.extensions[current.NAME].store.close()


@pytest.fixture
def page(chromium) -> Iterator[Page]:
    """320 pixels wide; the worker is left out, so that each test sees the present files."""
    expect.set_options(timeout=PATIENCE)
    context = chromium.new_context(viewport={"width": 320, "height": 700}, service_workers="block")
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    yield page
    context.close()
