"""A real browser that runs the phone's modules, to be asked from Python for thousands of answers at once."""

import threading
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = b"<!doctype html><html lang=en><title>Agreement</title></html>"


class Files(SimpleHTTPRequestHandler):
    """`/static/` as the application serves it; every other address is an empty page."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript"}

    def __init__(self, *parts, **options):
        super().__init__(*parts, directory=str(ROOT), **options)

    def do_GET(self):
        if self.path.startswith("/static/"):
            return super().do_GET()
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        return self.wfile.write(PAGE)

    def log_message(self, *parts):
        pass


@pytest.fixture(scope="session")
def static_files():
    """The address of a server of the phone's files."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), Files)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture(scope="session")
def phone(chromium, static_files):
    """A page in Chromium; `phone.evaluate(function, argument)` runs JavaScript there."""
    page = chromium.new_page()
    page.goto(static_files)
    yield page
    page.close()
