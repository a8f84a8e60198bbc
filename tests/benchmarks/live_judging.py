"""How long a keystroke takes until the screen shows what it means, on a processor six times slower.

    python -m tests.benchmarks.live_judging [--judging]

Types a number into every reading of every step of a visit. A keystroke ends with the paint after it: that
is the browser's event timing, in steps of 8 ms. The judging alone (`--judging`) is timed over a filled record
of about 350 entries and as many rules, with one entry changed each time: from its event to the judgement.
Budgets: 100 ms for a keystroke, 4 ms for judging the whole record again.
"""

import json
import sys
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from checks import procedure as procedures
from checks.judge import normalise
from tests.benchmarks.enlarged import enlarged, events_of
from tests.benchmarks.stage import UNIT, phone, prepared, server, show, slow_down, spread

RATE = 6
UNDER = 8.0  # what the browser does not report took less than 16 ms
WATCH = """() => {
  window.strokes = [];
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === "keydown") window.strokes.push(entry.duration);
  }).observe({ type: "event", durationThreshold: 16, buffered: false });
}"""
JUDGING = """async ([procedure, base, events]) => {
  const load = (path) => import(`/static/judging/${path}.js`);
  const [{ judge }, { fold }] = await Promise.all([load("engine"), load("fold")]);
  const times = { first: [], fold: [], judge: [], both: [] };
  for (let round = 0; round < 330; round++) {
    const one = events[(round * 7) % events.length];
    const content = { ...one.content, value: 0.1 + round / 1000 };
    const typed = { ...one, id: "typed", replaces: [one.id], hlc: "~", content };
    const all = [...events, typed];
    const start = performance.now();
    const folded = fold(procedure, all);
    const middle = performance.now();
    judge(procedure, { ...base, ...folded });
    const end = performance.now();
    if (round === 0) times.first.push(end - start);
    if (round < 30) continue;
    times.fold.push(middle - start);
    times.judge.push(end - middle);
    times.both.push(end - start);
  }
  return times;
}"""
WANTED = 350
RECORD = Path(__file__).parents[1] / "records" / "all-well.json"


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
        judging = page.evaluate(JUDGING, large_record(procedure))
    show(
        f"Keystroke to paint, ms, processor {RATE} times slower",
        [*rows, {"step": "all", **spread(everything)}],
    )
    show_judging(judging)


def large_record(procedure: dict[str, Any]) -> list[Any]:
    """Procedure, case and events of a filled record, its steps repeated until there are enough entries."""
    case = normalise(json.loads(RECORD.read_text(encoding="utf-8"))["case"], procedure)
    entries = sum(len(step["entries"]) for step in procedure["steps"])
    large, filled = enlarged(procedure, case, max(1, round(WANTED / entries)))
    return [large, filled, events_of(filled)]


def show_judging(times: dict[str, list[float]]) -> None:
    first = times.pop("first")[0]
    rows = [{"part": part, **spread(values)} for part, values in times.items()]
    show(f"Judging the whole record after one changed entry, ms, processor {RATE} times slower", rows)
    print(f"\n  for the first time: {first:.0f} ms")


def judging_alone() -> None:
    """Only the judging, without a visit."""
    with server() as running, phone() as context:
        page = context.new_page()
        page.goto(f"{running.url}/sign-in")
        slow_down(page, RATE)
        show_judging(page.evaluate(JUDGING, large_record(procedures.load("commissioning"))))


if __name__ == "__main__":
    judging_alone() if "--judging" in sys.argv[1:] else main()
