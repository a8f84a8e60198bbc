"""A supervisor's browser, from preparing it to the signed decision, against a real server."""

import threading
from collections.abc import Iterator

import pytest
from werkzeug.serving import WSGIRequestHandler, make_server

from tests.conftest import todays_clock
from tests.webapp.office.conftest import PASSWORD
from webapp.certificate.printable import can_set

pytestmark = pytest.mark.browser


class Quiet(WSGIRequestHandler):
    def log(self, *arguments: object) -> None:
        pass


@pytest.fixture
def clock():
    return todays_clock


@pytest.fixture
def address(app) -> Iterator[str]:
    server = make_server("127.0.0.1", 0, app, threaded=True, request_handler=Quiet)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://localhost:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture
def page(chromium, address):
    page = chromium.new_page(viewport={"width": 390, "height": 844}, base_url=address)
    page.set_default_timeout(140_000)  # a busy machine keeps the app's files slowly
    yield page
    page.close()


def sign_in(page, person):
    page.goto("/sign-in")
    page.get_by_label("Login").fill(person.login)
    page.get_by_label("Password").fill(PASSWORD)
    page.locator("main form button").click()
    page.wait_for_url("**/office/")


def prepare(page):
    page.goto("/phone", wait_until="networkidle")
    page.get_by_label("Name of this phone").fill("desk")
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Prepare this phone").click()
    page.get_by_text("This phone is ready").wait_for()


def test_a_browser_without_a_key_says_how_to_prepare_it_and_sends_nothing(page, supervisor, waiting, store):
    record = waiting()
    sign_in(page, supervisor)
    page.goto(f"/office/records/{record.sha256}", wait_until="networkidle")
    assert page.get_by_role("link", name="Prepare this phone or browser").is_visible()
    page.get_by_label("Accept", exact=True).check()
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Sign the decision").click()
    page.locator("[data-part=problem]").get_by_text("not_prepared").wait_for()
    assert store.records.get(record.sha256).decision is None


def test_a_prepared_browser_signs_what_the_form_says(page, supervisor, waiting, store):
    record = waiting()
    sign_in(page, supervisor)
    prepare(page)
    page.goto(f"/office/records/{record.sha256}", wait_until="networkidle")
    assert not page.get_by_role("link", name="Prepare this phone or browser").is_visible()
    page.get_by_label("Accept with conditions").check()
    page.get_by_label("Reasons or conditions").fill("Second filter within a week, später 😀 ")
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Sign the decision").click()
    page.get_by_text("The unit is accepted with conditions").wait_for()
    decision = store.records.get(record.sha256).decision
    assert decision.decision == "accepted_with_conditions"
    assert decision.content()["reasons"] == "Second filter within a week, später 😀"
    assert decision.content()["signer"]["id"] == supervisor.id
    assert not can_set(decision.reasons)  # and still the certificate can be printed
    with page.expect_download() as found:
        page.get_by_role("link", name="Certificate (PDF)").click()
    assert found.value.suggested_filename.endswith(".pdf")
