"""Firefox ESR, driven through Marionette, which the browser itself speaks; Debian has no program between.

Spoken here, because the library for it needs a module that left Python with 3.13. A message is its length, a
colon and a JSON list; the commands are those of the W3C's WebDriver.
"""

import itertools
import json
import shutil
import socket
import subprocess
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path

from tests.engines.engine import PATIENCE, Engine

PREFERENCES = {
    "marionette.port": 0,  # a free one; the browser writes into its profile which
    # The question whether storage may be kept is answered, since nobody is there to press.
    "dom.storageManager.prompt.testing": True,
    "dom.storageManager.prompt.testing.allow": True,
}
NOT_YET = {
    "no such element",
    "stale element reference",
    "element not interactable",
    "element click intercepted",
}
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the key of an element's reference in the W3C's WebDriver


def missing():
    """Why this engine cannot be driven here, or None."""
    return None if shutil.which("firefox-esr") else "Firefox is not here: apt-get install firefox-esr"


class RefusedError(Exception):
    """The browser's answer to a command that it could not do."""


class NotYetError(RefusedError):
    """The element is not there, or cannot be used at this moment."""


class Marionette:
    def __init__(self, port):
        self.socket = socket.create_connection(("127.0.0.1", port), timeout=2 * PATIENCE)
        self.answers = self.socket.makefile("rb")
        self.numbers = itertools.count(1)
        self.read()  # the greeting
        self.command("WebDriver:NewSession")

    def read(self):
        length = b"".join(iter(lambda: self.answers.read(1), b":"))
        return json.loads(self.answers.read(int(length)))

    def command(self, name, **parameters):
        message = json.dumps([0, next(self.numbers), name, parameters]).encode()
        self.socket.sendall(b"%d:%b" % (len(message), message))
        _kind, _number, error, result = self.read()
        if error:
            kind = NotYetError if error["error"] in NOT_YET else RefusedError
            raise kind(f"{name}: {error['error']}: {error['message']}")
        return result

    def navigate(self, address):
        self.command("WebDriver:Navigate", url=address)

    def execute_script(self, body, *arguments):
        return self.command("WebDriver:ExecuteScript", script=body, args=list(arguments))["value"]

    def find_element(self, using, value):
        found = self.command("WebDriver:FindElement", using=using, value=value)
        return Element(self, found["value"][ELEMENT])

    def close(self):
        self.answers.close()
        self.socket.close()


class Element:
    def __init__(self, driver, reference):
        self.driver = driver
        self.reference = reference

    def click(self):
        self.driver.command("WebDriver:ElementClick", id=self.reference)

    def send_keys(self, text):
        self.driver.command("WebDriver:ElementSendKeys", id=self.reference, text=text)


def port_of(profile, process):
    place = Path(profile, "MarionetteActivePort")
    limit = time.monotonic() + PATIENCE
    while not (place.is_file() and place.read_text()):
        assert process.poll() is None, f"Firefox ended with status {process.returncode}"
        assert time.monotonic() < limit, "Firefox did not say where it listens"
        time.sleep(0.05)
    return int(place.read_text())


@contextmanager
def started():
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        lines = [f'user_pref("{name}", {json.dumps(value)});' for name, value in PREFERENCES.items()]
        Path(profile, "user.js").write_text("\n".join(lines))
        process = subprocess.Popen(
            [shutil.which("firefox-esr"), "--headless", "--marionette", "--no-remote", "--profile", profile],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            driver = Marionette(port_of(profile, process))
            # By address: a reload by the driver goes past the service worker.
            yield Engine(driver, driver.navigate, NotYetError)
            driver.close()
        finally:
            process.terminate()
            process.wait()
