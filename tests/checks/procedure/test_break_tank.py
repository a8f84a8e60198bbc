"""Levels where the maker wants them, an overflow that keeps the air gap, a supply that fails."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

METERS = (instrument("flow_meter", "L/min", 100),)
PLATE = {
    "break_tank_fitted": True,
    "break_tank_stop_level": 60,
    "break_tank_fill_level": 150,
    "break_tank_full_level": 300,
    "supply_alarm_time": 120,
}
WELL = {
    "clean": True,
    "full_level": 304,
    "fill_level": 146,
    "stop_level": 62,
    "stays_stopped": True,
    "overflow_level": 330,
    "inlet_bore": 12.7,
    "inlet_flow": 18,
    "overflow_time": 5,
    "overflow_steady": "steady",
    "air_gap": 26,
    "overflow_end": "visible",
    "screen": True,
    "alarm_time": 95,
    "alarm_clears": True,
}


TOLERANCE = {"level_tolerance": 10}


def judge(plate=None, site=TOLERANCE, **entries):
    given = {name: value for name, value in (WELL | entries).items() if value is not None}
    return verdicts("break_tank", plate=PLATE | (plate or {}), site=site, instruments=METERS, **given)


def test_a_good_tank_passes_everything():
    assert set(judge().values()) == {"pass"}


def test_without_a_break_tank_nothing_is_asked():
    assert judged("break_tank", plate={"break_tank_fitted": False})["steps"]["break_tank"]["applies"] is False
    unknown = judged("break_tank", plate={})["steps"]["break_tank"]
    assert unknown["missing"][0] == "plate.break_tank_fitted"


@pytest.mark.parametrize(
    ("level", "set_point"), [("full_level", 300), ("fill_level", 150), ("stop_level", 60)]
)
def test_each_switch_acts_within_its_tolerance(level, set_point):
    for deviation in (-10, 10):
        assert judge(**{level: set_point + deviation})[level] == "pass"
        assert judge(**{level: set_point + 1.1 * deviation})[level] == "fail"


def test_the_levels_stand_in_their_order():
    """A tolerance wider than the distance of two levels hides that they have changed places."""
    wide = {"site": {"level_tolerance": 200}}
    assert judge(**wide, stop_level=150, fill_level=150)["stop_below_fill"] == "fail"
    assert judge(**wide, fill_level=290, full_level=280)["fill_below_full"] == "fail"
    assert judge(overflow_level=304)["full_below_overflow"] == "fail"
    assert judge(overflow_level=304.5)["full_below_overflow"] == "pass"


@pytest.mark.parametrize(("bore", "gap"), [(12.7, 25.4), (9, 20), (10, 20)])
def test_the_air_gap_is_twice_the_bore_and_at_least_20_mm(bore, gap):
    """EN 13076, as quoted by an inspectorate."""
    assert judge(inlet_bore=bore, inlet_flow=5, air_gap=gap)["air_gap"] == "pass"
    assert judge(inlet_bore=bore, inlet_flow=5, air_gap=gap - 0.1)["air_gap"] == "fail"


def test_the_inlet_is_slow_enough_for_an_air_gap():
    """12.7 mm: 126.7 mm2, so 3 m/s are 22.80 L/min."""
    assert judge(inlet_flow=22.7)["inlet_velocity"] == "pass"
    assert judge(inlet_flow=22.9)["inlet_velocity"] == "fail"


def test_an_overflow_that_does_not_keep_up_or_is_not_seen_fails():
    assert judge(overflow_steady="rising")["overflow"] == "fail"
    assert judge(overflow_time=4.9)["overflow_time"] == "fail"
    assert (
        judge(overflow_end="joined")["overflow_end"] == judge(overflow_end="hidden")["overflow_end"] == "fail"
    )


def test_a_missing_supply_is_alarmed_and_the_pump_stays_off():
    assert judge(alarm_time=120)["alarm_time"] == "pass"
    assert judge(alarm_time=121)["alarm_time"] == "fail"
    assert judge(stays_stopped=False)["stays_stopped"] == "fail"
    assert judge(alarm_time=None)["alarm_time"] == "not_measured"
