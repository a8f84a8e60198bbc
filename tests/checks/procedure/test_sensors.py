"""Sensors against references: same water, same compensation, the reference's uncertainty counted."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

INSTRUMENTS = (
    instrument("conductivity_meter", "uS/cm", 2000),
    instrument("thermometer", "degC", 100),
    instrument("pressure_gauge", "bar", 10),
    instrument("measuring_vessel", "L", 10),
)
PLATE = {"reverse_osmosis_fitted": True, "loop_fitted": True, "maximum_pressure": 3.0}
WELL = {
    "permeate_cell": "compared",
    "product_cell": "compared",
    "loop_cell": "compared",
    "same_water": True,
    "same_mode": True,
    "permeate_shown": 14.3,
    "permeate_reference": 14.0,
    "product_shown": 0.066,
    "product_reference": 0.065,
    "loop_shown": 0.081,
    "loop_reference": 0.080,
    "temperature_sensor": "compared",
    "temperature_shown": 22.4,
    "temperature_reference": 22.0,
    "pressure_sensor": "compared",
    "pressure_shown": 2.05,
    "pressure_reference": 2.0,
    "flow_sensor": "compared",
    "flow_shown": 4.1,
    "flow_volume": 2,
    "flow_time": 30,
}


def judge(plate=None, site=None, instruments=INSTRUMENTS, **entries):
    plate = PLATE | (plate or {})
    return verdicts("sensors", plate=plate, site=site, instruments=instruments, **(WELL | entries))


def test_sound_sensors_pass_everything():
    assert set(judge().values()) == {"pass"}


def test_a_cell_is_asked_for_where_its_part_is_fitted():
    found = judge({"reverse_osmosis_fitted": False, "loop_fitted": False})
    assert "permeate_cell_agrees" not in found
    assert "loop_cell_agrees" not in found
    assert found["product_cell_agrees"] == "pass"


def test_what_is_not_shown_is_not_compared():
    absent = {"temperature_sensor": "none", "pressure_sensor": "none", "flow_sensor": "none"}
    entries = {
        name: value for name, value in WELL.items() if name.rpartition("_")[0] not in ("flow", "pressure")
    }
    found = judged("sensors", plate=PLATE, instruments=INSTRUMENTS, **(entries | absent))["steps"]["sensors"]
    assert (found["verdict"], found["missing"]) == ("pass", [])


def test_a_comparison_without_its_reference_is_not_measured():
    entries = {name: value for name, value in WELL.items() if name != "product_reference"}
    found = judged("sensors", plate=PLATE, instruments=INSTRUMENTS, **entries)["steps"]["sensors"]
    assert (found["verdict"], found["missing"]) == ("not_measured", ["sensors.product_reference"])


@pytest.mark.parametrize("cell", ["permeate", "product", "loop"])
@pytest.mark.parametrize(
    ("ratio", "verdict"), [(1.049, "pass"), (1.051, "fail"), (0.951, "pass"), (0.949, "fail")]
)
def test_a_cell_lies_within_5_per_cent(cell, ratio, verdict):
    shown = WELL[f"{cell}_reference"] * ratio
    assert judge(**{f"{cell}_shown": shown})[f"{cell}_cell_agrees"] == verdict


def test_a_display_in_resistivity_is_compared_as_conductivity():
    """1 / 16 is 0.0625 uS/cm, 3.8 % below 0.065; 1 / 16.3 is 5.6 % below."""
    assert judge(product_shown="16 Mohm cm")["product_cell_agrees"] == "pass"
    assert judge(product_shown="16.3 Mohm cm")["product_cell_agrees"] == "fail"


def test_a_coarse_reference_leaves_it_undecided():
    """2 % of 14.0: U = 2 x 0.28 / root 3 = 0.323, and 5 % of 14.0 is 0.70: passes to 0.377 only."""
    meter = instrument("conductivity_meter", "uS/cm", 2000, accuracy_of_reading=0.02)
    coarse = (meter, *INSTRUMENTS[1:])
    for shown, verdict in ((14.37, "pass"), (14.39, "conditional_pass"), (15.03, "fail")):
        found = judge(instruments=coarse, permeate_shown=shown)["permeate_cell_agrees"]
        assert found == verdict


@pytest.mark.parametrize(
    ("shown", "verdict"), [(22.99, "pass"), (23.01, "fail"), (21.01, "pass"), (20.99, "fail")]
)
def test_the_temperature_lies_within_one_degree(shown, verdict):
    assert judge(temperature_shown=shown)["temperature_agrees"] == verdict


@pytest.mark.parametrize(
    ("shown", "verdict"), [(2.119, "pass"), (2.121, "fail"), (1.881, "pass"), (1.879, "fail")]
)
def test_the_pressure_lies_within_4_per_cent_of_the_plates_maximum(shown, verdict):
    """4 % of 3.0 bar: 0.12 bar."""
    assert judge(pressure_shown=shown)["pressure_agrees"] == verdict


@pytest.mark.parametrize(
    ("shown", "verdict"), [(4.39, "pass"), (4.41, "fail"), (3.61, "pass"), (3.59, "fail")]
)
def test_the_flow_is_compared_with_a_volume_caught(shown, verdict):
    """2 L in 30 s are 4 L/min, 10 % of it 0.4."""
    assert judge(flow_shown=shown)["flow_agrees"] == verdict


def test_a_flow_timed_too_shortly_is_pointed_out_and_fails_nothing():
    found = judge(flow_volume=1, flow_time=15)
    assert (found["timed_long_enough"], found["flow_agrees"]) == ("fail", "pass")


@pytest.mark.parametrize("entry", ["same_water", "same_mode"])
def test_a_comparison_of_two_waters_or_two_curves_fails(entry):
    assert judge(**{entry: False})[entry] == "fail"


def test_a_product_without_a_cell_fails():
    assert judge(product_cell="none")["product_cell"] == "fail"
