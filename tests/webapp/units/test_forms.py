"""Sites, units and instruments as people enter them: nothing typed is lost, nothing empty becomes 0."""

import pytest

from webapp.units.forms import lacking

PLATE = {
    "name": "Reagent water",
    "serial": "W-18",
    "entry_water_grade": "iso_3696_2",
    "entry_maximum_pressure": ["3,5", "bar"],
    "entry_pressure_basis": "hard",
    "entry_product_flow": ["90", "L/h"],
    "entry_wetted_volume": ["12", "L"],
    "entry_flush_target": ["20", "uS/cm"],
    "entry_connection": "plug",
    "entry_rated_voltage": ["230", "V"],
    "entry_rated_current": ["2.4", "A"],
}

INSTRUMENT = {
    "kind": "pressure_gauge",
    "name": "Gauge",
    "serial": "PG-1",
    "calibration_due": "2027-03-01",
    "unit": "bar",
    "range_minimum": "0",
    "range_maximum": "6",
    "accuracy_of_range": "1,6",
    "resolution": "0.05",
    "active": "y",
}


@pytest.fixture
def site(store):
    return store.sites.add("Weir House", "Second floor", {"supply_system": {"value": "tn_s"}})


@pytest.fixture
def unit(store, site):
    pressure = {"value": 6, "typed": "6,0", "unit": "bar"}
    plate = {"water_grade": {"value": "iso_3696_2"}, "maximum_pressure": pressure}
    return store.units.add("Analyser feed", "W-17", site.id, plate)


@pytest.fixture
def office(sign_in):
    return sign_in("administrator")


def add_unit(office, site, **changes):
    return office.submit("/units/new", **{**PLATE, "site": site.id, **changes})


def errors(answer):
    page = answer.get_data(as_text=True)
    return page[page.index("error-summary") :].split("</ul>")[0] if "error-summary" in page else ""


def test_a_unit_keeps_its_plate_in_own_units_and_as_typed(office, store, site):
    answer = add_unit(office, site)
    assert answer.status_code == 303, errors(answer)
    plate = store.units.all()[0].plate
    assert plate["maximum_pressure"] == {"typed": "3,5", "unit": "bar", "value": 3.5}
    assert plate["product_flow"] == {"typed": "90", "unit": "L/h", "value": 1.5}  # 90 L in 60 minutes
    assert plate["water_grade"] == {"value": "iso_3696_2"}


def test_a_unit_typed_with_the_number_counts_before_the_one_chosen(office, store, site):
    add_unit(office, site, entry_maximum_pressure=["350 kPa", "bar"])
    assert store.units.all()[0].plate["maximum_pressure"] == {"typed": "350 kPa", "unit": "kPa", "value": 3.5}


def test_what_cannot_be_read_comes_back_as_it_was_typed(office, store, site):
    answer = add_unit(office, site, entry_maximum_pressure=['three "bar"', "bar"])
    page = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert "Maximum supply pressure" in errors(answer)
    assert 'value="three &#34;bar&#34;"' in page
    assert 'value="2.4"' in page
    assert store.units.all() == []


def test_a_number_that_can_be_read_in_two_ways_is_asked_again(office, store, site):
    assert "two ways" in errors(add_unit(office, site, entry_wetted_volume=["1,234", "L"]))


def missing(office, store):
    page = office.get(f"/units/{store.units.all()[0].id}").get_data(as_text=True)
    return page.split("still missing", 1)[-1].split("</details>")[0] if "still missing" in page else ""


def test_an_empty_number_stays_empty_and_is_asked_for_on_the_units_page(office, store, site):
    add_unit(office, site, entry_rated_current=["", "A"])
    assert "rated_current" not in store.units.all()[0].plate
    assert "Rated current" in missing(office, store)
    assert "Rated voltage" not in missing(office, store)


def test_an_entry_that_does_not_exist_for_this_grade_is_not_asked_for(office, store, site):
    assert add_unit(office, site).status_code == 303
    assert "custom_conductivity_maximum" not in store.units.all()[0].plate
    assert "Highest conductivity at 25" not in missing(office, store)


def test_an_entry_that_exists_for_this_grade_is_asked_for(office, store, site):
    add_unit(office, site, entry_water_grade="custom")
    assert "Highest conductivity at 25" in missing(office, store)


def test_what_belongs_to_something_that_is_not_fitted_is_not_asked_for():
    fitted = {"id": "pump_fitted", "label": "Pump", "required": True, "default": None, "when": None}
    condition = {"quantity": "plate.pump_fitted", "is": ["yes"], "given": None}
    flow = {**fitted, "id": "pump_flow", "label": "Flow of the pump", "when": [condition]}
    assert lacking("plate", {}, [fitted, flow]) == ["Pump"]
    assert lacking("plate", {"pump_fitted": {"value": "no"}}, [fitted, flow]) == []
    assert lacking("plate", {"pump_fitted": {"value": "yes"}}, [fitted, flow]) == ["Flow of the pump"]


