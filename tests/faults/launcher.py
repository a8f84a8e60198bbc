"""A server that starts in a fraction of a second, so that it can be killed hundreds of times.

`python -m tests.faults.launcher FOLDER PORT` makes the application once and waits. For each line on its input
it forks; the fork opens the store, as it lies on the disk, puts it into the application and serves that over
HTTP, as `firstwater serve` does. It shares nothing with others but the memory of the loaded program, and
SIGKILL ends it anywhere. Its number is printed once it listens.
"""

import gc
import os
import resource
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from flask import Flask

from webapp import create_app, current
from webapp.commands.serve import make_server
from webapp.settings import Settings
from webapp.store import Store

ROOT = Path(__file__).parents[2]


def main(folder: str, port: int) -> None:
    app = empty_application()
    gc.collect()
    gc.freeze()  # a fork that collects would copy every page of what was loaded
    print("ready", flush=True)
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            serve(app, Path(folder), port, line.strip())
        os.waitpid(child, 0)
        print("ended", flush=True)


def empty_application() -> Flask:
    """Everything that does not depend on the data: formulas, procedures, routes, templates."""
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(Settings.for_tests(Path(folder)))
        app.test_client().get("/sign-in")
        app.extensions[current.NAME].store.close()
    return app


def serve(app: Flask, folder: Path, port: int, largest_file: str) -> None:
    """Never returns. ``largest_file`` limits the size of files, as a full disk would, if it is a number."""
    if largest_file.isdecimal():
        limit_files(int(largest_file))
    settings = replace(Settings.for_tests(folder), host="127.0.0.1", port=port)
    store = Store(settings.database, current.utc_now, settings.photos)
    app.extensions[current.NAME] = current.Running(settings, store, current.utc_now)
    server = make_server(app, settings, None)
    print(os.getpid(), flush=True)
    server.serve()
    os._exit(0)


def limit_files(largest: int) -> None:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)  # the write fails instead of ending the process
    resource.setrlimit(resource.RLIMIT_FSIZE, (largest, resource.RLIM_INFINITY))


class Launcher:
    """The test's side: starts servers over one folder and kills them."""

    def __init__(self, folder: Path, port: int):
        command = [sys.executable, "-m", "tests.faults.launcher", str(folder), str(port)]
        self.port = port
        self.errors = (folder / "server.log").open("wb")
        self.process = subprocess.Popen(
            command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=self.errors, text=True
        )
        assert self.line() == "ready"
        self.server = 0
        self.seconds: list[float] = []

    def line(self) -> str:
        assert self.process.stdout
        return self.process.stdout.readline().strip()

    def start(self, how: str = "") -> int:
        """The process that serves now."""
        assert self.process.stdin
        begin = time.perf_counter()
        self.process.stdin.write(f"{how}\n")
        self.process.stdin.flush()
        self.server = int(self.line())
        self.seconds.append(time.perf_counter() - begin)
        return self.server

    def kill(self) -> None:
        """SIGKILL, and wait until the process is gone."""
        os.kill(self.server, signal.SIGKILL)
        self.server = 0
        assert self.line() == "ended"

    def close(self) -> None:
        if self.server:
            self.kill()
        assert self.process.stdin
        assert self.process.stdout
        self.process.stdin.close()
        self.process.wait(timeout=30)
        self.process.stdout.close()
        self.errors.close()


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
