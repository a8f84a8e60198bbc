"""Against the open-source package iapws, which implements the IAPWS releases.

The package is used at 0.1 MPa and on the saturation line only: away from 0.1 MPa the sign of the
pressure term in its simplified liquid formulation is wrong in version 1.5.5.
"""

import pytest
from iapws import IAPWS97
from iapws._iapws import _Kw, _Liquid

from checks.catalogue import FORMULAS

TEMPERATURES = [0.5, 4, 10, 15, 20, 25, 30, 40, 60, 80, 95]


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_density_is_within_15_parts_per_million_of_the_release(temperature):
    density = FORMULAS["water_density"].evaluate({"temperature": temperature}).value
    assert density == pytest.approx(_Liquid(temperature + 273.15)["rho"], rel=1.5e-5)


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_viscosity_is_the_correlation_of_the_release(temperature):
    viscosity = FORMULAS["water_viscosity"].evaluate({"temperature": temperature}).value
    assert viscosity == pytest.approx(_Liquid(temperature + 273.15)["mu"] * 1000, rel=1e-12)


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_ion_product_is_within_0_0004_of_the_release_at_saturation(temperature):
    kelvin = temperature + 273.15
    expected = _Kw(IAPWS97(T=kelvin, x=0).rho, kelvin)
    assert FORMULAS["water_ion_product"].evaluate({"temperature": temperature}).value == pytest.approx(
        expected, abs=4e-4
    )


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_ion_product_is_that_of_the_release_at_the_same_density(temperature):
    density = FORMULAS["water_density"].evaluate({"temperature": temperature}).value
    expected = _Kw(density, temperature + 273.15)
    assert FORMULAS["water_ion_product"].evaluate({"temperature": temperature}).value == pytest.approx(
        expected, rel=1e-13
    )


@pytest.mark.parametrize("temperature", [0.5, 15, 40])
def test_static_head_follows_the_density_of_the_release(temperature):
    head = FORMULAS["static_head"].evaluate({"height": 12, "temperature": temperature}).value
    assert head == pytest.approx(_Liquid(temperature + 273.15)["rho"] * 9.80665 * 12 / 1e5, rel=1.5e-5)


RIGID = {"outer_diameter": 12, "wall": 5, "youngs_modulus": 1000}
"""A thick wall of the stiffest material: what is left is the water itself, to 0.3 %."""


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_the_drift_of_a_rigid_section_is_expansion_by_compressibility_of_the_release(temperature):
    water = _Liquid(temperature + 273.15)
    expected = water["alfav"] / water["xkappa"] * 10  # MPa to bar
    given = {**RIGID, "poisson_ratio": 0.25, "expansion_coefficient": 0, "temperature": temperature}
    drift = FORMULAS["thermal_pressure_drift"].evaluate(given).value
    assert drift == pytest.approx(expected, rel=2e-3, abs=0.02)


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_the_surge_in_a_rigid_pipe_follows_from_the_compressibility_of_the_release(temperature):
    water = _Liquid(temperature + 273.15)
    expected = 2 * (water["rho"] * 1e6 / water["xkappa"]) ** 0.5 / 1e5  # 1/MPa to 1/Pa
    given = {**RIGID, "velocity_change": 2, "temperature": temperature}
    assert FORMULAS["water_hammer_pressure"].evaluate(given).value == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("temperature", [5, 15, 25, 40])
def test_the_surge_is_at_most_a_percent_below_that_of_the_speed_of_sound(temperature):
    water = _Liquid(temperature + 273.15)
    given = {**RIGID, "velocity_change": 2, "temperature": temperature}
    surge = FORMULAS["water_hammer_pressure"].evaluate(given).value
    assert 0.985 < surge / (water["rho"] * water["w"] * 2 / 1e5) < 1
