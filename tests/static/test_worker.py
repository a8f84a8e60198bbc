"""The service worker: installs all files or none, serves them without a server, waits until it is asked."""

import io
import shutil
import time
from pathlib import Path

import pytest
import qrcode
from flask import Flask, request

from tests import browser
from tests.static.live import Live
from webapp.pwa import make_blueprint, precache

pytestmark = pytest.mark.browser

STATIC = Path(__file__).parents[2] / "static"
PAGE = """<!doctype html><html lang="en"><title>{title}</title>
<script type="module" src="/static/start.js"></script><link rel="manifest" href="/manifest.webmanifest">
<h1>{title}</h1><div data-module="update-notice"></div><label>Note <input id="note"></label></html>"""
CACHES = "() => caches.keys()"
LOOK_FOR_NEWS = """async (isExpected) => {
  const registration = await navigator.serviceWorker.getRegistration();
  const pause = (time) => new Promise(resolve => setTimeout(resolve, time, false));
  let isAnswered = false;
  for (let asked = 0; asked < 3; asked += 1) {
    const looked = registration.update().then(() => true, () => true);
    isAnswered = await Promise.race([looked, pause(15000)]) || isAnswered;
    const deadline = Date.now() + 60000;
    while (registration.installing && Date.now() < deadline) await pause(20);
    if (isAnswered && (!isExpected || registration.waiting)) break;
    await pause(1000);
  }
  return isAnswered;
}"""

UNTIL_REFUSED = """async () => {
  const pause = () => new Promise(resolve => setTimeout(resolve, 50));
  while (await navigator.serviceWorker.getRegistration()) await pause();
}"""
HOW_FAR = """async () => {
  const told = [];
  navigator.serviceWorker.onmessage = event => told.push(event.data);
  await navigator.serviceWorker.register("/sw.js");
  const pause = () => new Promise(resolve => setTimeout(resolve, 20));
  while (!told.length || told.at(-1).kept < told.at(-1).of) await pause();
  return told;
}"""


KEEP_OPTIONAL = """async () => {
  const { port1, port2 } = new MessageChannel();
  const answer = new Promise(resolve => (port1.onmessage = ({ data }) => resolve(data.kept)));
  navigator.serviceWorker.controller.postMessage("keep-optional", [port2]);
  return answer;
}"""
READ_CODE = """async (bytes) => {
  const { codesInPhoto } = await import("/static/parts/find-codes.js");
  const codes = await codesInPhoto(new Blob([new Uint8Array(bytes)]));
  return codes.map(({ text }) => text);
}"""


class Site(Live):
    """A small application of field pages over its own copy of the static files, which tests change."""

    def __init__(self, folder):
        super().__init__()
        self.static = folder / "static"
        shutil.copytree(STATIC, self.static)
        self.spoiled = None
        self.requests = []

    def start(self):
        app = Flask("phone", static_folder=self.static, static_url_path="/static")
        app.register_blueprint(make_blueprint())
        app.extensions["precache_urls"].append(lambda: ["/field", "/field/visit", "/field/offline"])
        for title in ("field", "field/visit", "field/offline", "sign-in", "field/newer"):
            app.add_url_rule(f"/{title}", title, lambda title=title: PAGE.format(title=title))
        app.add_url_rule("/field/silent", "silent", lambda: "<!doctype html><title>silent</title>")
        app.add_url_rule("/api/session", "session", lambda: ("{}", 401, {"Content-Type": "application/json"}))
        app.after_request(self.note)
        self.app = app
        return super().start()

    def note(self, response):
        if request.host == "localhost":  # the server's own look at what it keeps, not a phone's request
            return response
        self.requests.append(request.path)
        if request.path == self.spoiled:
            response.direct_passthrough = False
            response.data = response.data + b"\n// half a delivery"
        return response

    def release(self, text):
        """The next version of the application: another text in one file."""
        self.stop()
        self.requests.clear()
        path = self.static / "parts" / "error-summary.js"
        path.write_text(f"// {text}\n" + path.read_text())
        return self.start()

    @property
    def build(self):
        return precache.of(self.app).build

    @property
    def kept(self):
        return precache.of(self.app).files


