"""A signature on the glass: drawn or stated, never stored by halves, never taken away."""

import pytest
from playwright.sync_api import expect

from tests.journeys.navigators import Installer
from tests.webapp.field.filling import events
from webapp.signing.shapes import EVENT, wrong_places

pytestmark = [
    pytest.mark.browser,
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

LABEL = "Signature of the person who takes the unit over"


def draw(page, pad, points):
    box = pad.bounding_box()
    places = [(box["x"] + x * box["width"], box["y"] + y * box["height"]) for x, y in points]
    page.mouse.move(*places[0])
    page.mouse.down()
    for place in places[1:]:
        page.mouse.move(*place, steps=4)
    page.mouse.up()


def test_a_signature_is_drawn_kept_shown_and_only_followed_by_another(installer: Installer, visit: str):
    page = installer.page
    installer.open_step("Walk-round and defects")
    entry = installer.entry(LABEL)
    stored = lambda: events(page, visit, "defects.taken_over")  # noqa: E731 - read three times
    sign = entry.get_by_role("button", name="Sign", exact=True)
    sign.click()
    expect(entry.locator('[data-part="error"]')).to_have_text("Type the name of the person who signs.")
    entry.get_by_label("Name of who signs").fill("Mira Oltmann")
    entry.get_by_label("Function or department").fill("Head of facilities")
    sign.click()
    expect(entry.locator('[data-part="error"]')).to_contain_text("Sign inside the frame")
    pad = entry.get_by_role("img", name="Sign here")
    pad.scroll_into_view_if_needed()
    draw(page, pad, [(0.1, 0.2), (0.5, 0.8), (0.9, 0.2)])
    draw(page, pad, [(0.2, 0.9), (0.8, 0.9)])
    expect(pad.locator("path")).to_have_count(2)
    entry.get_by_role("button", name="Undo the last line").click()
    expect(pad.locator("path")).to_have_count(1)
    assert stored() == []
    sign.click()
    expect(entry.get_by_role("img", name="Signature of Mira Oltmann")).to_be_visible()
    expect(pad).to_be_hidden()
    (first,) = stored()
    assert list(wrong_places(EVENT["content"], first["content"])) == []
    (stroke,) = first["content"]["strokes"]
    assert len(stroke) >= 3 * 8
    assert 95 <= stroke[0] <= 105
    assert first["content"]["means"].startswith("I was shown how to use the unit")

    entry.get_by_role("button", name="Sign again").click()
    entry.get_by_label("Name of who signs").fill("Per Halvard")
    entry.get_by_label("Function or department").fill("Deputy")
    entry.get_by_text("My typed name is my signature").click()
    sign.click()
    expect(entry.locator('[data-part="error"]')).to_contain_text("Say why it is signed again")
    entry.get_by_label("Why it is signed again").fill("The wrong person had signed.")
    sign.click()
    expect(entry.locator("figcaption")).to_have_text("Per Halvard, Deputy (signed by the typed name)")
    before, after = stored()
    assert before == first
    assert after["replaces"] == [first["id"]]
    assert after["reason"] == {"code": "other", "text": "The wrong person had signed."}
    assert after["content"]["strokes"] == []
    assert list(wrong_places(EVENT["content"], after["content"])) == []
