"""A real browser that runs the phone's modules, to be asked from Python for thousands of answers at once."""

import pytest

from tests.file_server import Files, served

PAGE = b"<!doctype html><html lang=en><title>Agreement</title></html>"


class FilesOrPage(Files):
    """`/static/` as the application serves it; every other address is an empty page."""

    def do_GET(self):  # noqa: N802 - the name that the base class calls
        if self.path.startswith("/static/"):
            return super().do_GET()
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        return self.wfile.write(PAGE)


@pytest.fixture(scope="session")
def static_files():
    """The address of a server of the phone's files."""
    with served(FilesOrPage) as address:
        yield address


@pytest.fixture(scope="session")
def phone(chromium, static_files):
    """A page in Chromium; `phone.evaluate(function, argument)` runs JavaScript there."""
    page = chromium.new_page()
    page.goto(static_files)
    yield page
    page.close()
