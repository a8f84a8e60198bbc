"""A real browser, and a server of the phone's files that needs no application."""

import threading
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

SUITES = Path(__file__).parent
STATIC = SUITES.parents[1] / "static"


class Files(SimpleHTTPRequestHandler):
    """`/static/` as the application serves it; everything else from the folder of the suites."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript"}

    def translate_path(self, path):
        path = path.partition("?")[0]
        if path.startswith("/static/"):
            return str(STATIC / path.removeprefix("/static/"))
        return str(SUITES / path.removeprefix("/tests").lstrip("/"))

    def log_message(self, *parts):
        pass


@pytest.fixture(scope="session")
def files():
    """The address of the server of files."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), Files)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture
def page(chromium, files):
    """A blank page of a phone without any stored data."""
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{files}/blank.html")
    yield page
    context.close()
