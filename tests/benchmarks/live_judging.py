"""How long a keystroke takes until the screen shows what it means, on a processor six times slower.

    python -m tests.benchmarks.live_judging [--step ID]... [--judging]

Types a number into every reading of every step, or of the named ones, of a visit in which everything else
is filled in, so that the figure of a step does not depend on the others. A keystroke ends with the paint
after it: that is the browser's event timing, in steps of 8 ms. The judging alone (`--judging`) is timed over
a filled record of about 350 entries and as many rules, with one entry changed each time: from its event to
the judgement.
Budgets: 100 ms for a keystroke, 4 ms for judging the whole record again.
"""

import argparse
import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from checks import procedure as procedures
from checks.judge import normalise
from tests.benchmarks.enlarged import enlarged, events_of
from tests.benchmarks.stage import UNIT, phone, prepared, server, show, slow_down, spread

RATE = 6
PAUSE = 120  # between keys, ms: faster than most people type on a phone
AFTER_TOUCH = 300  # ms until somebody types in a field that they touched: its keyboard has to come first
TYPED = "1.2"
UNDER = 8.0  # what the browser does not report took less than 16 ms
WATCH = """() => {
  window.strokes = [];
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === "keydown") window.strokes.push(entry.duration);
  }).observe({ type: "event", durationThreshold: 16, buffered: false });
}"""
FILL = """async ([visit, events]) => {
  const { transact } = await import("/static/record/database.js");
  await transact(["events"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("events");
    await store.clear();
    for (const event of events) {
      const made = { visit, reason: null, by: "benchmark", device: "benchmark", offset: 0, app: "benchmark" };
      const whole = { ...event, ...made };
      await store.put({ id: event.id, visit, sent: "received", problem: null, event: whole });
    }
  });
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


def filled_but(step: dict[str, Any], case: dict[str, Any]) -> list[dict[str, Any]]:
    """The events of everything but the readings of a step."""
    typed = {f"{step['id']}.{entry['id']}" for entry in step["entries"] if entry["kind"] == "reading"}
    return [event for event in events_of(case) if event["field"] not in typed]


def open_step(page: Page, url: str, procedure: dict[str, Any], step: str, visit: str) -> None:
    """At full speed: how long a page takes to load is another benchmark."""
    slow_down(page, 1)
    page.goto(f"{url}/field/commissioning-{procedure['version']}/{step}?visit={visit}")
    expect(page.locator('[data-part="state"] .tag')).to_be_visible(timeout=60_000)
    page.wait_for_timeout(300)
    slow_down(page, RATE)


def type_into_everything(page: Page) -> tuple[int, list[float]]:
    """(number of keystrokes, durations of those that took 16 ms or more) on the open step."""
    page.evaluate(WATCH)
    strokes = 0
    for box in page.locator(
        '[data-kind="reading"] input[inputmode], [data-kind="series"] input[inputmode]'
    ).all():
        if box.is_visible() and box.is_enabled():
            box.focus()
            page.wait_for_timeout(AFTER_TOUCH)
            page.keyboard.type(TYPED, delay=PAUSE)
            strokes += len(TYPED)
    page.wait_for_timeout(500)
    return strokes, page.evaluate("window.strokes")


def keystrokes(names: list[str]) -> None:
    """Measure the named steps, all without a name, and show the table."""
    procedure = procedures.load("commissioning")
    case = normalise(json.loads(RECORD.read_text(encoding="utf-8"))["case"], procedure)
    rows, everything = [], []
    with server() as running, phone() as context:
        page = context.new_page()
        visit = prepared(page, running.url).start_visit(UNIT)
        for step in procedure["steps"]:
            if names and step["id"] not in names:
                continue
            page.evaluate(FILL, [visit, filled_but(step, case)])
            open_step(page, running.url, procedure, step["id"], visit)
            strokes, slow = type_into_everything(page)
            if strokes:
                durations = slow + [UNDER] * (strokes - len(slow))
                rows.append({"step": step["id"], **spread(durations)})
                print(rows[-1], flush=True)
                everything += durations
    show(
        f"Keystroke to paint, ms, processor {RATE} times slower",
        [*rows, {"step": "all", **spread(everything)}],
    )


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


def judging() -> None:
    """Only the judging, without a visit."""
    with server() as running, phone() as context:
        page = context.new_page()
        page.goto(f"{running.url}/sign-in")
        slow_down(page, RATE)
        show_judging(page.evaluate(JUDGING, large_record(procedures.load("commissioning"))))


def main() -> None:
    parser = argparse.ArgumentParser(description="Keystroke to paint, and judging, six times slower.")
    steps = [step["id"] for step in procedures.load("commissioning")["steps"]]
    parser.add_argument(
        "--step", action="append", default=[], choices=steps, metavar="ID", help="only this step"
    )
    parser.add_argument("--judging", action="store_true", help="only the judging alone")
    asked = parser.parse_args()
    if not asked.judging:
        keystrokes(asked.step)
    if not asked.step:
        judging()


if __name__ == "__main__":
    main()