@pytest.fixture
def site(tmp_path):
    site = Site(tmp_path).start()
    yield site
    site.stop()


@pytest.fixture(scope="module")
def chromium(playwright):
    """A browser of its own: one that many tests had used has left the search for a new worker unanswered."""
    launched = browser.launch(playwright)
    yield launched
    launched.close()


@pytest.fixture
def phone(chromium):
    context = chromium.new_context(viewport={"width": 390, "height": 844})
    context.set_default_timeout(15_000)
    yield context
    context.close()


def until_kept(page, site):
    """Wait until the cache of the site's build is the only one."""
    deadline = time.monotonic() + 15
    while page.evaluate(CACHES) != [f"app-{site.build}"]:
        assert time.monotonic() < deadline, f"The phone keeps {page.evaluate(CACHES)}, not {site.build}"
        page.wait_for_timeout(50)


def install(phone, site):
    page = phone.new_page()
    page.goto(f"{site.url}/field")
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    until_kept(page, site)
    page.reload()
    assert page.evaluate("() => navigator.serviceWorker.controller !== null")
    return page


def update(page, is_expected=False):
    """Let the browser look for a new worker, and wait until it has decided about it.

    On a busy machine Chromium has left the question unanswered for minutes without sending any request; what
    comes after cannot be tried then.
    """
    if not page.evaluate(LOOK_FOR_NEWS, is_expected):
        pytest.skip("The browser does not look for a new worker: nothing of ours was asked")


def is_waiting(page):
    return page.evaluate("() => navigator.serviceWorker.getRegistration().then(r => r.waiting !== null)")


def test_every_kept_file_opens_with_the_server_gone(phone, site):
    install(phone, site)
    files = [url for url, _, _ in precache.of(site.app).files]
    site.stop()
    page = phone.new_page()
    page.goto(f"{site.url}/field/visit?visit=11111111-1111-4111-8111-111111111111")
    assert page.title() == "field/visit"
    statuses = page.evaluate(
        "urls => Promise.all(urls.map(url => fetch(url).then(answer => answer.status)))", files
    )
    assert statuses == [200] * len(files)


def test_a_page_that_only_the_server_has_says_what_is_possible(phone, site):
    install(phone, site)
    page = phone.new_page()
    page.goto(f"{site.url}/sign-in")
    assert page.title() == "sign-in"
    site.stop()
    page = phone.new_page()
    page.goto(f"{site.url}/sign-in?next=/field")
    assert page.title() == "field/offline"
    assert page.url.endswith("/sign-in?next=/field")


def test_a_field_page_that_is_not_kept_comes_from_the_server(phone, site):
    page = install(phone, site)
    page.goto(f"{site.url}/field/newer")
    assert page.title() == "field/newer"


def test_answers_of_the_api_are_never_kept(phone, site):
    page = install(phone, site)
    assert page.evaluate("() => fetch('/api/session').then(answer => answer.status)") == 401
    site.stop()
    assert page.evaluate(
        "() => fetch('/api/session').then(answer => answer.status, error => error.name)"
    ) == ("TypeError")


def test_a_new_version_waits_while_a_form_is_open_and_takes_over_when_asked(phone, site):
    page = install(phone, site)
    first = site.build
    page.fill("#note", "half a sentence")
    site.release("second")
    update(page)
    notice = page.get_by_role("status").filter(has_text="A new version of the app is ready")
    notice.wait_for()
    page.get_by_role("button", name="What is that?").click()
    page.get_by_text("You go on with the version that you have, also without signal.").wait_for()
    page.get_by_role("button", name="Later").click()
    assert is_waiting(page)
    assert page.input_value("#note") == "half a sentence"
    assert f"app-{first}" in page.evaluate(CACHES)

    site.stop()
    with page.expect_navigation():
        page.get_by_role("button", name="Use the new version").click()
    until_kept(page, site)
    assert not is_waiting(page)
    text = page.evaluate("() => fetch('/static/parts/error-summary.js').then(answer => answer.text())")
    assert text.startswith("// second")


