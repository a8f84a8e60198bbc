"""A keystroke's verdict is painted with it, and nothing on the page is left behind, in a real browser."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

SAID = """() => {
  const parts = document.querySelectorAll(
    '[data-part="state"], [data-rule], [data-derived], [data-part="lacking"], [data-part="finish-state"]'
  );
  return [...parts].map((one) => (one.checkVisibility() ? one.textContent.trim() : ""));
}"""
PAINTED = """async () => {
  const { painted } = await import("/static/parts/after-paint.js");
  for (let frame = 0; frame < 3; frame += 1) await painted();
}"""
STROKE = """(input) => {
  input.value = "0.17";
  input.dispatchEvent(new Event("input", { bubbles: true }));
  const rules = input.closest("[data-entry]").querySelectorAll('.rule [data-part="words"]');
  return [...rules].map((one) => one.textContent).join(" ");
}"""


def test_what_a_page_says_after_quick_typing_is_what_a_fresh_page_says(installer):
    """Also of what follows only after the paint, and while entries are stored."""
    page = installer.page
    installer.open_step("Protective earth")
    installer.fill("Kind of conductor", "Flexible cord (class 5)")
    installer.fill("Test leads nulled", "Yes")
    judged_at_once = installer.input("Measured resistance").evaluate(STROKE)
    assert "0.17" in judged_at_once
    for label, typed in (
        ("Length of the conductor, one way", "12"),
        ("Cross-section", "1.5"),
        ("Measured resistance", "99"),
    ):
        installer.input(label).press_sequentially(typed)
    expect(page.locator("[data-unsaved]")).to_have_count(0)
    page.evaluate(PAINTED)
    said = page.evaluate(SAID)
    page.reload()
    expect(page.locator('[data-part="state"] .tag')).to_be_visible()
    assert page.evaluate(SAID) == said
    assert any("99" in words for words in said)
