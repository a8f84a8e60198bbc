"""Load on the floor, test voltage, and a drop of pressure less what cooling explains."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS
from checks.units import Quantity

STEEL = {
    "outer_diameter": 18,
    "wall": 1,
    "youngs_modulus": 193,
    "poisson_ratio": 0.3,
    "expansion_coefficient": 16e-6,
    "temperature": 20,
}


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def test_a_litre_weighs_a_kilogram_which_is_never_too_little():
    assert value("full_mass", empty_mass=95, water_volume=150) == 245
    assert value("water_density", temperature=3.98) < 1000


def test_the_full_unit_presses_on_its_footprint():
    """By hand: 245 kg x 9.80665 m/s2 on 0.6 m x 0.6 m."""
    assert value("floor_load", mass=245, footprint=0.36) == pytest.approx(6.674, abs=5e-4)


@given(st.floats(1, 1e4), st.floats(0.05, 50))
def test_half_the_footprint_is_twice_the_load(mass, footprint):
    whole = value("floor_load", mass=mass, footprint=footprint)
    assert value("floor_load", mass=mass, footprint=footprint / 2) == pytest.approx(2 * whole)


@pytest.mark.parametrize(("nominal", "test"), [(500, 500), (500.1, 1000)])
def test_above_500_volts_the_test_voltage_is_doubled(nominal, test):
    given = {"nominal_voltage": nominal, "circuit": "general", "electronics": "disconnected"}
    assert value("insulation_test_voltage", **given) == test


def test_what_cooling_takes_in_steel_is_no_leak():
    """A closed section of steel that cools by 0.1 K loses 0.1 times its drift, and nothing else."""
    drift = value("thermal_pressure_drift", **STEEL)
    lost = {"start_pressure": 4, "end_pressure": 4 - 0.1 * drift, "drift": drift}
    corrected = value("corrected_pressure_drop", **lost, start_temperature=20.0, end_temperature=19.9)
    assert corrected == pytest.approx(0, abs=1e-9)


def test_a_section_that_warms_hides_a_leak():
    """By hand: no drop seen, 0.1 K warmer at 3 bar/K: 0.3 bar are gone."""
    seen = {"start_pressure": 4, "end_pressure": 4, "start_temperature": 20, "end_temperature": 20.1}
    assert value("corrected_pressure_drop", **seen, drift=3) == pytest.approx(0.3)


def test_cooling_is_a_negative_change():
    """20.0 degC down to 19.5 degC; in degrees Fahrenheit 68 down to 67.1."""
    assert value("temperature_change", start=20.0, end=19.5) == -0.5
    fahrenheit = {"start": Quantity(68, "degF"), "end": Quantity(67.1, "degF")}
    assert FORMULAS["temperature_change"](**fahrenheit).magnitude == pytest.approx(-0.5)
