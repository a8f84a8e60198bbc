"""A real server as a process that a test stops and starts again, and phones that keep their storage."""

import os
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import closing

import pytest

from tests import browser

COMMAND = [sys.executable, "-c", "from webapp.commands import main; main()", "serve", "--demo", "--port"]
DEADLINE = 60


class ServerProcess:
    """`firstwater serve --demo` over a folder of its own; the port stays the same over restarts."""

    def __init__(self, folder):
        self.folder = folder
        self.log = folder / "server.log"
        with closing(socket.socket()) as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"
        self.process = None

    def start(self):
        kept = {name: value for name, value in os.environ.items() if not name.startswith("FIRSTWATER_")}
        with self.log.open("a") as log:
            self.process = subprocess.Popen(
                [*COMMAND, str(self.port)],
                cwd=self.folder,
                env={**kept, "PYTHONUNBUFFERED": "1", "FIRSTWATER_JUDGES": "0"},
                stdout=log,
                stderr=subprocess.STDOUT,
            )
        self.wait()
        return self

    def wait(self):
        until = time.monotonic() + DEADLINE
        while time.monotonic() < until and self.process.poll() is None:
            try:
                with urllib.request.urlopen(f"{self.url}/sign-in", timeout=5):
                    return
            except OSError:
                time.sleep(0.1)
        pytest.fail(f"The server did not answer:\n{self.log.read_text()}")

    def stop(self):
        """SIGKILL: no farewell, as when the building's power goes."""
        if self.process is not None:
            self.process.kill()
            self.process.wait()
            self.process = None


@pytest.fixture
def server(tmp_path, request):
    folder = tmp_path / "server"
    folder.mkdir()
    server = ServerProcess(folder)
    yield server.start()
    server.stop()
    print(f"---- server ----\n{server.log.read_text()}")  # shown when the test fails


@pytest.fixture
def phone_folder(tmp_path):
    """Where the phone keeps its storage; its browser is killed at the end, whatever happened."""
    folder = tmp_path / "phone"
    yield folder
    browser.kill(folder)


@pytest.fixture
def photo(tmp_path):
    """A small picture of nothing, as a camera would give it."""
    from PIL import Image

    path = tmp_path / "valve.jpg"
    Image.effect_mandelbrot((640, 480), (-2, -1.2, 1, 1.2), 60).save(path)
    return str(path)
