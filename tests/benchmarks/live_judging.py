"""How long a keystroke takes until the screen shows what it means, on a processor six times slower.

    python -m tests.benchmarks.live_judging

Types a number into every reading of every step of a visit. A keystroke ends with the paint after it: that
is the browser's event timing, in steps of 8 ms. The judging alone is timed as well, over the whole record,
with one reading changed each time.
Budgets: 100 ms for a keystroke, 10 ms for judging a step.
"""

from playwright.sync_api import Page, expect

from checks import procedure as procedures
from tests.benchmarks.stage import UNIT, phone, prepared, server, show, slow_down, spread

RATE = 6
UNDER = 8.0  # what the browser does not report took less than 16 ms
WATCH = """() => {
  window.strokes = [];
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === "keydown") window.strokes.push(entry.duration);
  }).observe({ type: "event", durationThreshold: 16, buffered: false });
}"""
JUDGING = """async (visit) => {
  const load = (path) => import(`/static/${path}.js`);
  const [{ judge }, { openVisit }] = await Promise.all([load("judging/engine"), load("parts/session")]);
  const session = await openVisit(visit);
  const times = [];
  for (let round = 0; round < 60; round++) {
    session.case.entries = { ...session.case.entries, "earthing.continuity": { value: 0.1 + round / 1000 } };
    const start = performance.now();
    judge(session.procedure, session.case);
    times.push(performance.now() - start);
  }
  return times.slice(10);
}"""


def type_into_everything(page: Page) -> tuple[int, list[float]]:
    """(number of keystrokes, durations of those that took 16 ms or more) on the open step."""
    page.evaluate(WATCH)
    strokes = 0
    for box in page.locator(
        '[data-kind="reading"] input[inputmode], [data-kind="series"] input[inputmode]'
    ).all():
        if box.is_visible() and box.is_enabled():
            box.focus()
            page.keyboard.type("1.25", delay=150)
            strokes += 4
    page.wait_for_timeout(1000)
    return strokes, page.evaluate("window.strokes")


def main() -> None:
    procedure = procedures.load("commissioning")
    rows, everything = [], []
    with server() as running, phone() as context:
        page = context.new_page()
        visit = prepared(page, running.url).start_visit(UNIT)
        slow_down(page, RATE)
        for step in procedure["steps"]:
            page.goto(f"{running.url}/field/commissioning-{procedure['version']}/{step['id']}?visit={visit}")
            expect(page.locator('[data-part="state"] .tag')).to_be_visible(timeout=60_000)
            strokes, slow = type_into_everything(page)
            if strokes:
                durations = slow + [UNDER] * (strokes - len(slow))
                rows.append({"step": step["id"], **spread(durations)})
                everything += durations
        judging = page.evaluate(JUDGING, visit)
    show(
        f"Keystroke to paint, ms, processor {RATE} times slower",
        [*rows, {"step": "all", **spread(everything)}],
    )
    show(f"Judging the whole record once, ms, processor {RATE} times slower", [spread(judging)])


if __name__ == "__main__":
    main()
