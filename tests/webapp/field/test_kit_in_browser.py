"""The instruments of a visit: chosen once, warned of before the work, offered first in each entry."""

import pytest
from playwright.sync_api import expect

from tests.journeys.navigators import Installer

pytestmark = [
    pytest.mark.browser,
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]


def test_the_kit_warns_before_the_work_and_is_offered_in_each_entry(installer: Installer, visit: str):
    page = installer.page
    expect(page.get_by_text("Not on this phone: ")).to_contain_text("insulation tester")
    page.get_by_role("link", name="Choose your instruments before you start").click()
    gauge = page.get_by_label("Pressure gauge")
    expect(page.get_by_text("You have no pressure gauge with you.")).to_be_visible()
    gauge.select_option(label="Line gauge 0 to 10 bar, PG-03, calibration ended 2026-01-31")
    expect(page.get_by_text("Line gauge 0 to 10 bar: its calibration ended on 2026-01-31.")).to_be_visible()
    page.get_by_role("button", name="These are with me").click()
    expect(page.get_by_text("Line gauge 0 to 10 bar: its calibration ended on 2026-01-31.")).to_be_visible()
    page.get_by_role("link", name="My instruments").click()
    expect(gauge).to_have_value("pg-03")
    gauge.select_option("pg-12")
    page.get_by_role("button", name="These are with me").click()
    expect(page.get_by_text("Not on this phone: ")).to_be_visible()
    expect(page.get_by_text("its calibration ended on")).to_have_count(0)
    installer.open_step("Water supply")
    chosen = page.locator('[data-instrument-kind="pressure_gauge"] select')
    for select in chosen.all():
        expect(select).to_have_value("pg-12")
    # Another one in one entry, and that is offered from then on.
    first = page.locator('[data-entry]:has([data-instrument-kind="pressure_gauge"])').first
    first.locator("select[data-part=instrument-id]").select_option("pg-03")
    first.locator("input").first.fill("3")
    expect(chosen.last).to_have_value("pg-03")
