"""The reservoir: levels at their set points, an overflow that passes the inflow, a vent that breathes."""

from datetime import date

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

METER = (instrument("flow_meter", "L/min", 100),)
PLATE = {
    "reservoir_fitted": True,
    "product_flow": 2,
    "reservoir_dry_level": 100,
    "reservoir_restart_level": 400,
    "reservoir_full_level": 800,
    "reservoir_overflow_level": 850,
    "reservoir_lid_level": 920,
    "reservoir_working_volume": 40,
    "vent_rated_flow": 50,
    "vent_rated_drop": 10,
}
WELL = {
    "clean": True,
    "closed": True,
    "restart_level": 402,
    "fill_held": True,
    "full_level": 798,
    "fill_tight": True,
    "dry_level": 103,
    "overflow_level": 850,
    "fill_time": 1200,
    "inflow": 20,
    "overflow_bore": 32,
    "overflow_tried": True,
    "overflow_protection": "both",
    "overflow_visible": True,
    "vent_rating": "fine",
    "vent_dry": True,
    "vent_lot": "V-12",
    "vent_fitted_on": "2026-11-25",
    "largest_draw": 30,
    "carbon_dioxide_trap": "none",
}


def judge(plate=None, **entries):
    return verdicts("reservoir", plate=PLATE | (plate or {}), instruments=METER, **(WELL | entries))


def test_a_sound_reservoir_passes_everything():
    assert set(judge().values()) == {"pass"}


def test_without_a_reservoir_the_step_drops_out():
    found = judged("reservoir", plate={"reservoir_fitted": False})
    assert found["steps"]["reservoir"]["state"] == "not_applicable"


def test_nothing_entered_is_not_measured():
    found = judged("reservoir", plate=PLATE)["steps"]["reservoir"]
    assert found["verdict"] == "not_measured"
    assert {"reservoir.full_level", "reservoir.vent_lot", "reservoir.inflow"} <= set(found["missing"])


@pytest.mark.parametrize(
    ("level", "at_limit", "outside"),
    [("restart", 415, 416), ("full", 785, 784), ("dry", 85, 84), ("overflow", 865, 866)],
)
def test_a_level_lies_within_15_mm_of_its_set_point(level, at_limit, outside):
    assert judge(**{f"{level}_level": at_limit})[f"{level}_level"] == "pass"
    assert judge(**{f"{level}_level": outside})[f"{level}_level"] == "fail"


def test_the_levels_stand_in_their_order():
    assert judge(full_level=850)["overflow_reserve"] == "fail"
    assert judge(full_level=849)["overflow_reserve"] == "pass"
    assert judge(restart_level=798)["restart_below_full"] == "fail"
    assert judge(dry_level=402)["dry_below_restart"] == "fail"


def test_the_overflow_passes_what_a_stuck_valve_lets_in():
    """32 mm, 920 - 850 - 16 = 54 mm above its axis: 0.6 x 8.0425e-4 m2 x 1.02914 m/s is 29.80 L/min."""
    assert judge(inflow=29.7)["overflow_capacity"] == "pass"
    assert judge(inflow=29.9)["overflow_capacity"] == "fail"


@pytest.mark.parametrize(
    ("seconds", "verdict"), [(1010, "pass"), (990, "fail"), (1490, "pass"), (1510, "fail")]
)
def test_the_filling_rate_is_put_beside_the_design_flow(seconds, verdict):
    """40 L at 2 L/min take 1200 s; 20 % more or less flow takes 1000 or 1500 s."""
    assert judge(fill_time=seconds)["fill_flow"] == verdict


def test_a_slow_filling_is_information_and_fails_nothing():
    found = judged("reservoir", plate=PLATE, instruments=METER, **(WELL | {"fill_time": 3000}))
    assert found["rules"]["reservoir.fill_flow"]["verdict"] == "fail"
    assert found["steps"]["reservoir"]["verdict"] == "pass"


def test_the_vent_filter_lets_in_what_is_drawn():
    """10 mbar at 50 L/min are 20 mbar at 100 L/min, what a thin tank stands."""
    assert judge(largest_draw=99)["vacuum"] == "pass"
    assert judge(largest_draw=101)["vacuum"] == "fail"
    assert judge({"reservoir_pressure_maximum": 5})["vacuum"] == "fail"


def test_a_vent_filter_without_data_is_not_computed():
    plate = {name: value for name, value in PLATE.items() if not name.startswith("vent_")}
    entries = {name: value for name, value in WELL.items() if name != "largest_draw"}
    found = judged("reservoir", plate=plate, instruments=METER, **entries)
    assert found["rules"]["reservoir.vacuum"]["verdict"] == "not_applicable"
    assert found["steps"]["reservoir"]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("entry", "bad"),
    [
        ("clean", False),
        ("closed", False),
        ("fill_held", False),
        ("fill_tight", False),
        ("overflow_tried", False),
        ("overflow_protection", "none"),
        ("overflow_visible", False),
        ("vent_rating", "coarse"),
        ("vent_rating", "missing"),
        ("vent_dry", False),
        ("carbon_dioxide_trap", "used"),
    ],
)
def test_what_is_looked_at_can_fail(entry, bad):
    found = judge(**{entry: bad})
    assert [name for name, verdict in found.items() if verdict != "pass"] == [entry]


def test_the_vent_filter_is_due_a_year_later():
    due = judged("reservoir", plate=PLATE, instruments=METER, **WELL)["quantities"][
        "reservoir.vent_change_on"
    ]
    assert due["value"] == (date(2027, 11, 25) - date(1970, 1, 1)).days
