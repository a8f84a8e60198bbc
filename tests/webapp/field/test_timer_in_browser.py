"""Times that run at the bench: told from stored moments, through sleep and reload, until they are over.

The times are the test's own: a membrane whose maker asks for 30 minutes to drain, a wait of 10 minutes.
"""

import re

import pytest
from playwright.sync_api import expect

from tests.journeys.navigators import Installer
from tests.webapp.field.bench import WATCHED, cell, set_unit
from tests.webapp.field.conftest import NARROW, prepare
from tests.webapp.field.filling import values

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

BEGINS = "First permeate sent to drain at"
ENDS = "Permeate no longer sent to drain at"
OVER = re.compile(r"The time asked for is over since 12:3\d:\d\d\.")


@pytest.fixture
def bench(open_page, address):
    """The installer on a narrow phone, where a flush of 30 minutes has just begun at a stopped clock."""
    page = open_page(NARROW)
    page.add_init_script(f"({WATCHED})()")
    visit = prepare(page, address)
    set_unit(page, {"permeate_flush_time": cell(30, "min")})
    page.clock.install(time="2026-11-25T12:00:00Z")
    installer = Installer(page, address)
    installer.open_visit(visit)
    installer.open_step("First fill and flush")
    installer.now(BEGINS)
    expect(timer(installer)).to_contain_text("so far")
    page.wait_for_function("held === 1")
    return installer


def timer(installer):
    return installer.entry(ENDS).get_by_role("timer")


def pass_time(installer, span):
    """A locked phone: the page's own clock fires once when it wakes."""
    installer.page.clock.fast_forward(span)


def test_a_time_is_told_from_its_start_to_its_end(bench):
    """A notice is asked for by a touch, and comes once; the screen stays on till then."""
    page, entry = bench.page, bench.entry(ENDS)
    expect(entry).to_contain_text("The screen stays on while this time runs.")
    pass_time(bench, "12:00")
    expect(timer(bench)).to_contain_text(re.compile(r"12:\d\d so far1[78]:\d\d to go: over at 12:3\d:\d\d\."))
    page.reload()
    expect(timer(bench)).to_contain_text(re.compile(r"12:\d\d so far1[78]:\d\d to go"))
    assert page.evaluate("[Notification.permission, told, held]") == ["default", [], 1]
    entry.get_by_role("button", name="Tell me when it is over").click()
    expect(entry.get_by_text("A notice comes when the time is over.")).to_be_visible()
    pass_time(bench, "18:30")
    expect(timer(bench)).to_have_attribute("data-over", "")
    expect(entry.get_by_role("status").first).to_contain_text(OVER)
    page.wait_for_function("told.length > 0 && held === 0")
    pass_time(bench, "05:00")
    [[title, body, where]] = page.evaluate("told")
    assert title == "First fill and flush, Analyser feed, line 1"
    assert re.fullmatch(f"Time that permeate went to drain: {OVER.pattern}", body)
    assert "/flush?visit=" in where
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW["width"]
    bench.now(ENDS)
    expect(timer(bench)).to_have_text(re.compile(r"^3[56]:\d\d in all$"))


def test_the_visits_list_shows_what_runs_and_a_refused_screen_is_told(bench):
    page = bench.page
    page.add_init_script("window.refuses = true")
    page.reload()
    expect(bench.entry(ENDS)).to_contain_text("This phone lets its screen go off. The time runs on")
    page.locator("a[data-link=visit]").first.click()
    row = page.locator(".list a").filter(has_text="First fill and flush")
    expect(row).to_contain_text(
        re.compile(r"Time that permeate went to drain: \d:\d\d so far\. (30|2\d):\d\d to go")
    )
    pass_time(bench, "31:00")
    expect(row.locator(".running[data-over]")).to_contain_text(OVER)


def test_the_phone_counts_a_wait_whose_minutes_are_typed(bench):
    """The wait for the lock-up pressure is a reading in minutes; its rule asks for at least so many."""
    page, label = bench.page, "Time from closing to that reading"
    bench.open_step("Water supply")
    bench.entry(label).get_by_role("button", name="Count from now").click()
    expect(bench.entry(label).get_by_role("timer")).to_contain_text("to go: over at")
    page.reload()
    pass_time(bench, "12:00")
    bench.entry(label).get_by_role("button", name="Stop and enter the minutes").click()
    expect(bench.input(label)).to_have_value(re.compile(r"^12(\.\d)?$"))
    expect(bench.entry(label).get_by_role("timer")).to_be_hidden()
    expect(page.locator("[data-module=step]:not([data-unsaved])")).to_be_attached()
    assert values(page, page.url.split("visit=")[1], "supply.waited")[-1].startswith("12")
