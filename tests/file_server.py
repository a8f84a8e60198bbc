"""A small server of files for browsers that need no application."""

import threading
from contextlib import contextmanager
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

ROOT = Path(__file__).parents[1]


class Files(SimpleHTTPRequestHandler):
    """The project's files from its top folder, scripts as a browser wants them, without a log."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript"}

    def __init__(self, *parts, **options):
        super().__init__(*parts, directory=str(ROOT), **options)

    def log_message(self, *parts):
        pass


@contextmanager
def served(handler):
    """The address at which the handler answers, on a free port, until the block ends."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()
    thread.join()
