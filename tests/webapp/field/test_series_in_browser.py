"""What a series says so far: whether it agrees, and when its limit is reached; and what was found before."""

import math
import re

import pytest
from playwright.sync_api import expect

from tests.journeys.navigators import Installer
from tests.webapp.field.bench import START_SERVICE, cell, set_unit
from tests.webapp.field.conftest import NARROW, prepare

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

SERIES = "Conductivity during the flush"
# Ideal mixing (Levenspiel, Chemical Reaction Engineering, the mixed flow reactor, from memory):
# c(t) = c_in + (c_0 - c_in) exp(-Q t / V), with the 18 L of the phone's unit.
VOLUME, FLOW, START, INFLOW, LIMIT = 18, 2, 400, 10, 25
END = VOLUME / FLOW * math.log((START - INFLOW) / (LIMIT - INFLOW))  # minutes

PURE = """async ([points, inflow, limit]) => {
  const { reachedByReadings } = await import("/static/parts/series-outlook.js");
  const { stabilityWords } = await import("/static/parts/series-words.js");
  const { calibrationWords } = await import("/static/parts/calibration.js");
  const { changeWords } = await import("/static/parts/last-visit.js");
  const { leftWords } = await import("/static/parts/timer-words.js");
  const running = { since: 0, until: null, over: null, predicted: false };
  const ends = [null, "2026-11-24", "2026-11-25", "2026-12-09", "2026-12-10"];
  const pairs = [[1.52, 1.6, "L/min"], [1.6, 1.52, "L/min"], [2, 2, "bar"], [25, 20, "degC"], [1, 0, "bar"]];
  return {
    reached: reachedByReadings(points, inflow, limit),
    rising: reachedByReadings(points.map(({ time }) => ({ time, value: 100 + time })), inflow, limit),
    single: reachedByReadings(points.slice(0, 1), inflow, limit),
    agree: stabilityWords({ newest: 3, found: 0.0124, enough: 0.03 }, 5),
    differ: stabilityWords({ newest: 3, found: 0.0304, enough: 0.03 }, 3),
    few: stabilityWords({ newest: 3, found: null, enough: null }, 2),
    calibration: ends.map((due) => calibrationWords({ calibration_due: due }, new Date(2026, 10, 25, 12))),
    changes: pairs.map((pair) => changeWords(...pair)),
    latest: [60000, 250000].map((now) => leftWords({ ...running, latest: 240000 }, now)),
    endless: leftWords({ ...running, latest: null }, 60000),
  };
}"""


def plain(words):
    return words.replace("\u00a0", " ")


def course(minutes):
    return INFLOW + (START - INFLOW) * math.exp(-FLOW * minutes / VOLUME)


def test_words_and_predictions_follow_from_the_numbers(page, address):
    page.goto(f"{address}/field/offline")
    points = [{"time": minutes * 60_000, "value": course(minutes)} for minutes in (1, 5, 9, 15)]
    said = page.evaluate(PURE, [points, INFLOW, LIMIT])
    assert said["reached"] / 60_000 == pytest.approx(END, rel=1e-9)
    assert said["rising"] is None
    assert said["single"] is None
    assert plain(said["agree"]) == "The last three agree within ± 1.2 %; ± 3 % is enough."
    assert plain(said["differ"]) == "The last three do not agree yet: ± 3.04 %; ± 3 % is enough."
    assert said["few"] == "Two of three readings that have to agree."
    ends = ["calibration ended 2026-11-24", "calibration ends 2026-11-25", "calibration ends 2026-12-09"]
    assert said["calibration"] == ["", *ends, ""]
    changes = ["now 5 % less", "now 5.3 % more", "unchanged", "now 5 °C more", "now 1 bar more"]
    assert said["changes"] == changes
    assert said["latest"][0].startswith("3:00 left, until ")
    assert said["latest"][1].startswith("Longer than foreseen since ")
    assert said["endless"] == ""


def test_a_flush_says_when_its_limit_is_reached_and_whether_it_is_steady(open_page, address):
    page = open_page(NARROW)
    visit = prepare(page, address)
    page.clock.install(time="2026-11-25T12:00:00Z")
    installer = Installer(page, address)
    installer.open_visit(visit)
    installer.open_step("First fill and flush")
    installer.fill("Flow during the flush", str(FLOW))
    installer.fill("Conductivity of the water that flows in", str(INFLOW))
    installer.fill("Conductivity at the start", str(START))
    installer.now("Flush started at")
    said = installer.entry(SERIES).get_by_role("status").first
    for minutes in (5, 10):
        page.clock.fast_forward("05:00")
        installer.add_readings(SERIES, [f"{course(minutes):.1f}"], "Conductivity meter 2")
    # 29.3 minutes after the start, whose second the loaded machine decides.
    for source in ("from volume and flow: 25 µS/cm at", "from the newest readings: 25 µS/cm at about"):
        expect(said).to_contain_text(re.compile(rf"Prediction {source} 12:3\d\."))
    expect(installer.entry(SERIES).locator(".plot .course")).to_be_attached()
    for typed in ("24", "24.6", "24.2"):
        page.clock.fast_forward("05:00")
        installer.add_readings(SERIES, [typed])
    # Half of 0.6 by the mean 24.27 is 1.24 %.
    expect(said).to_contain_text(re.compile(r"The last three agree within ±.1\.2.%; ±.3.% is enough\."))
    expect(said).not_to_contain_text("Prediction")
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW["width"]


def test_a_service_shows_what_was_found_before_and_instruments_out_of_calibration(page, address):
    prepare(page, address)
    set_unit(page, baseline={"supply_pressure": cell(3.2, "bar")})
    reading = {"typed": "4", "value": 4, "unit": "bar", "instrument": "pg-12"}
    visit = page.evaluate(START_SERVICE, ["supply.static_pressure", reading])
    installer = Installer(page, address)
    page.goto(f"{address}/field/service-1/supply?visit={visit}")
    static = page.locator('[data-entry="supply.static_pressure"]')
    expect(static).to_contain_text("Last visit, 2026-05-12: 4 bar.")
    option = static.locator("option").filter(has_text="Line gauge 0 to 10 bar")
    expect(option).to_have_text("Line gauge 0 to 10 bar, PG-03, calibration ended 2026-01-31")
    installer.choose_instrument(static, "Test gauge 0 to 6 bar")
    static.locator("input").fill("4.2")
    expect(static).to_contain_text("Last visit, 2026-05-12: 4 bar; now 5 % more.")
    dynamic = page.locator('[data-entry="supply.dynamic_pressure"]')
    # The gauge that was just used is the one at hand.
    expect(dynamic.locator("[data-part=instrument-id]")).to_have_value("pg-12")
    dynamic.locator("input").fill("2.88")
    expect(dynamic).to_contain_text("At acceptance: 3.2 bar; now 10 % less.")
