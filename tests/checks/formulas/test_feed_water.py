"""A feed and its permeate: edges, limits that are known, what grows with what."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

PHREEQC = [(2, 0.02, 2.27), (10, 0.05, 5.49), (20, 0.02, 4.76), (30, 0.1, 10.6)]
FEED = {"feed_conductivity": 500, "alkalinity": 150}


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


def test_solids_are_what_the_factor_makes_of_the_conductivity():
    assert value("dissolved_solids", conductivity=500) == pytest.approx(320)
    assert value("dissolved_solids", conductivity=14, factor=0.5) == pytest.approx(7)
    assert reason("dissolved_solids", conductivity=500, factor=1.2)["code"] == "outside_range"


@given(st.floats(0, 59), st.floats(0.1, 1))
def test_warmer_water_holds_more_silica(temperature, step):
    warmer = value("silica_solubility", temperature=temperature + step)
    assert warmer > value("silica_solubility", temperature=temperature)


def test_without_carbon_dioxide_only_the_salt_that_passes_conducts():
    passed = value("permeate_conductivity_expected", salt_passage=0.03, carbon_dioxide=0, **FEED)
    assert passed == pytest.approx(15)


def test_without_salt_it_is_water_with_carbon_dioxide():
    """Without bicarbonate the acid is its own counter-ion; its decrease is left out: 3 % at most."""
    passed = value("permeate_conductivity_expected", salt_passage=0, carbon_dioxide=10, **FEED)
    assert passed == pytest.approx(value("carbon_dioxide_conductivity", carbon_dioxide=10), rel=0.03)


@given(st.floats(0, 0.2), st.floats(0.1, 100), st.floats(1.01, 2))
def test_more_gas_conducts_more_but_less_than_in_proportion(passage, gas, times):
    def of(carbon_dioxide):
        given_ = {"salt_passage": passage, "carbon_dioxide": carbon_dioxide}
        return value("permeate_conductivity_expected", **given_, **FEED)

    assert of(gas) < of(gas * times)
    assert of(gas * times) - of(0) <= times * (of(gas) - of(0)) * (1 + 1e-9)


@pytest.mark.parametrize(("gas", "hydrogen_carbonate", "printed"), PHREEQC)
def test_permeate_as_phreeqc_has_it(gas, hydrogen_carbonate, printed):
    """PHREEQC 3.8, 25 degC: mg/L of gas, mmol/L of sodium hydrogen carbonate (94.6 S cm2/eq), uS/cm."""
    whole = {"feed_conductivity": 94.6, "alkalinity": 50.04}
    found = value(
        "permeate_conductivity_expected", salt_passage=hydrogen_carbonate, carbon_dioxide=gas, **whole
    )
    assert found == pytest.approx(printed, rel=0.02)
