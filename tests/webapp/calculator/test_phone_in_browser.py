"""The calculator on a phone: from the kept page, as one types, and from a step's working."""

from pathlib import Path
from urllib.parse import urlencode

import pytest
from playwright.sync_api import expect

from tests.static.live import Live
from tests.webapp.calculator.conftest import PATIENCE

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

AXE = Path(__file__).parents[2] / "node" / "node_modules" / "axe-core" / "axe.min.js"
AXE_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
KEPT = "() => navigator.serviceWorker.ready.then(() => true)"
LINK = """async (judged) => {
  history.replaceState(null, "", "/field");
  const { calculatorLink } = await import("/static/parts/calculator-link.js");
  return calculatorLink(judged).querySelector("a").getAttribute("href");
}"""


def show(page, server, formula, *pairs):
    page.goto(f"{server.url}/calculator/formula?{urlencode([('formula', formula), *pairs])}")
    expect(page.get_by_role("button", name="Compute")).to_be_hidden()  # the script computes from now on
    return page.locator("[data-part=result]")


def test_the_result_comes_as_one_types_and_the_address_brings_it_back(page, server):
    result = show(page, server, "parallel_resistance")
    expect(result).to_have_text("Missing: Resistances.")
    page.get_by_label("Reading 1 of Resistances", exact=True).fill("1,2")
    page.get_by_role("button", name="Add a reading").click()
    page.keyboard.type("800 mΩ")
    page.get_by_label("Unit of the values that share one").select_option("ohm")
    expect(result).to_have_text("0.48 Ω")  # 1.2 x 0.8 / (1.2 + 0.8)
    page.reload()
    expect(result).to_have_text("0.48 Ω")


def test_a_reading_is_added_and_removed(page, server):
    result = show(page, server, "series_mean", ("readings", "1"), ("readings", "3"))
    expect(result).to_have_text("2")
    page.get_by_role("button", name="Add a reading").click()
    page.keyboard.type("8")
    expect(result).to_have_text("4")
    page.get_by_role("button", name="Remove Reading 1").click()
    expect(result).to_have_text("5.5")


def test_the_unit_is_remembered_but_a_given_number_keeps_its_own(page, server):
    show(page, server, "static_head")
    page.get_by_label("Unit of height").select_option("cm")
    result = show(page, server, "static_head")
    page.get_by_role("textbox", name="Height of the upper point").fill("1200")
    expect(page.locator("[data-part=result] data")).to_have_text("1.17574")  # 12 m, 999.1 kg/m3, 9.80665 m/s2
    show(page, server, "static_head", ("height", "12"))
    expect(result).to_have_text("1.17574 bar")


def test_a_step_s_working_leads_to_the_same_number(page, server):
    page.goto(f"{server.url}/calculator/formula")
    inputs = {"volume": 60, "flow": 4, "time": 15, "start": 50, "inflow": 0.2}
    judged = {"formula": "washout_concentration", "inputs": inputs, "unit": "uS/cm"}
    page.goto(server.url + page.evaluate(LINK, judged))
    # One volume of the tank has passed: 0.2 + 49.8 / e.
    expect(page.locator("[data-part=result]")).to_have_text("18.5204 µS/cm")
    expect(page.locator(".working-body math").first).to_be_visible()


def test_pages_are_accessible_and_do_not_scroll_sideways(page, server):
    shown = [
        ("parallel_resistance", ("resistances", "x"), ("resistances", "2")),
        (
            "loop_impedance_hot",
            *[(name, "120") for name in ("external", "line", "protective", "temperature")],
        ),
    ]
    places = [
        "/calculator?search=relief",
        *(f"/calculator/formula?{urlencode([('formula', n), *p])}" for n, *p in shown),
    ]
    found = []
    for place in places:
        page.goto(server.url + place)
        page.wait_for_load_state("networkidle")
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, place
        page.evaluate(AXE.read_text() + "; 0")
        options = {"runOnly": {"type": "tag", "values": AXE_RULES}}
        result = page.evaluate("(options) => axe.run(document, options)", options)
        found += [
            (place, one["id"], [node["target"] for node in one["nodes"]]) for one in result["violations"]
        ]
    assert found == []


def test_the_list_is_narrowed_down_as_one_types(page, server):
    page.goto(f"{server.url}/calculator")
    page.get_by_label("Search").fill("usp_645_stage_3 LIMIT")
    expect(page.locator("[data-part=found]")).to_have_text("One formula found.")
    expect(page.get_by_role("link", name="usp_645_stage_3_limit")).to_be_visible()


def test_without_signal_every_formula_opens_from_the_kept_page(chromium, server):
    cellar = Live(server.app).start()
    context = chromium.new_context()
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    page.goto(f"{cellar.url}/calculator")
    page.evaluate(KEPT)
    page.reload()
    cellar.stop()
    page.goto(f"{cellar.url}/calculator")
    page.get_by_label("Search").fill("velocity")
    page.get_by_role("link", name="flow_velocity").click()
    expect(page).to_have_title("Mean velocity in a round bore that runs full - Firstwater")
    page.get_by_role("textbox", name="Flow").fill("6")
    page.get_by_role("textbox", name="Inner diameter").fill("10")
    # 6 L/min through 10 mm: 1e-4 m3/s over 7.854e-5 m2.
    expect(page.locator("[data-part=result]")).to_have_text("1.27324 m/s")
    page.goto(f"{cellar.url}/calculator/formula?formula=static_haed")
    expect(page.get_by_role("alert")).to_contain_text("There is no formula named static_haed here.")
    context.close()
