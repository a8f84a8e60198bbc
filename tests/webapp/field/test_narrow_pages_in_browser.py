"""Every page of a visit on a phone 320 pixels wide: nothing scrolls sideways, nothing keeps anybody out."""

import re

import pytest
from playwright.sync_api import expect

from checks.procedure import load
from tests import accessibility
from tests.webapp.field.conftest import NARROW, prepare
from tests.webapp.field.filling import fill_earthing

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

STEPS = [step["id"] for step in load("commissioning")["steps"]]
LOOKING = re.compile("Looking on this phone|Auf diesem Telefon wird nachgesehen")
# Every kind of entry, derived quantity and rule stands on one of these; axe takes a second for each page.
LOOKED_AT = {
    "survey",
    "isolation",
    "earthing",
    "flush",
    "reverse_osmosis",
    "sanitising_rinse",
    "quality",
    "defects",
}


SLUG = "commissioning-2"
FILLED_IN = ["", "/visit", "/kit", f"/{SLUG}/plate", "/waiting", "/offline", f"/{SLUG}/review"]


@pytest.fixture
def narrow(open_page, address):
    """A phone 320 pixels wide, and its visit."""
    page = open_page(NARROW)
    return page, prepare(page, address)


def show(page, place):
    """Load the page and wait until its script has filled it in."""
    page.goto(place)
    expect(page.locator("main")).not_to_contain_text(LOOKING)
    if page.locator("[data-module=step]").count():
        expect(page.locator('[data-part="state"] .tag')).to_be_visible()


TWICE_AS_LARGE = """() => {
  document.documentElement.style.fontSize = "32px";
  return document.documentElement.scrollWidth;
}"""
DRAWN = """(band) => {
  const ink = getComputedStyle(document.body).color;
  const style = (name, what) => getComputedStyle(band.querySelector(name))[what];
  const told = (name, what) => (style(name, what) === ink ? "text" : style(name, what));
  return {
    accepted: told(".accepted", "stroke"), guarded: told(".guarded", "stroke"),
    point: told(".point", "fill"), fill: style(".guarded", "fill"),
  };
}"""


def test_no_page_has_small_targets_or_an_accessibility_finding(narrow, address):
    page, visit = narrow
    steps = [f"/{SLUG}/{step}" for step in STEPS if step in LOOKED_AT]
    places = [f"{address}/field{place}?visit={visit}" for place in [*FILLED_IN, *steps]]
    found = {}
    for place, _, scheme in accessibility.in_turns(places):
        show(page, place)
        if complaints := accessibility.complaints(page, scheme):
            found[place] = complaints
        page.set_viewport_size({"width": 390, "height": 844})
        if page.evaluate(TWICE_AS_LARGE) > 390:
            found.setdefault(place, []).append("scrolls sideways where text is twice as large")
        page.set_viewport_size(NARROW)
    assert found == {}


def test_forced_colours_keep_the_band_of_a_verdict(installer, visit):
    """CSS Color Adjustment 1: SVG is left as it is, so that its colours have to be the forced ones."""
    fill_earthing(installer, "0,17")
    installer.page.emulate_media(forced_colors="active")
    told = installer.page.locator(".band").first.evaluate(DRAWN)
    assert told == {"accepted": "text", "guarded": "text", "point": "text", "fill": "none"}


def test_no_step_scrolls_sideways_in_the_longer_words(narrow, address):
    page, visit = narrow
    wide = []
    for step in STEPS:
        show(page, f"{address}/field/{SLUG}/{step}?visit={visit}&lang=de")
        if page.evaluate("document.documentElement.scrollWidth") > NARROW["width"]:
            wide.append(step)
    assert wide == []
