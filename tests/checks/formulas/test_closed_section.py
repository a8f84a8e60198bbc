"""A closed section: signs of the drift, and a leak put back into compression and drift."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

STEEL = {"outer_diameter": 18, "wall": 1, "youngs_modulus": 193, "poisson_ratio": 0.3}
STEEL |= {"expansion_coefficient": 16e-6, "temperature": 20}
PLASTIC = {"outer_diameter": 20, "wall": 1.9, "youngs_modulus": 2.0, "poisson_ratio": 0.38}
PLASTIC |= {"expansion_coefficient": 120e-6, "temperature": 20}
TUBES = st.sampled_from([STEEL, PLASTIC])


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def test_a_warming_steel_section_gains_pressure_and_a_plastic_one_loses_it():
    assert value("thermal_pressure_drift", **STEEL) > 2
    assert -1 < value("thermal_pressure_drift", **PLASTIC) < 0


def test_below_four_degrees_warming_water_shrinks():
    cold = {**STEEL, "expansion_coefficient": 0}
    assert value("thermal_pressure_drift", **{**cold, "temperature": 3.9}) < 0
    assert value("thermal_pressure_drift", **{**cold, "temperature": 4.1}) > 0


@given(TUBES, st.floats(0.1, 1000), st.floats(-2, 2), st.floats(1, 500))
def test_a_drop_that_cooling_explains_is_no_leak(tube, volume, change, duration):
    drop = -value("thermal_pressure_drift", **tube) * change
    leak = value(
        "leak_rate",
        volume=volume,
        pressure_drop=drop,
        duration=duration,
        temperature_change=change,
        absolute_pressure=5,
        **tube,
    )
    assert leak * duration == pytest.approx(0, abs=1e-9 * volume)


@given(TUBES, st.floats(0.001, 50), st.floats(1.5, 12), st.floats(0.001, 0.5))
def test_air_lets_out_what_its_expansion_by_boyle_says(tube, air, pressure, drop):
    given_ = {"volume": 8, "pressure_drop": drop, "duration": 1, "temperature_change": 0, **tube}
    with_air = value("leak_rate", air_volume=air, absolute_pressure=pressure, **given_)
    without = value("leak_rate", absolute_pressure=pressure, **given_)
    assert with_air - without == pytest.approx(air * drop / pressure, rel=1e-6)


@given(TUBES, st.floats(0.01, 3))
def test_twice_the_velocity_is_twice_the_surge(tube, velocity):
    wall = {name: tube[name] for name in ("outer_diameter", "wall", "youngs_modulus", "temperature")}
    once = value("water_hammer_pressure", velocity_change=velocity, **wall)
    assert value("water_hammer_pressure", velocity_change=2 * velocity, **wall) == pytest.approx(2 * once)


def test_a_stiffer_tube_is_hit_harder():
    soft, stiff = (
        value(
            "water_hammer_pressure",
            velocity_change=1,
            **{name: tube[name] for name in ("outer_diameter", "wall", "youngs_modulus", "temperature")},
        )
        for tube in (PLASTIC, STEEL)
    )
    assert soft < stiff / 2


@pytest.mark.parametrize("wall", [9, 9.5])
def test_a_wall_that_leaves_no_bore_is_refused(wall):
    refused = {"code": "wall_leaves_no_bore"}
    tube = {**STEEL, "wall": wall}
    assert FORMULAS["thermal_pressure_drift"].evaluate(tube).reason == refused
