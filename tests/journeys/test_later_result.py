"""A colony count that comes days after the acceptance: re-opened, entered, signed and accepted again."""

import json
import os
import subprocess
import sys
import urllib.request

import pytest
from playwright.sync_api import expect

from tests import browser
from tests.journeys import plant_room
from tests.journeys.navigators import Installer, Supervisor

pytestmark = [pytest.mark.browser, pytest.mark.timeout(600)]

UNIT = "Trace analysis unit"
STEP = "Water quality"
BRAM = ("bram", "mind the air gap below")
COMMAND = [sys.executable, "-c", "from webapp.commands import main; main()"]


@pytest.fixture
def desk(chromium, server):
    """The supervisor's browser, prepared for signing."""
    login, password = plant_room.SUPERVISOR
    page = chromium.new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.set_default_timeout(30_000)
    office = Supervisor(page, server.url)
    office.sign_in(login, password)
    office.prepare_phone("office desk", password)
    yield office
    page.context.close()


@pytest.fixture
def phone(chromium, server):
    """The installer's phone, which has not seen this visit before."""
    page = chromium.new_context(**browser.PHONE).new_page()
    page.set_default_timeout(30_000)
    page.errors = []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    installer = Installer(page, server.url)
    installer.sign_in(*BRAM)
    installer.prepare_phone("plant room phone", BRAM[1])
    yield installer
    assert page.errors == []
    page.context.close()


def test_a_result_that_comes_later_is_entered_in_a_corrected_record(phone, desk, server):
    password = plant_room.SUPERVISOR[1]
    desk.open_waiting(UNIT)
    label = public_page(desk)
    desk.open_waiting(UNIT)
    desk.decide("Accept with conditions", "Colony count to follow.", password, "accepted with conditions")
    first = desk.page.url
    assert "Colony count to follow." in read(label)

    desk.open_later_result(UNIT)
    reasons = desk.page.get_by_label("Reasons").input_value()
    assert "result has come: Colony count of the bacteria grade (Microbiology sample taken on: " in reasons
    desk.decide(None, f"{reasons} 4 colonies in 100 mL.", password, "The record is re-opened")
    expect(desk.page.get_by_text("a corrected record is awaited")).to_be_visible()
    assert "Accepted with conditions" in read(label)

    enter_the_result(phone)
    desk.open_waiting(UNIT)
    desk.decide("Accept", None, password, "The unit is accepted.")
    expect(desk.page.get_by_role("link", name="an earlier record of this visit")).to_be_visible()
    desk.page.goto(first)
    expect(desk.page.get_by_text("which was accepted")).to_be_visible()
    assert "Accepted" in read(label)
    assert "with conditions" not in read(label)
    assert_verified(server)


def public_page(desk):
    """The address behind the label of the unit whose record is open."""
    desk.page.get_by_role("link", name="The unit and its other records").click()
    desk.page.get_by_role("link", name="Label", exact=True).click()
    token = desk.page.locator("dd code").first.inner_text().rsplit("/", 1)[1]
    return f"{desk.base_url}/u/{token}"


def read(link):
    with urllib.request.urlopen(link) as answer:
        return answer.read().decode()


def enter_the_result(phone):
    """The visit is there as returned, with everything that was entered before."""
    page = phone.page
    page.goto(f"{phone.base_url}/field/waiting")
    phone.send_now()
    page.goto(f"{phone.base_url}/field")
    expect(page.get_by_text("4 colonies in 100 mL.")).to_be_visible(timeout=60_000)
    page.get_by_role("link", name=f"Enter the result: {STEP}").click()
    expect(page.get_by_role("heading", level=1, name=STEP, exact=True)).to_be_visible()
    visit = page.url.split("visit=")[1]
    expect(page.locator('[data-part="state"] .tag')).to_be_visible()
    assert phone.state() == "Done"
    assert phone.input("Conductivity or resistivity shown").input_value() == "10.1 Mohm cm"
    phone.fill("Colonies counted", "4")
    phone.fill("Volume examined", "100")
    expect(page.locator('[data-part="state"] .tag')).to_have_text("Re-check")
    # ASTM D1193-99e1: grade B allows 10 per 100 mL.
    assert phone.verdict("Colony count of the bacteria grade") == "Pass"
    phone.mark_done()
    phone.open_review(visit)
    phone.sign(BRAM[1])
    page.goto(f"{phone.base_url}/field/waiting")
    phone.send_now()
    status = page.locator("[data-module=saved-status]")
    expect(status).to_contain_text("Everything received by the server", timeout=60_000)


def assert_verified(server):
    """Both records leave with all decisions, and hold without the server."""
    environment = {**os.environ, "FIRSTWATER_DATABASE": "instance/demo/firstwater.db"}
    for arguments in (["export", "bundle.json", "--unit", "VCL-0118"], ["verify", "bundle.json", "--json"]):
        ended = subprocess.run(
            [*COMMAND, *arguments],
            cwd=server.folder,
            env=environment,
            capture_output=True,
            text=True,
            check=True,
        )
    answer = json.loads(ended.stdout)
    assert answer["valid"]
    records = [one for one in answer["documents"] if one["kind"] == "record"]
    assert [one["verdict"] for one in records] == ["conditional_pass", "pass"]
    assert f"Corrected by the record {records[1]['sha256']}." in records[0]["notes"]
