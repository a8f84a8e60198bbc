"""Every page of a visit on a phone 320 pixels wide: nothing scrolls sideways, nothing keeps anybody out."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from checks.procedure import load
from tests.webapp.field.conftest import NARROW, prepare

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

AXE = Path(__file__).parents[2] / "node" / "node_modules" / "axe-core" / "axe.min.js"
AXE_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
STEPS = [step["id"] for step in load("commissioning")["steps"]]
# Every kind of entry, derived quantity and rule stands on one of these; axe takes a second for each page.
LOOKED_AT = {
    "survey",
    "isolation",
    "earthing",
    "flush",
    "reverse_osmosis",
    "sanitisation",
    "quality",
    "defects",
}


@pytest.fixture
def narrow(open_page, address):
    """A phone 320 pixels wide with a visit, and the addresses of all its pages."""
    page = open_page(NARROW)
    visit = prepare(page, address)
    places = ["", "/visit", "/waiting", "/offline", "/commissioning-2/review"]
    places += [f"/commissioning-2/{step}" for step in STEPS]
    return page, [f"{address}/field{place}?visit={visit}" for place in places]


def show(page, place):
    """Load the page and wait until its script has filled it in."""
    page.goto(place)
    expect(page.locator("main")).not_to_contain_text("Looking on this phone")
    if page.locator("[data-module=step]").count():
        expect(page.locator('[data-part="state"] .tag')).to_be_visible()


def test_no_page_scrolls_sideways_or_has_an_accessibility_finding(narrow):
    page, addresses = narrow
    axe = AXE.read_text() + "; 0"
    options = {"runOnly": {"type": "tag", "values": AXE_RULES}}
    wide, found = [], []
    for place in addresses:
        show(page, place)
        if page.evaluate("document.documentElement.scrollWidth") > NARROW["width"]:
            wide.append(place)
        name = place.split("?")[0].rsplit("/", 1)[1]
        if name in STEPS and name not in LOOKED_AT:
            continue
        page.evaluate(axe)
        result = page.evaluate("(options) => axe.run(document, options)", options)
        found += [
            (place, one["id"], [node["target"] for node in one["nodes"]]) for one in result["violations"]
        ]
    assert wide == []
    assert found == []
