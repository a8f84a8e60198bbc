"""A revoked phone, an ended session, weeks without the server: each has its plain screen, nothing is lost."""

import pytest
from playwright.sync_api import expect

from tests.static.cellar import DONE, NOTHING, PASSWORD, SEND, START_VISIT, SUMMARY, unsent

pytestmark = [
    pytest.mark.browser,
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]

PARTS = ("What happened", "What is safe", "What to do now", "If you do nothing")
LAST_HEARD = "await phone.database.writeSettings({ fetchedAt: Date.now() - argument * 864e5 })"


def screen(phone, title):
    """The plain screen with this title; it has all of its parts."""
    found = phone.page.locator(".plain-screen").filter(has=phone.page.get_by_role("heading", name=title))
    for part in PARTS:
        expect(found.get_by_text(part, exact=True)).to_be_visible()
    return found


def test_a_revoked_phone_gets_a_new_key_and_its_entries_are_entered_again(phone, server):
    visit = phone.run(START_VISIT)["id"]
    before = phone.add(visit, "earthing#note", {"value": "behind"})
    assert phone.run(SEND) == DONE
    first = phone.add(visit, "earthing#note", {"value": "behind the"}, replaces=[before["id"]])
    old = [
        first,
        phone.add(visit, "earthing#note", {"value": "behind the tank"}, replaces=[first["id"]]),
        phone.add(visit, "earthing#done", {"seen": {}}),
    ]
    server.store.devices.revoke(old[0]["device"])
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING | {"events": 3, "problems": 3}
    phone.open("/field/attention")
    phone.page.get_by_role("link", name="3 need attention").wait_for()
    expect(
        screen(phone, "This phone's key was withdrawn").get_by_role("link", name="Prepare this phone")
    ).to_be_visible()
    assert "ready for offline work" in phone.prepare(PASSWORD)
    phone.open("/field/attention")
    screen(phone, "This phone's key was withdrawn").get_by_role("button", name="Enter them again").click()
    expect(phone.page.get_by_text("1 entry was entered again.")).to_be_visible()
    expect(phone.page.get_by_text("Nothing needs you")).to_be_visible()
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    _before, kept = server.store.events.of_visit(visit)
    assert kept.device != old[0]["device"]
    # The old ones are still here, and with the supervisor.
    here = phone.run("return phone.events.eventsOf(argument)", visit)
    assert {one["id"] for one in old} < {one["id"] for one in here}
    # It replaces what the server has as well, which knows nothing of those between.
    assert here[-1]["content"] == {"value": "behind the tank"}
    assert sorted(here[-1]["replaces"]) == sorted(one["id"] for one in (before, *old[:2]))


def test_after_weeks_without_the_server_the_phone_says_what_is_safe_and_signs_in_to_send(phone, server):
    visit = phone.run(START_VISIT)["id"]
    phone.add(visit)
    phone.run(LAST_HEARD, 19)
    phone.context.clear_cookies()
    server.stop()
    phone.open("/field/attention")
    away = screen(phone, "19 days without the server")
    expect(away).to_contain_text("Only on this phone: 1 entry.")
    expect(phone.page.locator("[data-module=saved-status] a", has_text="19 days without")).to_be_visible()
    server.start()
    away.get_by_role("button", name="Send now").click()
    out = screen(phone, "You are signed out")
    expect(out.get_by_role("link", name="Sign in")).to_have_attribute(
        "href", "/sign-in?next=%2Ffield%2Fattention"
    )
    phone.sign_in()
    phone.page.reload()
    expect(phone.page.get_by_text("Nothing needs you")).to_be_visible()
    phone.run(SEND)
    assert phone.run(SUMMARY)["events"] == 0