def test_the_entries_stand_under_the_headings_of_their_parts(office):
    page = office.get("/units/new").get_data(as_text=True)
    assert page.index("<h3>Pressure relief</h3>") < page.index("<h3>Water quality</h3>")
    assert "&#34;entry_water_grade&#34;" in page  # the script hides what the grade leaves without a use


def test_what_is_physically_impossible_is_refused_with_the_limit(office, site):
    assert "at most 25 bar" in errors(add_unit(office, site, entry_maximum_pressure=["350", "bar"]))


def test_a_serial_number_stands_once(office, store, site):
    add_unit(office, site)
    answer = add_unit(office, site)
    assert "already has the serial number" in errors(answer)
    assert len(store.units.all()) == 1


def test_changing_a_unit_shows_and_keeps_what_was_typed(office, store, site, unit):
    page = office.get(f"/units/{unit.id}/change").get_data(as_text=True)
    assert 'value="6,0"' in page
    answer = office.submit(f"/units/{unit.id}/change", **{**PLATE, "site": site.id, "name": "New name"})
    assert answer.status_code == 303, errors(answer)
    assert store.units.get(unit.id).name == "New name"
    assert store.units.get(unit.id).token == unit.token


def test_a_site_left_at_the_usual_values_keeps_only_what_was_chosen(office, store):
    data = {
        "name": "Weir House",
        "address": "Second floor",
        "entry_supply_system": "tt",
        "entry_breaker_rating": ["16", "A"],
        "entry_supply_pressure_maximum": ["6", "bar"],
    }
    answer = office.submit("/units/sites/new", **data)
    assert answer.status_code == 303, errors(answer)
    assert set(store.sites.all()[0].values) == {"supply_system", "breaker_rating", "supply_pressure_maximum"}


def test_a_share_typed_in_per_cent_is_kept_as_a_share(office, store, site):
    data = {
        "name": site.name,
        "entry_supply_system": "tn_s",
        "entry_breaker_rating": ["16", "A"],
        "entry_supply_pressure_maximum": ["6", "bar"],
        "entry_rest_ratio": ["80", "%"],
    }
    assert office.submit(f"/units/sites/{site.id}/change", **data).status_code == 303
    assert store.sites.get(site.id).values["rest_ratio"]["value"] == pytest.approx(0.8)


def test_an_instrument_keeps_its_accuracy_as_shares(office, store):
    answer = office.submit("/units/instruments/new", **INSTRUMENT)
    assert answer.status_code == 303, errors(answer)
    made = store.instruments.all()[0]
    assert made.accuracy_of_range == pytest.approx(0.016)
    assert (made.range_minimum, made.range_maximum, made.accuracy_of_reading) == (0, 6, 0)
    assert made.calibration_due == "2027-03-01"


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("unit", "furlong", "not a known unit"),
        ("range_maximum", "-1", "greater than"),
        ("calibration_due", "next spring", "must be a date"),
        ("resolution", "-0.1", "at least 0"),
        ("name", " ", "Enter: Name of the instrument"),
    ],
)
def test_what_an_instrument_cannot_be_is_said_at_its_field(office, store, field, typed, sentence):
    assert sentence in errors(office.submit("/units/instruments/new", **{**INSTRUMENT, field: typed}))
    assert store.instruments.all() == []


def test_changing_an_instrument_shows_per_cent_again(office, store):
    office.submit("/units/instruments/new", **INSTRUMENT)
    page = office.get(f"/units/instruments/{store.instruments.all()[0].id}/change").get_data(as_text=True)
    assert 'value="1.6"' in page
    assert 'value="2027-03-01"' in page


@pytest.mark.parametrize("role", ["installer", "supervisor", "quality"])
@pytest.mark.parametrize("path", ["/units/new", "/units/sites/new", "/units/instruments/new"])
def test_only_an_administrator_adds(sign_in, role, path):
    assert sign_in(role).get(path).status_code == 403
    assert sign_in(role).post(path, data={}).status_code == 403


@pytest.mark.parametrize("role", ["installer", "supervisor", "quality", "administrator"])
@pytest.mark.parametrize(
    "path", ["/units", "/units/sites", "/units/instruments", "/units/UNIT", "/units/UNIT/label"]
)
def test_everybody_who_is_signed_in_may_look(sign_in, unit, role, path):
    answer = sign_in(role).get(path.replace("UNIT", unit.id))
    assert answer.status_code == 200
    assert ("/units/new" in answer.get_data(as_text=True)) == (role == "administrator" and path == "/units")


def test_strangers_are_sent_to_sign_in(client, unit):
    assert client.get(f"/units/{unit.id}").status_code == 303


@pytest.mark.parametrize(("words", "found"), [("analyser", True), ("w-17 weir", True), ("pump", False)])
def test_units_are_found_by_words_in_name_serial_and_site(sign_in, unit, words, found):
    page = sign_in("installer").get("/units", query_string={"q": words}).get_data(as_text=True)
    assert (f"/units/{unit.id}" in page) == found


def test_the_short_code_leads_to_the_unit(sign_in, unit):
    code = f" {unit.short_code[:4].lower()}-{unit.short_code[4:]}"
    answer = sign_in("installer").get("/units", query_string={"q": code})
    assert answer.headers["Location"].endswith(unit.id)
