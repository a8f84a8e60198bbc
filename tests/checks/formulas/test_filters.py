"""Filters: surface tension as printed, proportions put back, and what a test cannot see."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.floats(0, 99), st.floats(0.1, 1))
def test_warmer_water_has_less_surface_tension(temperature, warmer):
    cold, warm = (value("surface_tension", temperature=one) for one in (temperature, temperature + warmer))
    assert warm < cold


def test_the_bubble_point_follows_the_surface_tension():
    """IAPWS R1-76 prints 72.74 mN/m at 20 degC and 69.60 at 40."""
    found = value("bubble_point_at_temperature", bubble_point=3.45, reference_temperature=20, temperature=40)
    assert found == pytest.approx(3.45 * 69.60 / 72.74, rel=2e-4)


def test_a_higher_pressure_finds_smaller_defects():
    low, high = (value("smallest_defect", pressure=one, temperature=20) for one in (1, 2))
    assert low == pytest.approx(2.91, abs=0.005), "4 x 0.07274 N/m / 1e5 Pa"
    assert high == pytest.approx(low / 2)


def test_without_pressure_nothing_is_found():
    assert (
        FORMULAS["smallest_defect"].evaluate({"pressure": 0, "temperature": 20}).reason["code"]
        == "outside_range"
    )


def test_a_pressure_drop_is_scaled_by_flow_and_viscosity():
    """IAPWS SR6-08 prints 1.3059 mPa s at 10 degC and 0.8900 at 25."""
    found = value(
        "filter_pressure_drop",
        pressure_drop=0.4,
        flow=8,
        temperature=10,
        reference_flow=10,
        reference_temperature=25,
    )
    assert found == pytest.approx(0.4 * 10 / 8 * 0.8900 / 1.3059, rel=1e-4)


@given(st.floats(0.01, 5), st.floats(0.1, 100), st.floats(1, 60))
def test_at_the_reference_itself_the_pressure_drop_stays(drop, flow, temperature):
    at = {
        "flow": flow,
        "temperature": temperature,
        "reference_flow": flow,
        "reference_temperature": temperature,
    }
    assert value("filter_pressure_drop", pressure_drop=drop, **at) == pytest.approx(drop)
