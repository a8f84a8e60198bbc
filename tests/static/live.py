"""An application on a free port that a test can stop, start again and change, like Wi-Fi in a cellar."""

import threading

from werkzeug.serving import WSGIRequestHandler, make_server


class Quiet(WSGIRequestHandler):
    def log(self, *parts):
        pass


class Live:
    """Serves ``app`` on a port that stays the same for as long as the object lives."""

    def __init__(self, app=None):
        self.app = app
        self.port = 0
        self.server = None

    @property
    def url(self):
        return f"http://127.0.0.1:{self.port}"

    def start(self):
        self.is_up = True
        self.server = make_server("127.0.0.1", self.port, self.answer, threaded=True, request_handler=Quiet)
        self.port = self.server.port
        self.thread = threading.Thread(target=self.server.serve_forever, daemon=True)
        self.thread.start()
        return self

    def answer(self, environ, start_response):
        # The browser opens connections ahead of need; they outlive the server that accepted them.
        if not self.is_up:
            raise ConnectionAbortedError
        return self.app(environ, start_response)

    def stop(self):
        if not self.is_up:
            return
        self.is_up = False
        self.server.shutdown()
        self.server.server_close()
        self.thread.join()
