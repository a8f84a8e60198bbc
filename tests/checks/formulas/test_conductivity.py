"""Pure water is the floor; compensation turns back; carbon dioxide only makes water worse."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

temperatures = st.floats(0, 60)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.floats(0, 99.9))
def test_pure_water_conducts_better_as_it_warms(temperature):
    assert value("pure_water_conductivity", temperature=temperature + 0.1) > value(
        "pure_water_conductivity", temperature=temperature
    )


@given(st.floats(0, 99.9))
def test_water_splits_more_as_it_warms(temperature):
    assert value("water_ion_product", temperature=temperature + 0.1) < value(
        "water_ion_product", temperature=temperature
    )


@given(temperatures)
def test_pure_water_at_any_temperature_is_pure_water_at_25(temperature):
    pure = value("pure_water_conductivity", temperature=temperature)
    assert value("conductivity_at_25", conductivity=pure, temperature=temperature) == pytest.approx(0.05501)
    resistivity = value("pure_water_resistivity", temperature=temperature)
    assert value("resistivity_at_25", resistivity=resistivity, temperature=temperature) == pytest.approx(
        18.18, abs=0.005
    )


@given(st.floats(0.056, 1000))
def test_at_25_degrees_nothing_is_compensated(conductivity):
    assert value("conductivity_at_25", conductivity=conductivity, temperature=25) == pytest.approx(
        conductivity
    )


@given(st.floats(0.2, 1000), temperatures)
def test_conductivity_and_resistivity_are_reciprocal_before_and_after(conductivity, temperature):
    after = value("conductivity_at_25", conductivity=conductivity, temperature=temperature)
    other = value("resistivity_at_25", resistivity=1 / conductivity, temperature=temperature)
    assert (after is None) is (other is None)
    if after is not None:
        assert after * other == pytest.approx(1)


@pytest.mark.parametrize(("resistivity", "temperature"), [(18.4, 25), (45.0, 10), (200.0, 20), (9999.0, 60)])
def test_better_than_pure_water_is_refused(resistivity, temperature):
    refused = {"code": "above_pure_water"}
    given_ = {"temperature": temperature}
    assert FORMULAS["resistivity_at_25"].evaluate({"resistivity": resistivity, **given_}).reason == refused
    assert (
        FORMULAS["conductivity_at_25"].evaluate({"conductivity": 1 / resistivity, **given_}).reason == refused
    )


@given(st.floats(0.01, 1e4), st.floats(0, 100), st.floats(0, 0.039))
def test_undoing_a_linear_compensation_and_doing_it_again_changes_nothing(shown, temperature, coefficient):
    raw = value(
        "uncompensated_conductivity", conductivity=shown, temperature=temperature, coefficient=coefficient
    )
    assert raw / (1 + coefficient * (temperature - 25)) == pytest.approx(shown)


def test_a_meter_that_shows_the_raw_value_is_left_alone():
    assert (
        value("uncompensated_conductivity", conductivity=3, temperature=10, meter_mode="uncompensated") == 3
    )


@given(st.floats(0, 100))
def test_carbon_dioxide_adds_conductivity_and_acid(carbon_dioxide):
    more = carbon_dioxide + 0.1
    assert value("carbon_dioxide_conductivity", carbon_dioxide=carbon_dioxide) >= 0.05501 * (1 - 1e-9)
    if more <= 100:
        assert value("carbon_dioxide_conductivity", carbon_dioxide=more) > value(
            "carbon_dioxide_conductivity", carbon_dioxide=carbon_dioxide
        )
        assert value("carbon_dioxide_ph", carbon_dioxide=more) < value(
            "carbon_dioxide_ph", carbon_dioxide=carbon_dioxide
        )


def test_without_carbon_dioxide_it_is_pure_water():
    assert value("carbon_dioxide_conductivity", carbon_dioxide=0) == pytest.approx(0.05501)
    assert value("carbon_dioxide_ph", carbon_dioxide=0) == pytest.approx(
        6.998, abs=5e-4
    )  # ASTM STP 742, 1981


@given(st.floats(60, 1000), st.floats(0, 34.9))
def test_colder_natural_water_is_corrected_upwards_more(conductivity, temperature):
    assert value(
        "natural_conductivity_at_25", conductivity=conductivity, temperature=temperature + 0.1
    ) < value("natural_conductivity_at_25", conductivity=conductivity, temperature=temperature)


@pytest.mark.parametrize("conductivity", [5, 59, 1001])
def test_the_factor_of_natural_water_is_refused_for_permeate_and_brine(conductivity):
    reason = (
        FORMULAS["natural_conductivity_at_25"]
        .evaluate({"conductivity": conductivity, "temperature": 15})
        .reason
    )
    assert (reason["code"], reason["minimum"], reason["maximum"]) == ("outside_range", 60, 1000)
