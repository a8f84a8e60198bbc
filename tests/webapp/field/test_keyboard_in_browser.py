"""A visit without pointer and picture: what a keyboard reaches, and what a screen reader is told."""

import pytest
from playwright.sync_api import expect

from tests.webapp.field.conftest import PHONE, prepare

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

SLUG = "commissioning-2"
SCREENS = ["", "/visit", "/kit", "/waiting", f"/{SLUG}/plate", f"/{SLUG}/review", f"/{SLUG}/earthing"]
# What a screen reader has nothing to say of: the document itself, and what only holds others.
HOLDERS = {"RootWebArea", "main", "region", "group", "dialog"}
HERE = """() => {
  const one = document.activeElement;
  return one.closest("[data-entry]")?.dataset.entry ?? one.dataset.part ?? one.id ?? "";
}"""
IN_DIALOG = (
    "() => document.activeElement === document.body || document.activeElement.closest('dialog') !== null"
)


@pytest.fixture(scope="module")
def page(chromium, address):
    """One phone for all of these: they store one length and nothing else."""
    context = chromium.new_context(viewport=PHONE, service_workers="block")
    page = context.new_page()
    page.set_default_timeout(30_000)
    page.visit = prepare(page, address)
    yield page
    context.close()


def show(page, address, place):
    page.goto(f"{address}/field{place}?visit={page.visit}")
    expect(page.locator("main")).not_to_contain_text("Looking on this phone")
    if page.locator("[data-module=step]").count():
        expect(page.locator('[data-part="state"] .tag')).to_be_visible()


def focusable(page):
    """(role, name) of everything that can have the focus, as the browser tells a screen reader."""
    session = page.context.new_cdp_session(page)
    for node in session.send("Accessibility.getFullAXTree")["nodes"]:
        properties = {one["name"]: one["value"].get("value") for one in node.get("properties", [])}
        if not node["ignored"] and properties.get("focusable"):
            yield node["role"]["value"], node.get("name", {}).get("value", "").strip()
    session.detach()


def tab_until(page, wanted, at_most=60):
    """Press Tab until the focus is there; gives the places on the way."""
    passed = []
    while not passed or passed[-1] != wanted:
        assert len(passed) < at_most, f"{at_most} times Tab, and not at {wanted}: {passed}"
        page.keyboard.press("Tab")
        passed.append(page.evaluate(HERE))
    return passed


def test_every_control_has_a_role_and_a_name(page, address):
    nameless = []
    for place in SCREENS:
        show(page, address, place)
        controls = [one for one in focusable(page) if one[0] not in HOLDERS]
        assert len(controls) > 3, place
        nameless += [(place, role) for role, name in controls if not name or role in {"generic", "none"}]
    assert nameless == []


def test_tab_goes_through_a_step_in_its_order_and_the_verdict_is_told(page, address):
    show(page, address, f"/{SLUG}/earthing")
    entries = page.evaluate(
        "() => [...document.querySelectorAll('[data-entry]')].filter((one) => one.checkVisibility())"
        ".map((one) => one.dataset.entry)"
    )
    passed = tab_until(page, "earthing.length")
    page.keyboard.type("12")
    passed += tab_until(page, "done")
    reached = list(dict.fromkeys(one for one in passed if one.startswith("earthing.")))
    assert reached == entries
    # The answer by which a rule is judged, given with the keys alone.
    page.locator('[data-entry="earthing.leads_nulled"] input').first.focus()
    page.keyboard.press("Space")
    verdict = page.locator('[data-rule="earthing.leads_nulled"] [role="status"]')
    expect(verdict).to_have_text("Pass")


def test_the_dialog_of_a_code_keeps_the_focus_and_gives_it_back(page, address):
    show(page, address, f"/{SLUG}/survey")
    scan = page.locator('[data-entry="survey.serial_number"]').get_by_role("button", name="Scan the code")
    scan.focus()
    page.keyboard.press("Enter")
    dialog = page.get_by_role("dialog")
    expect(dialog).to_be_visible()
    assert dialog.get_attribute("aria-label") or dialog.get_attribute("aria-labelledby")
    for _ in range(8):
        page.keyboard.press("Tab")
        assert page.evaluate(IN_DIALOG)
    page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(scan).to_be_focused()
