"""What the pictures are taken of: the demonstration on a day that stands still, and people who look at it."""

import shutil
import uuid
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.static.live import Live
from webapp import create_app, current
from webapp.demo import seed
from webapp.demo.seed import SCENARIO, Moment, key_of, read, start_of
from webapp.demo.visit import Diary, Signer, commission, keep_photo, record_of
from webapp.pwa import precache
from webapp.receiving import receive_events, receive_record
from webapp.settings import Settings
from webapp.signing import jws
from webapp.store import Store
from webapp.store.table import written

NOW = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
LANGUAGES = {"en": "en-GB", "de": "de-DE"}
FULL_VISIT = "visit_service"
"""The visit of the scenario that is repeated up to its signature."""


class Stage:
    """The demonstration on a port; ``places`` fill in addresses like ``/office/records/{accepted}``."""

    def __init__(self, folder: Path):
        self.now = NOW
        settings = replace(Settings.for_tests(folder), demo=True)
        self.app = create_app(settings, lambda: self.now)
        # A copy: a file that is edited meanwhile would no longer have the hash that the phone was told.
        self.static = Path(shutil.copytree(str(self.app.static_folder), folder / "static"))
        self.app.static_folder = str(self.static)
        self.store: Store = self.app.extensions[current.NAME].store
        self.passwords = {one.login: one.password for one in seed(self.store, lambda: NOW)}
        self.full_visits = {language: self.repeat_a_visit(language) for language in LANGUAGES}
        self.add_a_coarse_gauge()
        self.send_an_unknown_key()
        self.server = Live(self.app).start()
        self.places = self.found_places()
        self.photo = folder / "photo.jpg"
        self.photo.write_bytes(self.a_photo())

    def close(self) -> None:
        self.server.stop()
        self.store.close()

    def repeat_a_visit(self, language: str) -> str:
        """A visit in which everything is entered and nothing is signed, one for each language; its id."""
        key = f"gallery in {language}"
        visit = read(SCENARIO.with_name(f"{FULL_VISIT}.toml"))
        del visit["decision"]
        visit |= {"key": key, "installer": "installer", "days_ago": 2, "in_work": True}
        started = start_of(visit, NOW)
        moment = Moment(started)
        past = Store(self.store.connection.path, moment.now, self.store.photos.folder)
        commission(past, visit, started, moment, key_of)
        past.close()
        return key_of("visit", key)

    def add_a_coarse_gauge(self) -> None:
        """A gauge that is in date and too coarse for a narrow window."""
        fine = self.store.instruments.get(key_of("instrument", "pressure_gauge"))
        coarse = {"name": "Coarse gauge 0 to 10 bar", "serial": "PG-40", "resolution": 0.5}
        values = {
            **fine.as_json(),
            **coarse,
            "range_minimum": 0,
            "range_maximum": 10,
            "accuracy_of_range": 0.025,
        }
        values["id"] = key_of("instrument", "gallery")
        self.store.instruments.add(**values)

    def enter_elsewhere(self, visit: str, field: str, typed: str, unit: str) -> None:
        """Another value for an entry, by the second installer and with another phone."""
        signer = Signer(self.store, self.store.people.get(key_of("person", "second_installer")))
        at = written(NOW - timedelta(minutes=20))
        event = {
            "id": str(uuid.uuid4()),
            "visit": visit,
            "field": field,
            "item": None,
            "replaces": [],
            "reason": None,
        }
        event["content"] = {"typed": typed, "unit": unit, "value": float(typed), "instrument": None}
        event |= {
            "by": signer.person.id,
            "device": signer.thumbprint,
            "at": at,
            "offset": 0,
            "app": "gallery",
        }
        event["hlc"] = f"{at}-0000-{signer.thumbprint[:8]}"
        answer = receive_events(self.store, [event], signer.person)
        if answer["refused"]:
            raise ValueError(f"The other value was refused: {answer['refused']}")

    def send_an_unknown_key(self) -> None:
        """A signed record that the server cannot accept, so that the quarantine is not empty."""
        visit = read(SCENARIO.with_name("visit_waiting.toml")) | {"key": "unknown", "unit": "low_pressure"}
        started = NOW - timedelta(days=1)
        signer = Signer(self.store, self.store.people.get(key_of("person", visit["installer"])))
        diary = Diary(self.store, visit, started, signer, key_of)
        diary.start()
        content = record_of(diary, visit, diary.write(), NOW - timedelta(hours=3))
        receive_record(self.store, jws.sign(content, jws.new_key(), jws.RECORD), signer.person)

    def found_places(self) -> dict[str, str]:
        """The keys of things by the words that the addresses of the gallery use."""
        units = {name: key_of("unit", name) for name in ("analyser_feed", "trace_analysis", "low_pressure")}
        tokens = {f"{name}_label": self.store.units.get(key).token for name, key in units.items()}
        records = {
            name: self.store.visits.get(key_of("visit", key)).record
            for name, key in (
                ("accepted", "first_commissioning"),
                ("serviced", "first_service"),
                ("waiting", "waiting_commissioning"),
            )
        }
        people = {name: key_of("person", name) for name in ("installer", "supervisor")}
        site, instrument = key_of("site", "harrowmere"), key_of("instrument", "ph_meter")
        device = self.store.devices.of(people["supervisor"])[0].thumbprint
        return {
            **units,
            **tokens,
            **records,
            **people,
            "site": site,
            "instrument": instrument,
            "device": device,
        }

    def a_photo(self) -> bytes:
        """A drawing in the place of a photo, as the demonstration has them."""
        person = self.store.people.get(key_of("person", "installer"))
        return self.store.photos.read_bytes(keep_photo(self.store, "earth connection", person)["sha256"])

    def address(self, place: str) -> str:
        return self.server.url + place.format(**self.places)

    def release(self) -> None:
        """The next version of the application: another text in one file."""
        with (self.static / "parts" / "error-summary.js").open("a") as file:
            file.write(f"// {uuid.uuid4()}\n")
        self.app.extensions.pop(precache.NAME)


