"""A real browser, and a server of the phone's files that needs no application."""

import pytest

from tests.file_server import Files, served
from tests.static.cellar import EMPTY, SILENT_PAGE, WHO, prepared, real_server


class FilesAndSuites(Files):
    """`/static/` as the application serves it; everything else from the folder of the suites."""

    def translate_path(self, path):
        path = path.partition("?")[0]
        if not path.startswith("/static/"):
            path = "/tests/static/" + path.removeprefix("/tests").lstrip("/")
        return super().translate_path(path)


@pytest.fixture(scope="session")
def files():
    """The address of the server of files."""
    with served(FilesAndSuites) as address:
        yield address


@pytest.fixture
def page(chromium, files):
    """A blank page of a phone without any stored data."""
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{files}/blank.html")
    yield page
    context.close()


@pytest.fixture(scope="session")
def server(tmp_path_factory):
    with real_server(tmp_path_factory.mktemp("server")) as server:
        yield server


@pytest.fixture(scope="session")
def prepared_phone(chromium, server):
    context = chromium.new_context(viewport={"width": 390, "height": 844})
    yield prepared(context, server)
    context.close()


@pytest.fixture(scope="session")
def second_phone(chromium, server):
    """Another phone of the same person."""
    context = chromium.new_context()
    yield prepared(context, server)
    context.close()


@pytest.fixture
def phone(prepared_phone, server):
    """The prepared phone, signed in, with nothing on it that waits."""
    prepared_phone.context.unroute_all()
    if not server.is_up:
        server.start()
    prepared_phone.open(SILENT_PAGE).run(EMPTY)
    if prepared_phone.run(WHO) != "Mara Lind":
        prepared_phone.context.clear_cookies()
        prepared_phone.sign_in()
    return prepared_phone
