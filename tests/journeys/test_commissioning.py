"""One commissioning from end to end: offline, killed, signed, sent, countersigned, found by its label."""

import io
import json
import re
import urllib.error
import urllib.parse
import urllib.request
from datetime import UTC, datetime

import pytest
import zxingcpp
from joserfc import jws
from joserfc.jwk import KeySet
from PIL import Image
from playwright.sync_api import expect
from pypdf import PdfReader

from tests import browser
from tests.journeys import plant_room
from tests.journeys.case_walk import CaseWalk
from tests.journeys.navigators import Installer
from tests.journeys.plant_room import PlantRoom, agreed, numbered
from tests.records.test_records import reviewed
from webapp.signing.judged_again import differences
from webapp.store import Store

pytestmark = [pytest.mark.browser, pytest.mark.timeout(600)]


RECORD = "marginal"


class Walk:
    """The installer at work on one visit, over several lives of the browser."""

    def __init__(self, playwright, folder, url, photo):
        self.playwright, self.folder, self.url, self.photo = playwright, folder, url, photo
        self.room = PlantRoom(RECORD)
        self.visit = None
        self.errors = []
        self.open()

    def open(self):
        self.phone = browser.launch_phone(self.playwright, self.folder)
        self.phone.set_default_timeout(20_000)
        self.page = self.phone.pages[0]
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))
        self.installer = Installer(self.page, self.url)
        self.case = CaseWalk(self.installer, self.room, self.photo)

    def kill_and_reopen(self):
        browser.kill(self.folder)
        self.open()

    def saved(self):
        """Wait until nothing that was typed is still on its way into the phone's storage."""
        expect(self.page.locator("[data-module=step]:not([data-unsaved])")).to_be_attached()
        expect(self.page.locator("[data-module=saved-status]")).to_contain_text("Saved on this phone")


@pytest.fixture
def walk(playwright, phone_folder, server, photo):
    walk = Walk(playwright, phone_folder, server.url, photo)
    stock(server, walk.room)
    yield walk
    walk.phone.close()


def stock(server, room):
    """Put the unit, its site and the instruments into the office's store."""
    store = Store(server.folder / "instance" / "demo" / "firstwater.db", lambda: datetime.now(UTC))
    room.stock(store)
    store.close()


def commission_offline(walk, server):
    """Every step with no server; the page is reloaded, killed and reopened on the way."""
    walk.installer.sign_in(*plant_room.INSTALLER)
    walk.installer.prepare_phone("plant room phone", plant_room.INSTALLER[1])
    walk.visit = walk.installer.start_visit(walk.room.unit)
    server.stop()

    interruptions = {"isolation": walk.page.reload, "earthing": walk.kill_and_reopen}
    for step in walk.room.steps:
        walk.case.open_step(step["id"], walk.visit)
        walk.case.fill_step(step["id"])
        if step["id"] in interruptions:
            walk.saved()
            interruptions[step["id"]]()
            walk.case.open_step(step["id"], walk.visit)
        walk.case.finish_step(step["id"])
    walk.installer.open_review(walk.visit)
    walk.installer.sign(plant_room.INSTALLER[1])


def send(walk):
    """In the signal again, but signed out: the phone says so, loses nothing, and sends after a sign-in."""
    status = walk.page.locator("[data-module=saved-status]")
    walk.phone.clear_cookies()
    walk.page.goto(f"{walk.url}/field/waiting")
    expect(status).to_contain_text("Sign in to send", timeout=60_000)
    walk.installer.sign_in(*plant_room.INSTALLER)
    walk.page.goto(f"{walk.url}/field/waiting")
    expect(status).to_contain_text("Everything received by the server", timeout=60_000)


def countersign(playwright, server):
    """The supervisor finds the record in the queue, reads it and accepts it with what is still open."""
    login, password = plant_room.SUPERVISOR
    desk = browser.launch(playwright)
    page = desk.new_page(viewport={"width": 1280, "height": 900}, base_url=server.url)
    page.set_default_timeout(30_000)
    office = Installer(page, server.url)
    office.sign_in(login, password)
    office.prepare_phone("office desk", password)
    page.goto("/office/")
    page.get_by_role("link", name=re.compile(f"Unit of {RECORD}")).first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Record of")
    page.get_by_label("Accept with conditions").check()
    page.get_by_label("Reasons or conditions").fill("Colony count to be added when the laboratory has it.")
    page.get_by_label("Your password").fill(password)
    page.get_by_role("button", name="Sign the decision").click()
    page.get_by_text("The unit is accepted with conditions").wait_for()
    return desk, page


def download(page, link):
    """What is behind a link of the page, fetched with the page's session."""
    return fetch(page, page.get_by_role("link", name=link).get_attribute("href"))


def fetch(page, path):
    answer = page.request.get(path)
    assert answer.ok, f"{path}: {answer.status}"
    return answer.body()


def test_a_unit_is_commissioned_offline_and_its_label_tells_the_truth(walk, playwright, server):
    commission_offline(walk, server)
    assert walk.errors == []
    server.start()
    send(walk)

    desk, page = countersign(playwright, server)
    check_record(json.loads(download(page, "Content (JSON)"))["record"], walk)
    check_certificate(download(page, "Certificate (PDF)"))
    check_public_page(server.url + urllib.parse.urlsplit(read_label(page)).path)
    desk.close()


def check_record(record, walk):
    """What was typed is there as it was typed, and the verdicts are those that were read and agreed to."""
    assert record["visit"] == walk.visit
    typed = {
        event["field"]: event["content"].get("typed")
        for event in record["events"]
        if event["content"] and event["item"] is None and "#" not in event["field"]
    }
    asked = {
        name: given["typed"]
        for step in walk.room.steps
        for name, _, given in walk.room.cells(step["id"])
        if isinstance(given, dict) and given.get("typed")
    }
    assert {name: typed.get(name) for name in asked} == asked
    assert list(differences(numbered(reviewed(record["judgement"])), agreed(RECORD))) == []
    assert record["judgement"]["record"]["verdict"] == "conditional_pass"


def check_certificate(pdf):
    """Another tool reads the certificate, another library verifies the record that is inside."""
    reader = PdfReader(io.BytesIO(pdf))
    text = " ".join(sheet.extract_text() for sheet in reader.pages)
    assert f"Unit of {RECORD}" in text
    assert "Colony count to be added" in text
    token = reader.attachments["record.jws"][0].decode()
    keys = KeySet.import_key_set(json.loads(reader.attachments["keys.json"][0]))
    registry = jws.JWSRegistry(algorithms=["ES256"])
    registry.max_payload_length = 8 * 1024 * 1024  # the library stops at 128 kB
    signed = jws.deserialize_compact(token, keys, registry=registry)
    assert json.loads(signed.payload)["signer"]["name"] == "Tamsin Orrel"


def read_label(page):
    """The link that an independent reader finds in the printed label."""
    page.get_by_role("link", name="The unit and its other records").click()
    unit = page.url
    image = Image.open(io.BytesIO(fetch(page, f"{unit}/label.png")))
    return zxingcpp.read_barcode(image).text


def check_public_page(link):
    """A stranger sees identity, state and dates, and nothing else."""
    with urllib.request.urlopen(link) as answer:
        text = answer.read().decode()
    assert f"Unit of {RECORD}" in text
    assert "with conditions" in text
    assert "Tamsin" not in text
    assert "earth" not in text
    with pytest.raises(urllib.error.HTTPError, match="404"):
        urllib.request.urlopen(link[:-1] + ("A" if link[-1] != "A" else "B"))
