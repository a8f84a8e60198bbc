"""What the benchmarks share: a server with the demonstration, a prepared phone, tables of figures."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median, quantiles
from typing import Any

from playwright.sync_api import BrowserContext, Page, sync_playwright

from tests import browser
from tests.journeys.conftest import ServerProcess
from tests.journeys.navigators import Installer

LOGIN, PASSWORD = "tamsin", "rinse the loop twice"
UNIT = "VCL-0118"


@contextmanager
def server() -> Iterator[ServerProcess]:
    with tempfile.TemporaryDirectory() as folder:
        process = ServerProcess(Path(folder))
        try:
            yield process.start()
        finally:
            process.stop()


@contextmanager
def phone(folder: Path | None = None) -> Iterator[BrowserContext]:
    """A phone; with a folder its storage outlives it."""
    with sync_playwright() as playwright:
        if folder is not None:
            context = browser.launch_phone(playwright, folder)
            yield context
            context.close()
        else:
            started = browser.launch(playwright)
            yield started.new_context(**browser.PHONE)
            started.close()


def prepared(page: Page, url: str) -> Installer:
    """An installer whose phone is ready for offline work."""
    installer = Installer(page, url)
    installer.sign_in(LOGIN, PASSWORD)
    installer.prepare_phone("benchmark", PASSWORD)
    return installer


def slow_down(page: Page, rate: int) -> None:
    """Make the page's processor `rate` times slower."""
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": rate})


def spread(values: list[float]) -> dict[str, Any]:
    """Count, median, the value that 95 in 100 stay under, and the worst."""
    return {
        "count": len(values),
        "median": median(values),
        "95 %": quantiles(values, n=20, method="inclusive")[-1],
        "worst": max(values),
    }


def show(title: str, rows: list[dict[str, Any]]) -> None:
    """Print a table whose columns are the keys of the first row."""
    names = list(rows[0])
    table = [names, *([written(row.get(name, "")) for name in names] for row in rows)]
    widths = [max(len(line[column]) for line in table) for column in range(len(names))]
    print(f"\n{title}\n")
    for line in table:
        print("  " + "  ".join(cell.rjust(width) for cell, width in zip(line, widths, strict=True)))


def written(value: Any) -> str:
    return f"{value:.1f}" if isinstance(value, float) else str(value)
