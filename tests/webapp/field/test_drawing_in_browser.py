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


class Signing:
    """Somebody with the installer's phone in the hand, at the entry for a signature."""

    def __init__(self, installer: Installer, visit: str):
        installer.open_step("Walk-round and defects")
        self.page, self.visit = installer.page, visit
        self.entry = installer.entry(LABEL)
        self.error = self.entry.locator('[data-part="error"]')
        self.pad = self.entry.get_by_role("img", name="Sign here")

    def fill(self, name: str, role: str) -> None:
        self.entry.get_by_label("Name of who signs").fill(name)
        self.entry.get_by_label("Function or department").fill(role)

    def sign(self) -> None:
        self.entry.get_by_role("button", name="Sign", exact=True).click()

    def stored(self) -> list[dict]:
        return events(self.page, self.visit, "defects.taken_over")


def test_a_signature_is_drawn_kept_shown_and_only_followed_by_another(installer: Installer, visit: str):
    at = Signing(installer, visit)
    at.sign()
    expect(at.error).to_have_text("Type the name of the person who signs.")
    at.fill("Mira Oltmann", "Head of facilities")
    at.sign()
    expect(at.error).to_contain_text("Sign inside the frame")
    at.pad.scroll_into_view_if_needed()
    draw(at.page, at.pad, [(0.1, 0.2), (0.5, 0.8), (0.9, 0.2)])
    draw(at.page, at.pad, [(0.2, 0.9), (0.8, 0.9)])
    expect(at.pad.locator("path")).to_have_count(2)
    at.entry.get_by_role("button", name="Undo the last line").click()
    expect(at.pad.locator("path")).to_have_count(1)
    assert at.stored() == []
    after_a_reload(at)
    at.sign()
    expect(at.entry.get_by_role("img", name="Signature of Mira Oltmann")).to_be_visible()
    expect(at.pad).to_be_hidden()
    (first,) = at.stored()
    assert list(wrong_places(EVENT["content"], first["content"])) == []
    (stroke,) = first["content"]["strokes"]
    assert len(stroke) >= 3 * 8
    assert 95 <= stroke[0] <= 105
    assert first["content"]["means"].startswith("I was shown how to use the unit")
    sign_again(at, first)


def after_a_reload(at: Signing) -> None:
    """The phone was locked, or the page reloaded, before "Sign" was pressed."""
    draw(at.page, at.pad, [(0.1, 0.9), (0.2, 0.9)])
    at.page.reload()
    expect(at.pad.locator("path")).to_have_count(2)
    expect(at.entry.get_by_label("Name of who signs")).to_have_value("Mira Oltmann")
    expect(at.entry.get_by_label("Function or department")).to_have_value("Head of facilities")
    at.entry.get_by_role("button", name="Undo the last line").click()
    at.page.reload()
    expect(at.pad.locator("path")).to_have_count(1)


def sign_again(at: Signing, first: dict) -> None:
    """By the typed name, which a keyboard can do; the first signature stays."""
    at.entry.get_by_role("button", name="Sign again").click()
    at.fill("Per Halvard", "Deputy")
    at.entry.get_by_text("My typed name is my signature").click()
    at.sign()
    expect(at.error).to_contain_text("Say why it is signed again")
    at.entry.get_by_label("Why it is signed again").fill("The wrong person had signed.")
    at.sign()
    expect(at.entry.locator("figcaption")).to_have_text("Per Halvard, Deputy (signed by the typed name)")
    before, after = at.stored()
    at.page.reload()
    expect(at.entry.get_by_role("button", name="Sign again")).to_be_visible()
    expect(at.pad).to_be_hidden()
    assert before == first
    assert after["replaces"] == [first["id"]]
    assert after["reason"] == {"code": "other", "text": "The wrong person had signed."}
    assert after["content"]["strokes"] == []
    assert list(wrong_places(EVENT["content"], after["content"])) == []
