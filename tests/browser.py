"""The real browser that the tests drive: Debian's Chromium, found once, started the same way everywhere."""

import os
import shutil
import signal
from pathlib import Path

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 2,
    "is_mobile": True,
    "has_touch": True,
}


def chromium() -> str:
    """Path of the browser: $CHROMIUM, else the first known name on the PATH."""
    for name in (os.environ.get("CHROMIUM", ""), "chromium", "chromium-browser", "google-chrome"):
        if name and (found := shutil.which(name)):
            return found
    raise FileNotFoundError("The browser tests need Chromium: apt-get install chromium, or set CHROMIUM.")


def launch(playwright, **options):
    """A browser without a profile."""
    return playwright.chromium.launch(executable_path=chromium(), args=ARGUMENTS, **options)


def launch_phone(playwright, folder):
    """A phone whose storage is in the folder and outlives the browser."""
    return playwright.chromium.launch_persistent_context(
        folder, executable_path=chromium(), args=ARGUMENTS, **PHONE
    )


def kill(folder) -> None:
    """SIGKILL to every process of the browser that was started with this folder."""
    for entry in Path("/proc").iterdir():
        try:
            if entry.name.isdecimal() and str(folder).encode() in (entry / "cmdline").read_bytes():
                os.kill(int(entry.name), signal.SIGKILL)
        except OSError:
            continue
