"""WebKitGTK: the engine family of Safari, driven through Debian's WebKitWebDriver on a display of its own."""

import os
import shutil
import subprocess
from contextlib import contextmanager
from glob import glob

from selenium import webdriver
from selenium.common import exceptions
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

from tests.engines.engine import Engine

PLACE = "/usr/lib/*/webkit2gtk-4.*/MiniBrowser"
# As in Safari, where they are on; MiniBrowser leaves them off.
FEATURES = "+FileSystem,+StorageAPI,+StorageAPIEstimate"
NOT_YET = (
    exceptions.NoSuchElementException,
    exceptions.StaleElementReferenceException,
    exceptions.ElementNotInteractableException,
    exceptions.ElementClickInterceptedException,
)


def missing():
    """Why this engine cannot be driven here, or None."""
    if glob(PLACE) and shutil.which("WebKitWebDriver") and shutil.which("Xvfb"):
        return None
    return "WebKitGTK is not here: apt-get install webkit2gtk-driver xvfb"


@contextmanager
def display():
    """A screen in memory, its number chosen by the X server itself."""
    reading, writing = os.pipe()
    screen = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "800x1000x24", "-nolisten", "tcp"],
        pass_fds=[writing],
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    try:
        with os.fdopen(reading) as answer:
            yield f":{answer.readline().strip()}"
    finally:
        screen.terminate()
        screen.wait()


@contextmanager
def started():
    options = Options()
    options.binary_location = glob(PLACE)[0]
    options.add_argument("--automation")
    options.add_argument(f"--features={FEATURES}")
    with display() as name:
        environment = {**os.environ, "DISPLAY": name}
        service = Service(executable_path=shutil.which("WebKitWebDriver"), env=environment)
        driver = webdriver.WebKitGTK(options=options, service=service)
        try:
            driver.set_page_load_timeout(60)
            yield Engine(driver, driver.get, NOT_YET)
        finally:
            driver.quit()
