"""The content policy, as Chromium enforces it: nothing breaks, nothing is asked of another origin."""

import threading
from collections.abc import Iterator

import pytest
from playwright.sync_api import expect
from werkzeug.serving import make_server

from tests.static.live import Quiet
from webapp import create_app, current
from webapp.settings import Settings

pytestmark = [
    pytest.mark.browser,
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

PATIENCE = 60_000
PAGES = [
    "/sign-in",
    "/field",
    "/field/waiting",
    "/account",
    "/account/passkeys",
    "/phone",
    "/office/",
    "/units",
]
LISTEN = """addEventListener("securitypolicyviolation", (event) =>
  console.error(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sample}`))"""
PASSED = """async () => {
  const attempts = {
    innerHTML: () => { document.createElement("p").innerHTML = "<b>x</b>"; },
    script: () => { document.createElement("script").src = "/static/start.js"; },
    worker: () => navigator.serviceWorker.register("/sw.js"),
    policy: () => trustedTypes.createPolicy("another", {}),
  };
  const passed = [];
  for (const [name, run] of Object.entries(attempts)) {
    try { await run(); passed.push(name); } catch { /* as it should be */ }
  }
  return passed;
}"""
TRUSTED = """async () => {
  const { fillWith } = await import("/static/parts/trusted.js");
  const place = document.createElement("p");
  const link = '<a href="javascript:1">x</a>';
  const texts = ["<script>1</script>", "<img src=x>", "<b onclick=1>x</b>", link, "<p style='a'>"];
  const refused = texts.filter((text) => {
    try { fillWith(place, text); return false; } catch { return true; }
  });
  fillWith(place, "<math><mn>1 &lt; 2</mn></math>");
  return [refused.length === texts.length, place.textContent];
}"""
# Every layout that the policy will ever be given: forms of the calculator, and the lines of each working.
OWN = """async () => {
  const { fillWith } = await import("/static/parts/trusted.js");
  const place = document.createElement("div");
  const json = async (path) => (await fetch(path)).json();
  const forms = Object.values(await json("/calculator/forms.json")).map((one) => one.html);
  const lines = JSON.stringify(await json("/static/generated/working.json"), (_, part) =>
    typeof part === "string" && part.includes("<") ? (fillWith(place, `<math>${part}</math>`), part) : part);
  for (const form of forms) fillWith(place, form);
  return [forms.length, lines.length];
}"""


@pytest.fixture
def served(tmp_path) -> Iterator[tuple[str, str]]:
    """The address, and the session of a supervisor, who sees most pages."""
    app = create_app(Settings.for_tests(tmp_path))
    store = app.extensions[current.NAME].store
    person = store.people.add("sami", "Sami Weir", "supervisor", "!")
    store.sessions.start(current.session_key("token"), person.id)
    with app.test_request_context():
        cookie = app.session_interface.get_signing_serializer(app).dumps({current.SESSION_TOKEN: "token"})
    server = make_server("127.0.0.1", 0, app, threaded=True, request_handler=Quiet)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://localhost:{server.port}", cookie
    server.shutdown()
    thread.join()
    server.server_close()
    store.close()


def test_the_app_runs_under_its_policy_and_asks_nobody_else(chromium, served) -> None:
    address, cookie = served
    context = chromium.new_context(base_url=address, viewport={"width": 390, "height": 844})
    context.add_cookies([{"name": "session", "value": cookie, "url": address}])
    context.add_init_script(LISTEN)
    asked, complaints = set(), []
    context.on("request", lambda request: asked.add(request.url))
    context.on("console", lambda line: complaints.append(line.text) if line.type == "error" else None)
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    for path in PAGES:
        assert page.goto(path).ok
    # The worker's address and the layout of a formula go through the policy.
    page.goto("/field/waiting")
    page.wait_for_function("async () => Boolean(await navigator.serviceWorker.getRegistration())")
    page.goto("/calculator/formula?formula=continuity_limit")
    expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=PATIENCE)
    forms, lines = page.evaluate(OWN)
    assert forms > 100
    assert lines > 10_000
    assert complaints == []
    assert {url for url in asked if not url.startswith((address, "blob:", "data:"))} == set()
    assert len(asked) > 50, "the requests were seen"

    assert page.evaluate(PASSED) == [], "each of these would run what a text says"
    assert page.evaluate(TRUSTED) == [True, "1 < 2"]
    context.close()
