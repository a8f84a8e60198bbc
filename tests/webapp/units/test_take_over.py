"""Values that were read at a unit are taken over by a person who saw them, and never by themselves."""

import re

import html5lib
import pytest

from webapp.receiving import receive_decision, receive_record

CELL = {"value": 6, "typed": "6", "unit": "bar"}


@pytest.fixture
def accepted(store, phone, desk, unit):
    """A record in which somebody read 6 bar on the plate, where the office had 5."""
    change(store, unit, {"maximum_pressure": {"value": 5, "unit": "bar"}, "other": {"value": 1}})
    visit = phone.start(unit)
    read = phone.event(visit.id, "plate.maximum_pressure", CELL)
    answer = receive_record(store, phone.signed_record(visit, [read, *phone.entries(visit.id)]), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    return answer.sha256


def change(store, unit, plate):
    return store.units.change(unit.id, name=unit.name, serial=unit.serial, site=unit.site, plate=plate)


def form_of(client, unit):
    page = html5lib.parse(client.get(f"/units/{unit.id}").text, namespaceHTMLElements=False)
    forms = [one for one in page.iterfind(".//form") if one.get("action", "").endswith("/take-over")]
    return {one.get("name"): one.get("value") for form in forms for one in form.iterfind(".//input")}


@pytest.mark.parametrize("role", ["supervisor", "administrator"])
def test_a_button_takes_the_list_over_and_the_trail_says_what_it_replaced(
    store, unit, accepted, sign_in, role
):
    client = sign_in(role)
    answer = client.post(f"/units/{unit.id}/take-over", data=form_of(client, unit), follow_redirects=True)
    assert "Taken over into the data plate" in answer.text
    assert store.units.get(unit.id).plate == {"maximum_pressure": CELL, "other": {"value": 1}}
    noted = store.audit.of(unit.id)[-1]
    assert noted.action == "values_taken_over"
    assert noted.details == {"record": accepted, "plate_maximum_pressure": "5 bar -> 6 bar"}
    assert form_of(client, unit) == {}


def test_what_changed_since_the_page_was_opened_is_not_overwritten(store, unit, accepted, sign_in):
    client = sign_in("supervisor")
    form = form_of(client, unit)
    change(store, unit, {"maximum_pressure": {"value": 4, "unit": "bar"}})
    answer = client.post(f"/units/{unit.id}/take-over", data=form, follow_redirects=True)
    assert "nothing was taken over" in answer.text
    assert store.units.get(unit.id).plate["maximum_pressure"]["value"] == 4


def test_an_installer_sees_the_values_and_has_no_button(unit, accepted, sign_in):
    text = sign_in("installer").get(f"/units/{unit.id}").text
    assert "Maximum pressure: 6 bar (the office had 5 bar)" in text
    assert "Take these values over" not in text


def test_the_record_shows_the_value_that_counted_with_the_offices_beside_it(accepted, sign_in):
    text = sign_in("quality").get(f"/office/records/{accepted}").text
    assert re.search(r"Read at the unit; the office had 5\sbar", text)
    assert "take them over on the unit's page" in text


def test_nothing_is_offered_before_the_acceptance(store, phone, unit, sign_in):
    visit = phone.start(unit)
    read = phone.event(visit.id, "plate.maximum_pressure", CELL)
    receive_record(store, phone.signed_record(visit, [read, *phone.entries(visit.id)]), phone.person)
    assert form_of(sign_in("supervisor"), unit) == {}
