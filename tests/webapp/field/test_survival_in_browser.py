"""What an installer has typed outlives the tab, a second tab and a full phone, in a real browser."""

import contextlib
import re

import pytest
from playwright.sync_api import Error, expect

from tests.journeys.navigators import Installer
from tests.webapp.field.filling import events, values

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

LENGTH = "Length of the conductor, one way"


def kill(page) -> None:
    """The process behind the page ends at once: nothing that a page does when it is left is done."""
    with contextlib.suppress(Error):
        page.goto("chrome://crash", timeout=5_000)


def test_a_killed_tab_loses_no_more_than_the_last_two_seconds_of_typing(page, address, visit):
    """Also of somebody who types without a pause."""
    page.clock.install()
    installer = Installer(page, address)
    installer.open_visit(visit)
    installer.open_step("Protective earth")
    for part in (
        "The cable ",
        "tray ",
        "above ",
        "the door ",
        "is not ",
        "bonded ",
        "to the ",
        "rail ",
        "below ",
    ):
        page.get_by_label("Note").press_sequentially(part)
        page.clock.run_for(250)
    page.wait_for_timeout(300)  # the database needs true time, which the page's clock does not show
    step = page.url
    kill(page)
    again = page.context.new_page()
    again.goto(step)
    note = again.get_by_label("Note")
    expect(note).to_have_value(re.compile("^The cable tray above the door is not bonded to the"))
    again.close()


def test_two_tabs_of_one_step_show_each_other_and_overwrite_nothing(page, address, visit):
    page.clock.install()
    tabs = [Installer(page, address), Installer(page.context.new_page(), address)]
    tabs[0].open_visit(visit)
    tabs[0].open_step("Protective earth")
    tabs[1].page.goto(page.url)
    expect(tabs[1].page.locator('[data-part="state"] .tag')).to_be_visible()
    tabs[0].fill(LENGTH, "12")
    expect(tabs[1].input(LENGTH)).to_have_value("12")
    for tab, typed in zip(tabs, ("13", "14"), strict=True):
        tab.input(LENGTH).fill(typed)  # stored when the time goes on
    for tab in tabs:
        tab.page.clock.run_for(400)
    for tab in tabs:
        expect(tab.entry(LENGTH).get_by_text("Two phones say different things.")).to_be_visible()
    assert sorted(values(page, visit, "earthing.length")) == ["12", "13", "14"]


# A real limit of the storage is in tests/static/test_storage.py; here it is what the person sees and can do.
FILL_UP = """() => {
  window.put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
}"""
MAKE_ROOM = "(button) => { IDBObjectStore.prototype.put = window.put; button.click(); }"


def test_a_full_phone_says_so_keeps_what_is_typed_on_the_screen_and_stores_it_later(installer, visit):
    installer.open_step("Protective earth")
    page = installer.page
    page.evaluate(FILL_UP)
    installer.input(LENGTH).fill("12")
    screen = page.get_by_role("status").filter(has_text="Not stored: the phone is full")
    for part in ("What happened", "What is safe", "What to do now", "If you do nothing"):
        expect(screen.get_by_text(part, exact=True)).to_be_visible()
    expect(screen).to_contain_text("The phone's storage is full. Free some space")
    strip = page.locator("[data-module=saved-status]")
    expect(strip).to_contain_text("Not stored: what you typed last is on the screen only.")
    expect(installer.input(LENGTH)).to_have_value("12")
    assert events(page, visit, "earthing.length") == []
    screen.get_by_role("button", name="Store again").click()
    expect(screen).to_be_visible()
    # At once: what is typed is stored again by itself as well, and then the button is gone.
    screen.get_by_role("button", name="Store again").evaluate(MAKE_ROOM)
    expect(screen).to_have_count(0)
    expect(strip).not_to_contain_text("Not stored")
    assert values(page, visit, "earthing.length") == ["12"]