def test_a_reload_alone_does_not_bring_the_new_version(phone, site):
    page = install(phone, site)
    site.release("second")
    update(page)
    page.reload()
    assert is_waiting(page)
    page.get_by_role("button", name="Use the new version").wait_for()


def test_only_what_changed_is_fetched_again(phone, site):
    page = install(phone, site)
    site.release("second")
    update(page)
    assert is_waiting(page)
    files = {path for path in site.requests if path.startswith("/static/")}
    assert files == {"/static/parts/error-summary.js"}


def test_an_installation_that_was_cut_off_goes_on_where_it_stopped(phone, site):
    site.spoiled = "/static/icons/icon-192.png"
    page = phone.new_page()
    page.goto(f"{site.url}/field")
    while site.spoiled not in site.requests:
        page.wait_for_timeout(50)
    page.evaluate(UNTIL_REFUSED)

    site.spoiled = None
    site.requests.clear()
    page.reload()
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    until_kept(page, site)
    assert not [path for path in site.requests if path.startswith("/parcels/")]


def test_a_phone_fetches_its_files_in_a_few_requests_and_hears_how_far_they_are(phone, site):
    page = phone.new_page()
    page.goto(f"{site.url}/field/silent")
    told = page.evaluate(HOW_FAR)
    assert told[-1] == {"build": site.build, "kept": len(site.kept), "of": len(site.kept)}
    assert [one["kept"] for one in told] == sorted(one["kept"] for one in told)
    brought = {url: parcel for url, _, parcel in site.kept if parcel}
    assert not brought.keys() & set(site.requests)
    assert {"/parcels/files", "/parcels/pages", "/parcels/documents"} == set(brought.values())
    assert set(brought.values()) < set(site.requests)


def test_a_half_delivered_version_is_refused_and_the_next_good_one_is_taken(phone, site):
    page = install(phone, site)
    first = site.build
    site.spoiled = "/static/parts/error-summary.js"
    site.release("second")
    update(page)
    assert not is_waiting(page)
    fresh = phone.new_page()
    fresh.goto(f"{site.url}/field")
    assert first in fresh.evaluate("() => fetch('/build.js').then(answer => answer.text())")

    # Opening a page makes the browser look for a new worker a second later; not while the server is away.
    update(fresh)
    fresh.close()
    site.spoiled = None
    site.release("third")
    update(page, is_expected=True)
    assert is_waiting(page)
    with page.expect_navigation():
        page.get_by_role("button", name="Use the new version").click()
    until_kept(page, site)
    site.stop()
    fresh = phone.new_page()
    fresh.goto(f"{site.url}/field")
    assert fresh.title() == "field"


def test_another_window_is_told_and_not_reloaded(phone, site):
    page = install(phone, site)
    other = phone.new_page()
    other.goto(f"{site.url}/field/visit")
    other.fill("#note", "typed in the other window")
    site.release("second")
    update(page)
    with page.expect_navigation():
        page.get_by_role("button", name="Use the new version").click()
    other.get_by_text("The app was updated in another window").wait_for()
    assert other.input_value("#note") == "typed in the other window"


def test_without_a_worker_the_page_says_so(chromium, site):
    context = chromium.new_context(service_workers="block")
    page = context.new_page()
    page.goto(f"{site.url}/field")
    page.get_by_text("This browser does not allow work without signal").wait_for()
    context.close()


def test_the_app_can_be_installed(phone, site):
    page = install(phone, site)
    errors = phone.new_cdp_session(page).send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error["errorId"] for error in errors if error["errorId"] != "in-incognito"] == []


def test_the_reader_of_codes_is_kept_whole_or_not_at_all_and_then_needs_no_server(phone, site):
    page = install(phone, site)
    picture = io.BytesIO()
    qrcode.make("LOT-7/A").save(picture)
    site.spoiled = "/static/vendor/zxing-wasm/zxing_reader.wasm"
    assert page.evaluate(KEEP_OPTIONAL) is False
    site.spoiled = None
    assert page.evaluate(KEEP_OPTIONAL) is True
    site.stop()
    page = phone.new_page()
    page.goto(f"{site.url}/field/visit")
    assert page.evaluate(READ_CODE, list(picture.getvalue())) == ["LOT-7/A"]
