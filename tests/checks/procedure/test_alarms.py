"""Alarms and interlocks: each that its part needs must work; what is optional may be absent, never broken."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

GAUGE = (instrument("pressure_gauge", "bar", 10),)
FITTED = ("reverse_osmosis", "break_tank", "reservoir", "loop", "deioniser", "degasser", "ultraviolet")
PLATE = {f"{part}_fitted": True for part in FITTED}
BARE = {f"{part}_fitted": False for part in FITTED}
MUST = {
    "low_feed_pressure": "reverse_osmosis",
    "break_tank_full": "break_tank",
    "feed_pump_dry": "break_tank",
    "reservoir_full": "reservoir",
    "reservoir_empty": "reservoir",
    "loop_pump_dry": "loop",
    "conductivity": None,
    "deioniser": "deioniser",
    "ultraviolet": "ultraviolet",
    "power": None,
}
MAY = {
    "leak": None,
    "emergency_stop": None,
    "cover": None,
    "high_pressure": "reverse_osmosis",
    "loop_pressure": "loop",
    "degasser": "degasser",
    "building_contact": None,
}
ALARMS = MUST | MAY
REST = {"list_complete": True, "noticed": True, "set_points_restored": True}
WELL = dict.fromkeys(ALARMS, "works") | REST


def judge(plate=None, **entries):
    return verdicts("alarms", plate=PLATE | (plate or {}), instruments=GAUGE, **(WELL | entries))


def test_alarms_that_work_pass():
    found = judge()
    assert set(found) == {*WELL}
    assert set(found.values()) == {"pass"}


@pytest.mark.parametrize("alarm", ALARMS)
def test_an_alarm_that_does_not_work_fails(alarm):
    assert judge(**{alarm: "works_not"})[alarm] == "fail"


@pytest.mark.parametrize("alarm", MUST)
def test_what_protects_a_part_cannot_be_absent(alarm):
    assert judge(**{alarm: "not_fitted"})[alarm] == "fail"


@pytest.mark.parametrize("alarm", MAY)
def test_what_is_optional_may_be_absent(alarm):
    assert judge(**{alarm: "not_fitted"})[alarm] == "pass"


def test_only_the_alarms_of_what_is_fitted_are_asked_for():
    entries = {name: "works" for name, part in ALARMS.items() if part is None} | REST
    found = judged("alarms", plate=BARE, **entries)["steps"]["alarms"]
    assert (found["verdict"], found["missing"]) == ("pass", [])


def test_an_alarm_that_was_not_tried_is_missing():
    entries = {name: value for name, value in WELL.items() if name != "power"}
    found = judged("alarms", plate=PLATE, **entries)["steps"]["alarms"]
    assert (found["verdict"], found["missing"]) == ("not_measured", ["alarms.power"])


@pytest.mark.parametrize("entry", REST)
def test_the_list_its_hearers_and_the_set_points_are_judged(entry):
    assert judge(**{entry: False})[entry] == "fail"


@pytest.mark.parametrize(
    ("stopped", "verdict"), [(1.31, "pass"), (1.29, "fail"), (1.69, "pass"), (1.71, "fail")]
)
def test_the_pressure_switch_acts_at_its_set_point(stopped, verdict):
    """1.5 bar and 0.2 bar either side."""
    found = judge({"feed_pressure_alarm": 1.5}, low_feed_pressure_at=stopped)
    assert found["low_feed_pressure_at"] == verdict


@pytest.mark.parametrize(("set_point", "verdict"), [(0.1, "pass"), (0.11, "fail"), ("10 Mohm cm", "pass")])
def test_the_conductivity_alarm_is_not_set_too_high(set_point, verdict):
    found = judge({"conductivity_alarm": 0.1}, conductivity_set_point=set_point)
    assert found["conductivity_set_point"] == verdict
