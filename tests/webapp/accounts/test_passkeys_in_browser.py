"""A passkey from its making to a signed record and a decision, with Chromium's own authenticator."""

import socket
import threading
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace

import pytest
from playwright.sync_api import expect
from werkzeug.serving import make_server

from tests.conftest import todays_clock
from tests.phone import Phone
from tests.static.live import Quiet
from webapp.passwords import hash_password
from webapp.receiving import receive_record

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

PASSWORD = "five bright brass kettles"
PATIENCE = 60_000

# What the page of the step does when everything is entered.
FILL = """async (visit) => {
  const { openVisit } = await import("/static/parts/session.js");
  const session = await openVisit(visit);
  await session.write("test.pressure", { typed: "6.5", unit: "bar", value: 6.5, instrument: null });
  await session.write("test.tight", { value: "yes" });
  await session.write("test#done", { seen: session.judgement.steps.test.basis });
}"""
RECORD = """async (visit) => (await (await import("/static/record/visits.js")).visitOf(visit)).record"""
SEND = """async () => (await (await import("/static/sync/send.js")).sendNow()).state"""


@pytest.fixture
def clock():
    return todays_clock


@pytest.fixture
def settings(settings):
    """Passkeys belong to a name, which has to be known before the server runs; never to a number."""
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    return replace(settings, base_url=f"http://localhost:{port}", port=port)


@pytest.fixture
def address(app, settings) -> Iterator[str]:
    server = make_server("127.0.0.1", settings.port, app, threaded=True, request_handler=Quiet)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield settings.base_url
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture
def page(chromium, address):
    context = chromium.new_context(
        viewport={"width": 390, "height": 844}, base_url=address, service_workers="block"
    )
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    expect.set_options(timeout=PATIENCE)
    devtools = context.new_cdp_session(page)
    devtools.send("WebAuthn.enable")
    options = {
        "protocol": "ctap2",
        "transport": "internal",
        "hasResidentKey": True,
        "hasUserVerification": True,
    }
    options |= {"isUserVerified": True, "automaticPresenceSimulation": True}
    devtools.send("WebAuthn.addVirtualAuthenticator", {"options": options})
    yield page
    context.close()


def sign_in(page, login: str) -> None:
    page.goto("/sign-in")
    page.get_by_label("Login").fill(login)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    page.wait_for_url(lambda url: "/sign-in" not in url)


def add_passkey(page) -> None:
    page.goto("/account/passkeys", wait_until="networkidle")
    page.get_by_label("Name of the passkey").fill("work phone")
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Add a passkey").click()
    expect(page.get_by_role("link", name="Rename or remove work phone")).to_be_visible()


def prepare(page) -> None:
    """The worker is left out here, so that the page ends with saying so; all else is in place by then."""
    page.goto("/phone", wait_until="networkidle")
    page.get_by_label("Name of this phone").fill("blue phone")
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Prepare this phone").click()
    expect(page.get_by_text("(no_worker)")).to_be_visible()


def test_a_record_is_confirmed_without_signal_and_sent_after_the_session_has_ended(page, store, people, unit):
    """The server ends the session while entries wait: they stay, and go after the next sign-in."""
    ilse = people["installer"]
    store.people.set_password(ilse.id, hash_password(PASSWORD))
    visit = Phone(store, ilse).start(unit).id
    sign_in(page, "installer")
    add_passkey(page)
    prepare(page)
    page.goto("/account")
    page.evaluate(SEND)  # fetches the visit, which preparing leaves to a worker
    page.evaluate(FILL, visit)
    page.goto(f"/field/trial-1/review?visit={visit}", wait_until="networkidle")
    page.context.set_offline(True)
    page.get_by_role("button", name="Sign with a passkey instead").click()
    expect(page.get_by_role("heading", name="Signed")).to_be_visible()
    sha256 = page.evaluate(RECORD, visit)
    page.context.set_offline(False)
    store.sessions.end_all(ilse.id)
    assert page.evaluate(SEND) == "signed_out"

    page.goto("/sign-in")
    page.get_by_role("button", name="Use a passkey").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)
    (passkey,) = store.passkeys.of(ilse.id)
    assert store.sessions.of(ilse.id)[0].passkey == passkey.id
    page.goto("/account")
    assert store.records.find(sha256) is None
    assert page.evaluate(SEND) == "done"
    assert store.records.get(sha256).state == "signed"
    assert store.passkeys.confirmation(sha256).passkey == passkey.id


def test_a_supervisor_confirms_a_decision_with_a_passkey(page, store, people, unit, phone):
    sami = people["supervisor"]
    store.people.set_password(sami.id, hash_password(PASSWORD))
    answer = receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    sign_in(page, "supervisor")
    add_passkey(page)
    prepare(page)
    page.goto(f"/office/records/{answer.sha256}", wait_until="networkidle")
    page.get_by_label("Accept", exact=True).check()
    page.get_by_role("button", name="Sign with a passkey instead").click()
    expect(page.get_by_text("The unit is accepted.")).to_be_visible()
    decision = store.records.get(answer.sha256).decision
    assert store.passkeys.confirmation(decision.sha256).passkey == store.passkeys.of(sami.id)[0].id


def test_under_another_name_of_the_server_the_page_says_what_to_do(chromium, address):
    page = chromium.new_page(base_url=address.replace("localhost", "127.0.0.1"))
    page.goto("/sign-in")
    expect(page.get_by_text("Passkeys work only under the address localhost.")).to_be_visible(
        timeout=PATIENCE
    )
    expect(page.get_by_role("button", name="Use a passkey")).to_be_hidden()
    page.close()
