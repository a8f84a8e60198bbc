"""How long it takes from opening the app without a server until a reading can be entered.

    python -m tests.benchmarks.cold_start

The phone was prepared, its browser was closed, the server was killed. Each round starts the browser anew on a
processor four times slower than this machine. Budget: 1.5 s at six times slower.
"""

import tempfile
from pathlib import Path

from checks import procedure as procedures
from tests.benchmarks.stage import UNIT, phone, prepared, server, show, slow_down, spread

RATE, ROUNDS = 4, 12
WATCH = """
new MutationObserver((_, watching) => {
  if (document.querySelector('[data-part="state"] .tag')) {
    window.usable = performance.now();
    watching.disconnect();
  }
}).observe(document, { childList: true, subtree: true });
"""


def main() -> None:
    version = procedures.load("commissioning")["version"]
    times = []
    with tempfile.TemporaryDirectory() as folder, server() as running:
        with phone(Path(folder)) as context:
            visit = prepared(context.new_page(), running.url).start_visit(UNIT)
        address = f"{running.url}/field/commissioning-{version}/earthing?visit={visit}"
        running.stop()
        for _ in range(ROUNDS):
            with phone(Path(folder)) as context:
                page = context.new_page()
                page.add_init_script(WATCH)
                slow_down(page, RATE)
                page.goto(address)
                page.locator('[data-part="state"] .tag').wait_for(timeout=60_000)
                times.append(page.evaluate("window.usable"))
    show(f"From the tap to a step that can be filled in, ms, processor {RATE} times slower", [spread(times)])


if __name__ == "__main__":
    main()
