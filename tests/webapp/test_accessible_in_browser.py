"""Every page of the office, of an account and behind a label, on a phone 320 pixels wide."""

from collections.abc import Iterator

import pytest

from tests import accessibility
from tests.conftest import todays_clock
from tests.phone import Phone
from tests.static.live import Live
from webapp.receiving import receive_decision, receive_record

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

# endpoint: who looks at it, and where it is
PAGES = {
    "accounts.sign_in": (None, "/sign-in"),
    "accounts.account": ("supervisor", "/account"),
    "accounts.new_password": ("supervisor", "/account/password"),
    "accounts.phone": ("supervisor", "/phone"),
    "accounts.devices": ("supervisor", "/account/devices"),
    "accounts.device": ("supervisor", "/account/devices/{device}"),
    "accounts.passkeys": ("supervisor", "/account/passkeys"),
    "accounts.passkey": ("supervisor", "/account/passkeys/{passkey}"),
    "accounts.sessions": ("supervisor", "/account/sessions"),
    "accounts.all_devices": ("administrator", "/devices"),
    "accounts.people": ("administrator", "/people"),
    "accounts.new_person": ("administrator", "/people/new"),
    "accounts.person": ("administrator", "/people/{person}"),
    "accounts.trail": ("administrator", "/trail"),
    "office.queue": ("supervisor", "/office/"),
    "office.records": ("supervisor", "/office/records"),
    "office.record": ("supervisor", "/office/records/{waiting}"),
    "office.reopen": ("supervisor", "/office/records/{accepted}/reopen"),
    "office.hand_in": ("supervisor", "/office/import"),
    "office.quarantine": ("supervisor", "/office/quarantine"),
    "office.quarantined": ("supervisor", "/office/quarantine/1"),
    "units.public_unit": (None, "/u/{token}"),
    "units.units": ("administrator", "/units"),
    "units.new_unit": ("administrator", "/units/new"),
    "units.unit": ("supervisor", "/units/{unit}"),
    "units.change_unit": ("administrator", "/units/{unit}/change"),
    "units.unit_label": ("administrator", "/units/{unit}/label"),
    "units.sites": ("administrator", "/units/sites"),
    "units.new_site": ("administrator", "/units/sites/new"),
    "units.change_site": ("administrator", "/units/sites/{site}/change"),
    "units.instruments": ("administrator", "/units/instruments"),
    "units.new_instrument": ("administrator", "/units/instruments/new"),
    "units.change_instrument": ("administrator", "/units/instruments/{instrument}/change"),
}
MORE = [(None, "/nothing/here"), ("supervisor", "/people"), ("supervisor", "/office/records/{accepted}")]
NO_PAGES = {"static", "start", "office.queue_without_slash", "office.certificate", "office.record_jws"}
NO_PAGES |= {"office.decision_jws", "office.reopening_jws", "office.record_json", "office.photo"}
NO_PAGES |= {"office.document", "units.label_svg", "units.label_png"}
# tests/webapp/office/test_import.py has the file that this one shows.
NO_PAGES |= {"office.handed_in"}
ELSEWHERE = ("field.", "calculator.", "sync.", "pwa.")
OF_PHONES = {"accounts.own_passkeys"}


@pytest.fixture
def clock():
    return todays_clock


@pytest.fixture
def places(store, unit, phone: Phone, desk: Phone, people) -> dict[str, str]:
    """One of each thing that a page shows: records that wait, are accepted, were set aside."""
    records = []
    for number in range(2):
        visit = phone.start(unit)
        answer = receive_record(store, phone.signed_record(visit), phone.person)
        records.append(answer.sha256)
        if number == 0:
            receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    stranger = Phone(store, people["installer"])
    stranger.thumbprint = "A" * 43
    receive_record(store, stranger.signed_record(stranger.start(unit)), stranger.person)
    passkey = store.passkeys.add("cGFzc2tleQ", people["supervisor"].id, "Phone", "a2V5", 0)
    instrument = store.instruments.add(**INSTRUMENT)
    ids = {"waiting": records[1], "accepted": records[0], "unit": unit.id, "token": unit.token}
    ids |= {"site": unit.site, "person": people["installer"].id, "device": desk.thumbprint}
    return ids | {"passkey": passkey.id, "instrument": instrument.id}


INSTRUMENT = {
    "kind": "ph_meter",
    "name": "pH meter 1",
    "serial": "PH-1",
    "calibration_due": "2026-01-01",
    "unit": "1",
    "range_minimum": 0,
    "range_maximum": 14,
    "accuracy_of_reading": 0,
    "accuracy_of_range": 0,
    "digits": 0,
    "resolution": 0.01,
    "calibration_uncertainty": 0,
}


@pytest.fixture
def pages(chromium, app, sign_in) -> Iterator:
    """``pages(role)`` is a page of a narrow phone with the session of that role."""
    server = Live(app).start()
    contexts = {}

    def of(role):
        if role not in contexts:
            screen = {"width": 320, "height": 700}
            options = {"service_workers": "block", "bypass_csp": True, "base_url": server.url}
            context = chromium.new_context(viewport=screen, **options)
            if role:
                cookie = sign_in(role).get_cookie("session")
                context.add_cookies([{"name": cookie.key, "value": cookie.value, "url": server.url}])
            contexts[role] = context.new_page()
        return contexts[role]

    yield of
    for page in contexts.values():
        page.context.close()
    server.stop()


def test_the_list_holds_every_page(app):
    endpoints = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in rule.methods}
    others = {name for name in endpoints if name.startswith(ELSEWHERE)} | OF_PHONES | NO_PAGES
    assert set(PAGES) == endpoints - others


def test_no_page_scrolls_sideways_has_small_targets_or_an_accessibility_finding(pages, places):
    looked_at = {place.format(**places): role for role, place in [*PAGES.values(), *MORE]}
    found = {}
    for place, language, scheme in accessibility.in_turns(looked_at):
        role = next(role for address, role in looked_at.items() if place.startswith(f"{address}?"))
        page = pages(role)
        accessibility.show(page, place)
        assert page.get_attribute("html", "lang") == language
        if complaints := accessibility.complaints(page, scheme):
            found[place] = complaints
    assert found == {}
