"""Fluence: clear water, scaling, and the laws of absorption."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

CHAMBER = {"uvc_power": 6, "flow": 3, "inner_radius": 1.2, "outer_radius": 2.7, "length": 20}
BENCH = {"surface_irradiance": 0.2, "petri_factor": 0.94, "reflection": 0.025, "depth": 1.5, "distance": 30}
shares = st.floats(0.05, 1)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


def test_in_clear_water_the_fluence_is_power_times_path_by_flow():
    """6000 mW over 1.5 cm and 50 cm3/s."""
    assert value("annular_uv_fluence", transmittance_10mm=1, **CHAMBER) == pytest.approx(6000 * 1.5 / 50)


@given(shares)
def test_murkier_water_gets_less_and_the_absorbed_light_is_that_of_beer_and_lambert(transmittance):
    fluence = value("annular_uv_fluence", transmittance_10mm=transmittance, **CHAMBER)
    absorbance = -math.log10(transmittance)
    if absorbance > 1e-3:
        expected = 120 * (1 - 10 ** (-absorbance * 1.5)) / (absorbance * math.log(10))
        assert fluence == pytest.approx(expected, rel=1e-9)
    assert fluence <= 180 * (1 + 1e-12)


@given(st.floats(0, 1e-3))
def test_the_fluence_is_smooth_where_water_is_nearly_clear(missing):
    fluence = value("annular_uv_fluence", transmittance_10mm=1 - missing, **CHAMBER)
    assert fluence == pytest.approx(180 * (1 - 0.75 * missing), rel=2e-6)


@given(shares, st.floats(1, 500))
def test_the_length_of_the_chamber_cancels_out(transmittance, length):
    here = {**CHAMBER, "transmittance_10mm": transmittance}
    assert value("annular_uv_fluence", **{**here, "length": length}) == pytest.approx(
        value("annular_uv_fluence", **here)
    )


def test_a_sleeve_wider_than_its_chamber_is_refused():
    found = reason("annular_uv_fluence", **{**CHAMBER, "inner_radius": 2.7, "transmittance_10mm": 0.9})
    assert found == {"code": "radii_swapped"}


@given(st.floats(0.1, 20), st.floats(0, 1.5))
def test_only_a_higher_flow_changes_a_certificate(flow, sensor):
    given_ = {"certified_fluence": 40, "certified_flow": 3, "sensor_ratio": sensor}
    scaled = value("scaled_uv_fluence", flow=flow, **given_)
    assert scaled == pytest.approx(40 * sensor * min(1, 3 / flow))
    assert scaled <= 40 * sensor * (1 + 1e-12)


@given(st.floats(0.001, 2))
def test_a_dish_of_absorbing_water_gets_less_than_a_clear_one(absorbance):
    clear = value("bench_uv_irradiance", absorbance=0, **BENCH)
    assert clear == pytest.approx(0.2 * 0.94 * 0.975 * 30 / 31.5)
    assert value("bench_uv_irradiance", absorbance=absorbance, **BENCH) < clear
