"""The app on a phone: installed once, then at work without a server, updated when its person says so."""

import json

import pytest
from playwright.sync_api import expect

from tests import browser
from tests.static.cellar import SEND, START_VISIT, Phone

pytestmark = [
    pytest.mark.browser,
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]

LOOK_FOR_A_NEW_VERSION = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update();
}"""
UNKNOWN_VISIT = "99999999-9999-4999-8999-999999999999"


@pytest.fixture
def phone(playwright, cellar):
    launched = browser.launch(playwright)
    phone = Phone(launched.new_context(**browser.PHONE), cellar)
    phone.errors = []
    phone.page.on("pageerror", lambda error: phone.errors.append(str(error)))
    phone.sign_in()
    assert "ready for offline work" in phone.prepare()
    yield phone
    assert phone.errors == []
    launched.close()


def status(phone):
    return phone.page.locator("[data-module=saved-status]")


def test_the_field_works_without_a_server_and_sends_when_it_is_back(phone, cellar):
    phone.open("/field")
    expect(status(phone)).to_contain_text("Everything received by the server")
    cellar.stop()
    phone.context.set_offline(True)

    visit = phone.run(START_VISIT)["id"]
    phone.open(f"/field/visit?visit={visit}")
    expect(phone.page.get_by_text("Cellar unit").first).to_be_visible()
    event = phone.add(visit, "survey#note", {"value": "Door sticks."})
    expect(status(phone)).to_contain_text("Saved on this phone")
    expect(status(phone)).to_contain_text("1 entry only here")
    expect(status(phone)).to_contain_text("No server in reach")
    phone.page.reload()
    expect(status(phone)).to_contain_text("1 entry only here")

    cellar.start()
    phone.context.set_offline(False)
    expect(status(phone)).to_contain_text("Everything received by the server")
    assert [one.id for one in cellar.store.events.of_visit(visit)] == [event["id"]]


def test_a_page_of_the_office_says_what_is_possible_without_signal(phone, cellar):
    cellar.stop()
    phone.open("/account")
    expect(phone.page.get_by_role("heading", level=1)).to_have_text("No signal")
    phone.page.get_by_role("link", name="visits").first.click()
    expect(phone.page.get_by_role("heading", level=1)).to_have_text("My visits")


def test_cookies_that_vanish_without_signal_lead_to_signing_in_and_everything_is_sent(phone, cellar):
    visit = phone.open("/field").run(START_VISIT)["id"]
    cellar.stop()
    phone.context.clear_cookies()
    phone.open(f"/field/visit?visit={visit}")
    event = phone.add(visit, "survey#note", {"value": "Door sticks."})
    expect(status(phone)).to_contain_text("1 entry only here")
    cellar.start()
    phone.page.get_by_role("button", name="Send now").click()
    expect(status(phone)).to_contain_text("Nothing is lost.")
    status(phone).get_by_role("link", name="Sign in to send").click()
    expect(phone.page.get_by_role("heading", level=1)).to_have_text("Sign in")
    assert f"visit%3D{visit}" in phone.page.url
    phone.sign_in()
    phone.open(f"/field/visit?visit={visit}")
    expect(status(phone)).to_contain_text("Everything received by the server")
    assert [one.id for one in cellar.store.events.of_visit(visit)] == [event["id"]]


def test_a_new_version_waits_over_an_open_step_and_keeps_every_entry(phone, cellar):
    visit = phone.open("/field").run(START_VISIT)["id"]
    phone.open(f"/field/commissioning-2/survey?visit={visit}")
    expect(phone.page.get_by_role("heading", level=1)).to_have_text("Survey")
    before = phone.run("return (await import('/build.js')).BUILD")
    cellar.release_with("/* another version */")
    phone.page.get_by_label("Note").fill("Typed while the new version waited")
    phone.page.evaluate(
        "() => navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => null)"
    )
    use = phone.page.get_by_role("button", name="Use the new version")
    expect(use).to_be_visible()
    assert phone.page.get_by_label("Note").input_value() == "Typed while the new version waited"

    cellar.stop()
    with phone.page.expect_navigation():
        use.click()
    expect(phone.page.get_by_label("Note")).to_have_value("Typed while the new version waited")
    assert phone.run("return (await import('/build.js')).BUILD") != before
    events = phone.run("return phone.events.eventsOf(argument)", visit)
    assert events[-1]["content"] == {"value": "Typed while the new version waited"}


def test_what_waits_is_listed_with_reasons_and_leaves_as_a_file(phone, cellar):
    phone.open("/field/silent")
    visit = phone.run(START_VISIT)["id"]
    kept = phone.add(visit, "survey#note", {"value": "Door sticks."})
    refused = phone.add(UNKNOWN_VISIT, "survey#note", {"value": "Of no visit."})
    phone.context.route("**/api/events", lambda route: refuse(route, kept["id"], refused["id"]))
    phone.run(SEND)
    cellar.stop()

    phone.open("/field/waiting")
    panel = phone.page.locator("[data-module=outbox-panel]")
    expect(panel).to_contain_text("2 entries only on this phone.")
    expect(panel.get_by_role("link", name="2 need attention")).to_be_visible()
    expect(panel.get_by_role("link", name="Cellar unit: 1 entry")).to_be_visible()
    with phone.page.expect_download() as download:
        panel.get_by_role("button", name="Export as a file").click()
    expect(panel).to_contain_text("Everything also stays on this phone.")
    contents = json.loads(download.value.path().read_text())
    assert {one["event"]["id"] for one in contents["events"]} == {kept["id"], refused["id"]}
    panel.get_by_role("link", name="2 need attention").click()
    expect(phone.page.get_by_text("Survey, note: Not today. (not_today)")).to_have_count(2)


def refuse(route, *ids):
    route.fulfill(
        json={
            "received": [],
            "refused": [{"id": one, "code": "not_today", "detail": "Not today."} for one in ids],
        }
    )
