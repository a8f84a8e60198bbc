"""A value that the plate has and the office has not: given at the unit without signal, signed, received."""

import copy

import pytest
from playwright.sync_api import expect

from checks.procedure import procedure_hash
from tests import browser
from tests import phone as trial
from tests.journeys.navigators import Installer
from tests.static.cellar import PASSWORD, SEND, Phone
from webapp.office import papers

pytestmark = [
    pytest.mark.browser,
    pytest.mark.timeout(300),
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]
VISIT = "5b8c0f5e-6f0a-4f58-9a57-0d6a3f1c2b11"


def limited_by_the_plate():
    """The trial procedure with one more rule: the pressure is at most what the plate says."""
    procedure = copy.deepcopy(trial.PROCEDURE)
    procedure["plate"][0]["required"] = True
    (step,) = procedure["steps"]
    limit = {**step["rules"][0], "id": "pressure", "kind": "limit", "label": "Pressure", "entry": None}
    limit |= {"reading": "test.pressure", "upper": "plate.maximum_pressure", "decision": "simple", "is": None}
    step["rules"].append(limit)
    return procedure


@pytest.fixture
def limited(cellar):
    """The application with a visit by that procedure."""
    store, procedure = cellar.store, limited_by_the_plate()
    store.procedures.keep(procedure)
    named = {"id": procedure["id"], "version": procedure["version"], "hash": procedure_hash(procedure)}
    (unit,), (person,) = store.units.all(), store.people.all()
    begun = {"procedure": named, "started_at": "2026-11-25T09:00:00.000Z", "started_by": person.id}
    store.visits.start(VISIT, unit=unit.id, kind="commissioning", **begun)
    return cellar


@pytest.fixture
def phone(chromium, limited):
    """A prepared phone in a cellar without signal."""
    expect.set_options(timeout=60_000)
    phone = Phone(chromium.new_context(**browser.PHONE), limited)
    phone.context.set_default_timeout(60_000)
    errors = []
    phone.page.on("pageerror", lambda error: errors.append(str(error)))
    phone.sign_in()
    assert "ready for offline work" in phone.prepare(PASSWORD)
    limited.stop()
    yield phone
    assert errors == []
    phone.context.close()


def give_the_missing_value(installer):
    """From what keeps the step from being done to the input, and back."""
    page = installer.page
    page.get_by_role("button", name="Mark this step done").click()
    page.get_by_role("link", name="Not entered yet: Maximum pressure (data plate)").click()
    expect(page.locator("#entry_plate_maximum_pressure")).to_be_focused()
    installer.fill("Maximum pressure", "7")
    expect(page.get_by_role("heading", name="Nothing is missing")).to_be_visible()
    expect(page.locator("[data-unsaved]")).to_have_count(0)
    installer.open_visit(VISIT)
    installer.open_step("Test")


def test_a_missing_plate_value_is_given_without_signal_and_reaches_the_office(phone, cellar):
    page, installer = phone.page, Installer(phone.page, cellar.url)
    installer.open_visit(VISIT)
    expect(page.get_by_text("one value is missing for the steps")).to_be_visible()
    installer.open_step("Test")
    installer.fill("Pressure", "6.5")
    installer.fill("No drop in ten minutes", "Yes")
    give_the_missing_value(installer)
    assert installer.verdict("Pressure") == "Pass"
    installer.mark_done()
    installer.open_review(VISIT)
    expect(page.get_by_text("Maximum pressure: 7 bar read at the unit")).to_be_visible()
    installer.sign(PASSWORD)

    cellar.start()
    assert phone.run(SEND)["state"] == "done"
    record = cellar.store.records.get(cellar.store.visits.get(VISIT).record)
    assert (record.state, [one["code"] for one in record.reasons]) == ("signed", ["plate_read_at_unit"])
    with cellar.app.test_request_context():
        (row,) = papers.sheet_of(record)["plate"]
    note = "Read at the unit; the office had no value"
    assert row == {"label": "Maximum pressure", "value": "7\xa0bar", "note": note}
