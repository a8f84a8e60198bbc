"""The scenario: complete, the same at every start, and with the cases that a demonstration is for."""

from datetime import UTC, datetime, timedelta

import pytest

from checks import procedure as procedures
from checks.engine import judge
from webapp import passwords
from webapp.demo import seed
from webapp.demo.seed import key_of
from webapp.rights import ROLES
from webapp.store import Store

NOW = datetime(2026, 11, 25, 10, tzinfo=UTC)


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    store = Store(tmp_path_factory.mktemp("demo") / "demo.db", lambda: NOW)
    seed(store, lambda: NOW)
    yield store
    store.close()


@pytest.fixture(scope="module")
def sign_ins(store):
    return seed(store, lambda: NOW)


def test_everybody_can_sign_in_and_every_role_is_there(store, sign_ins):
    assert {one.role for one in sign_ins} == set(ROLES)
    for one in sign_ins:
        assert passwords.check(store, one.login, one.password).name == one.name


def test_the_passwords_are_ones_that_the_rules_allow(store, sign_ins):
    for one in sign_ins:
        assert passwords.weakness(one.password, store.people.by_login(one.login)) is None


def test_seeding_again_changes_nothing(store, sign_ins):
    before = (store.records.all(), store.units.all(), store.people.all(), store.audit.newest(1))
    assert seed(store, lambda: NOW + timedelta(days=3)) == sign_ins
    assert (store.records.all(), store.units.all(), store.people.all(), store.audit.newest(1)) == before


def test_one_commissioning_is_finished_and_countersigned_in_the_past(store):
    first = store.records.of_unit(key_of("unit", "analyser_feed"))[-1]
    assert (first.verdict, first.state, first.reasons) == ("pass", "accepted", [])
    state = store.listing.unit_state(key_of("unit", "analyser_feed"))
    assert state.accepted_on < NOW.date().isoformat() < state.next_service
    assert store.quarantine.all() == []


def test_its_service_was_compared_with_it_and_found_the_membranes_worse(store):
    """49.3 instead of 56 L/h and 18.5 instead of 14.2 uS/cm at the same pressure and temperature."""
    (service, first) = store.records.of_unit(key_of("unit", "analyser_feed"))
    content = service.content()
    assert content["unit"]["baseline"]["record"] == content["previous"] == first.sha256
    assert (service.verdict, service.state) == ("conditional_pass", "accepted_with_conditions")
    rules = content["judgement"]["rules"]
    for name in ("flow_cleaning", "passage_cleaning"):
        assert rules[f"reverse_osmosis.{name}"]["verdict"] == "fail"
    assert content["judgement"]["steps"]["reverse_osmosis"]["defects"][0]["severity"] == "major"


def test_one_visit_is_in_work_and_has_begun_at_the_membranes(store):
    (visit,) = store.visits.of_unit(key_of("unit", "reagent_water"))
    fields = [event.field for event in store.events.of_visit(visit.id)]
    done = [field.removesuffix("#done") for field in fields if field.endswith("#done")]
    assert (done[0], done[-1], len(done)) == ("survey", "flush", 13)
    assert "reverse_osmosis.feed_pressure" in fields


def test_one_record_waits_with_a_result_that_is_still_to_come(store):
    (listed,) = store.listing.queue()
    assert (listed.verdict, listed.state) == ("conditional_pass", "signed")
    rules = store.records.get(listed.sha256).content()["judgement"]["rules"]
    assert [name for name, rule in rules.items() if rule["verdict"] == "pending"] == [
        "quality.colony_count_type"
    ]


def test_the_store_is_sound(store):
    assert store.check() == []


def test_the_record_holds_a_corrected_value_a_note_and_a_photo(store):
    record = store.records.of_unit(key_of("unit", "analyser_feed"))[-1]
    events = record.content()["events"]
    assert any(event["replaces"] and event["reason"] for event in events)
    assert any(event["field"].endswith("#note") for event in events)
    assert store.photos.all()


def test_the_units_differ_in_grade_and_in_what_their_pressure_means(store):
    plates = [unit.plate for unit in store.units.all()]
    assert len({plate["water_grade"]["value"] for plate in plates}) == 4
    assert {plate["pressure_basis"]["value"] for plate in plates} == {"hard", "ps"}


def test_one_instrument_is_overdue(store):
    overdue = [one.name for one in store.instruments.all() if one.calibration_due < NOW.date().isoformat()]
    assert len(overdue) == 1


def relief(store, unit, rest, opening):
    """The judgement of the relief step for readings with the good gauge."""
    found = store.units.get(key_of("unit", unit))
    gauge = store.instruments.get(key_of("instrument", "pressure_gauge"))
    instruments = {gauge.id: gauge.as_json()}
    at = "2026-11-25T10:00:00.000Z"

    def measured(value):
        return {"value": value, "unit": "bar", "instrument": gauge.id, "at": at}

    entries = {
        "relief.valve_family": {"value": "iso_4126"},
        "relief.valve_height": {"value": 1.2, "unit": "m"},
        "supply.lock_up_pressure": measured(rest),
        "relief.opening_pressure": measured(opening),
    }
    site = store.sites.get(found.site).values
    case = {"plate": found.plate, "site": site, "instruments": instruments, "entries": entries, "steps": {}}
    return judge(procedures.load("commissioning"), case)["rules"]["relief.opening_pressure"]


def test_the_low_pressure_unit_has_no_valid_relief_setting(store):
    """ISO 4126-1:2013: set pressure within 3 % or 0.1 bar, overpressure 10 %, blowdown 20 % or 0.6 bar.

    By hand: at most (2.0 - 0.1176) / 1.1 - 0.1 = 1.611 bar, at least 1.3 + 0.1 + 0.6 + 0.1 = 2.1 bar.
    """
    rule = relief(store, "low_pressure", 1.3, 1.8)
    assert rule["verdict"] == "no_valid_setting"
    assert rule["upper"] == pytest.approx(1.611, abs=0.002)
    assert rule["lower"] == pytest.approx(2.1, abs=0.005)


def test_a_valve_of_two_and_a_half_bar_fits_the_unit_that_must_never_see_more_than_three(store):
    """ISO 4126-1:2013 as above.

    By hand: at most (3.0 - 0.1176) / 1.1 - 0.1 = 2.520 bar, at least 1.6 + 0.1 + 0.6 + 0.1 = 2.4 bar.
    """
    rule = relief(store, "reagent_water", 1.6, 2.46)
    assert rule["verdict"] == "pass"
    assert rule["upper"] == pytest.approx(2.520, abs=0.001)
    assert rule["lower"] == pytest.approx(2.400, abs=0.001)