class Person:
    """Somebody with a browser of their own, who reads one language."""

    def __init__(self, stage: Stage, browser: Browser, language: str, screen: dict):
        self.stage, self.language = stage, language
        self.context = browser.new_context(
            locale=LANGUAGES[language], timezone_id="Europe/London", reduced_motion="reduce", **screen
        )
        self.context.set_default_timeout(30_000)
        self.context.clock.set_fixed_time(NOW)
        expect.set_options(timeout=60_000)
        self.page: Page = self.context.new_page()

    def open(self, place: str) -> Page:
        self.page.goto(self.stage.address(place))
        self.settle()
        return self.page

    def settle(self) -> None:
        """Until the scripts of the page have filled it in."""
        self.page.wait_for_load_state("networkidle")
        waiting = {"en": "Looking on this phone", "de": "Auf diesem Telefon wird nachgesehen"}[self.language]
        expect(self.page.locator("main")).not_to_contain_text(waiting)
        if self.page.locator("[data-module=step]").count():
            expect(self.page.locator('[data-part="state"] .tag')).to_be_visible()

    def sign_in(self, login: str) -> None:
        self.context.clear_cookies()
        self.page.goto(self.stage.address(f"/sign-in?lang={self.language}"))
        self.page.locator("[name=login]").fill(login)
        self.page.locator("[name=password]").fill(self.stage.passwords[login])
        with self.page.expect_navigation():
            self.page.locator("main form button").first.click()

    def prepare(self, login: str) -> None:
        """Make the browser the phone of this person."""
        self.page.goto(self.stage.address(f"/phone?lang={self.language}"))
        self.page.locator("[data-module=prepare-phone] [role=status]").wait_for(state="attached")
        self.page.locator("main [name=name]").fill("Telefon 2" if self.language == "de" else "Phone 2")
        self.page.locator("main [name=password]").fill(self.stage.passwords[login])
        self.page.locator("[data-module=prepare-phone] button.button").click()
        self.page.locator("[data-module=prepare-phone] .notice[data-kind=success]").wait_for(timeout=120_000)

    def look_at(self, selector: str) -> None:
        """Scroll so that this stands below what stays in sight."""
        place = self.page.locator(selector).first
        place.wait_for()
        place.evaluate("(one) => scrollTo(0, one.getBoundingClientRect().top + scrollY - 90)")

    def close(self) -> None:
        self.context.close()
