"""The ultraviolet lamp: fluence certified or estimated, hours, sensor, and who may see the light."""

import math
from datetime import date

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

METER = (instrument("flow_meter", "L/min", 100),)
CERTIFIED = {
    "ultraviolet_fitted": True,
    "ultraviolet_lamp": "254",
    "ultraviolet_fluence_basis": "certificate",
    "uv_certified_fluence": 50,
    "uv_certified_flow": 4,
    "uv_certified_transmittance": 0.95,
    "uv_lamp_life": 9000,
    "ultraviolet_sensor": True,
    "uv_sensor_minimum": 0.7,
}
GEOMETRY = {
    "ultraviolet_fitted": True,
    "ultraviolet_lamp": "254",
    "ultraviolet_fluence_basis": "geometry",
    "uv_power": 6,
    "uv_sleeve_radius": 1.2,
    "uv_chamber_radius": 2.7,
    "uv_length": 20,
    "uv_lamp_life": 9000,
}
WELL = {
    "lamp": "254",
    "lamp_state": "in_use",
    "lamp_lot": "L-3",
    "sleeve_clean": True,
    "interlock": True,
    "light_tight": True,
    "water_first": True,
    "failure_shown": True,
    "flow": 4,
    "lamp_fitted_on": "2026-11-25",
    "lamp_hours": 0,
    "read_on": "2026-11-25",
}
SENSOR = {"sensor_ratio": 0.95}


def judge(plate=CERTIFIED, site=None, baseline=None, **entries):
    sensor = SENSOR if plate.get("ultraviolet_sensor") else {}
    return verdicts(
        "ultraviolet",
        plate=plate,
        site=site,
        baseline=baseline,
        instruments=METER,
        **(WELL | sensor | entries),
    )


@pytest.mark.parametrize("plate", [CERTIFIED, GEOMETRY])
def test_a_sound_lamp_passes_everything(plate):
    assert set(judge(plate).values()) == {"pass"}


def test_without_a_lamp_the_step_drops_out():
    found = judged("ultraviolet", plate={"ultraviolet_fitted": False})
    assert found["steps"]["ultraviolet"]["state"] == "not_applicable"


def test_what_was_not_read_is_missing():
    found = judged("ultraviolet", plate=CERTIFIED, instruments=METER, **WELL)["steps"]["ultraviolet"]
    assert (found["verdict"], found["missing"]) == ("not_measured", ["ultraviolet.sensor_ratio"])


@pytest.mark.parametrize(
    ("flow", "sensor", "verdict"),
    [(4, 0.801, "pass"), (4, 0.799, "fail"), (4.1, 0.801, "fail"), (2, 0.799, "fail")],
)
def test_a_certificate_is_scaled_by_flow_and_sensor(flow, sensor, verdict):
    """50 mJ/cm2 at 4 L/min and 80 % are the required 40; a lower flow is not credited."""
    assert judge(flow=flow, sensor_ratio=sensor)["fluence_certified"] == verdict


def test_without_a_sensor_the_end_of_the_lamps_life_counts():
    """0.8 x 0.9 = 0.72: 40 mJ/cm2 need a certificate of 55.56."""
    for certified, verdict in ((55.6, "pass"), (55.5, "fail")):
        plate = CERTIFIED | {"ultraviolet_sensor": False, "uv_certified_fluence": certified}
        assert judge(plate)["fluence_certified"] == verdict


def test_water_less_clear_than_the_certificate_fails():
    assert judge(site={"uv_transmittance": 0.95})["transmittance"] == "pass"
    assert judge(site={"uv_transmittance": 0.949})["transmittance"] == "fail"


def test_an_estimate_is_taken_with_age_sleeve_and_uneven_flow_off():
    """Beer and Lambert, radial: P (1 - T^1.5) / (-ln T x Q), path 1.5 cm; 0.8 x 0.9 x 0.5 are left."""
    per_flow = 1000 * 6 * (1 - 0.98**1.5) / -math.log(0.98) * 60 / 1000
    limit = per_flow * 0.8 * 0.9 * 0.5 / 40
    for flow, verdict in ((0.999 * limit, "pass"), (1.001 * limit, "fail")):
        assert judge(GEOMETRY, {"uv_transmittance": 0.98}, flow=flow)["fluence_estimated"] == verdict


def test_a_site_may_ask_for_more():
    assert judge(site={"uv_fluence_minimum": "400 J/m2"})["fluence_certified"] == "pass"
    assert judge(site={"uv_fluence_minimum": "480 J/m2"})["fluence_certified"] == "fail"


@pytest.mark.parametrize(
    ("plate", "marked", "rule"), [("254", "185", "lamp_254"), ("185", "254", "lamp_185")]
)
def test_the_two_wavelengths_are_not_mixed_up(plate, marked, rule):
    assert judge(CERTIFIED | {"ultraviolet_lamp": plate}, lamp=marked)[rule] == "fail"


def test_no_fluence_is_asked_of_a_lamp_against_organic_carbon():
    plate = {"ultraviolet_fitted": True, "ultraviolet_lamp": "185", "uv_lamp_life": 9000}
    found = judge(plate, lamp="185")
    assert set(found.values()) == {"pass"}
    assert not [name for name in found if name.startswith("fluence")]


def test_the_lamp_is_within_its_life_and_has_a_date():
    assert judge(lamp_hours=9000)["lamp_hours"] == "pass"
    assert judge(lamp_hours=9001)["lamp_hours"] == "fail"
    found = judged("ultraviolet", plate=CERTIFIED, instruments=METER, **(WELL | SENSOR))["quantities"]
    due = date(2026, 11, 25).toordinal() + 375 - date(1970, 1, 1).toordinal()
    assert found["ultraviolet.change_on"]["value"] == due, "9000 h by 24 h a day"


def test_the_sensor_is_judged_by_its_alarm_and_by_the_accepted_record():
    assert judge(sensor_ratio=0.70)["sensor"] == "pass"
    assert judge(sensor_ratio=0.69)["sensor"] == "fail"
    accepted = {"uv_sensor_ratio": 1.0}
    assert judge(baseline=accepted, sensor_ratio=0.81)["sensor_baseline"] == "pass"
    assert judge(baseline=accepted, sensor_ratio=0.79)["sensor_baseline"] == "fail"


@pytest.mark.parametrize(
    "entry", ["sleeve_clean", "interlock", "light_tight", "water_first", "failure_shown"]
)
def test_what_is_looked_at_can_fail(entry):
    assert judge(**{entry: False})[entry] == "fail"


def test_a_lamp_without_flow_fails():
    assert judge(flow=0)["flow"] == "fail"
