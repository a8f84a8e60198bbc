"""A phone in a cellar: a real browser on the real application, and what a test does with them by script."""

import re
import shutil
from contextlib import contextmanager
from pathlib import Path

from tests.static.live import Live
from webapp import create_app, current
from webapp.passwords import hash_password
from webapp.pwa import precache
from webapp.settings import Settings

PASSWORD = "seven quiet pumps"
LOGIN = "mara"

# A page of the phone runs BODY with its modules at hand.
SCRIPT = """async argument => {
  const load = path => import(`/static/${path}.js`);
  const [database, events, outbox, photos, visits, work, send, api, record] = await Promise.all(
    ["record/database", "record/events", "record/outbox", "record/photos", "record/visits", "record/work",
     "sync/send", "sync/api", "signing/record"].map(load));
  const phone = { database, events, outbox, photos, visits, work, send, api, record };
  BODY
}"""

START_VISIT = """
  const [unit] = await phone.work.units();
  const procedure = (await phone.work.procedures()).find(one => one.id === "commissioning");
  const { id, version, hash } = procedure;
  return phone.visits.createVisit({ unit: unit.id, kind: "commissioning", procedure: { id, version, hash } });
"""
ADD = "return phone.events.addEvent(argument)"
# Another page may be sending by itself just now.
SEND = """
  for (;;) {
    const progress = await phone.send.sendNow();
    if (progress.state !== "elsewhere") return progress;
    await new Promise(resolve => setTimeout(resolve, 100));
  }
"""
SUMMARY = "return phone.outbox.summary()"

DONE = {"state": "done", "code": None, "message": ""}
SILENT_PAGE = "/field/silent"  # kept nowhere and without a status line, so that a test says when to send
WHO = "return phone.api.openSession().then(session => session.person.name, error => error.code)"
EMPTY = """
  await phone.database.transact(phone.outbox.STORES, "readwrite", transaction =>
    Promise.all(phone.outbox.STORES.map(store => transaction.objectStore(store).clear())));
"""
NOTHING = {"visits": 0, "events": 0, "photos": 0, "records": 0, "problems": 0}
EVENTS = re.compile("/api/events$")


@contextmanager
def real_server(folder):
    """The application with one installer and one unit over a store in ``folder``, until the block ends."""
    app = create_app(Settings.for_tests(folder))
    # A copy: a file that is edited meanwhile would no longer have the hash that the phone was told.
    app.static_folder = str(shutil.copytree(str(app.static_folder), folder / "static"))
    store = app.extensions[current.NAME].store
    store.people.add(LOGIN, "Mara Lind", "installer", hash_password(PASSWORD))
    site = store.sites.add("Mill House, cellar", "3 Mill Lane", {})
    store.units.add("Cellar unit", "FW-0001", site.id, {})
    server = Cellar(app, store).start()
    yield server
    server.stop()
    store.close()


class Cellar(Live):
    def __init__(self, app, store):
        super().__init__(app)
        self.store = store

    def release_with(self, text):
        """The next version of the application: another text in one file."""
        with Path(self.app.static_folder, "parts", "error-summary.js").open("a") as file:
            file.write(text)
        self.app.extensions.pop(precache.NAME)


class Phone:
    """One browser context with its own storage."""

    def __init__(self, context, server):
        self.context = context
        self.server = server
        context.set_default_timeout(20_000)
        self.page = context.new_page()

    def sign_in(self, login=LOGIN, password=PASSWORD):
        page = self.context.new_page()
        page.goto(f"{self.server.url}/sign-in")
        page.get_by_label("Login").fill(login)
        page.get_by_label("Password").fill(password)
        with page.expect_navigation():
            page.get_by_role("button", name="Sign in", exact=True).click()
        assert "/sign-in" not in page.url, page.inner_text("main")
        page.close()

    def prepare(self, password=PASSWORD):
        """Fill in the page Prepare this phone; the answer is what the page says."""
        self.page.goto(f"{self.server.url}/phone")
        self.page.locator("[data-module=prepare-phone] [role=status]").wait_for(state="attached")
        self.page.get_by_label("Name of this phone").fill("test phone")
        self.page.get_by_label("Password").fill(password)
        self.page.get_by_role("button", name="Prepare this phone").click()
        said = self.page.locator("[data-module=prepare-phone] .notice:not([data-kind=info])")
        said.wait_for()
        return said.inner_text()

    def open(self, path="/field"):
        self.page.goto(f"{self.server.url}{path}")
        return self

    def run(self, body, argument=None):
        return self.page.evaluate(SCRIPT.replace("BODY", body), argument)

    def add(self, visit, field="commission.note", content=None, **more):
        return self.run(ADD, {"visit": visit, "field": field, "content": content or {"value": "x"}, **more})


def prepared(context, server):
    phone = Phone(context, server)
    phone.sign_in()
    assert phone.prepare() == "This phone is ready for offline work.\n\nGo to the visits"
    return phone.open(SILENT_PAGE)


def unsent(phone):
    summary = phone.run(SUMMARY)
    return {name: summary[name] for name in ("visits", "events", "photos", "records", "problems")}
