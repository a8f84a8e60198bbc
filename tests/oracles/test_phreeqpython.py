"""Against phreeqpython (PHREEQC with the database phreeqc.dat): carbonic acid and calcite in whole waters.

PHREEQC counts ion pairs, our formulas do not: that is the deviation. Its conductivity is used at
25 degC only; away from it this version is wrong.
"""

import pytest

from checks.catalogue import FORMULAS
from tests.oracles.waters import WATERS, concentrated, feed, phreeqc, solution


@pytest.mark.parametrize("water", WATERS)
def test_langelier_index_is_within_0_03_of_the_index_of_calcite(water):
    index = FORMULAS["langelier_index"].evaluate(feed(water)).value
    assert index == pytest.approx(solution(water).si("Calcite"), abs=0.03)


@pytest.mark.parametrize("recovery", [0.25, 0.5, 0.75])
@pytest.mark.parametrize("water", ["hard", "moderate", "soft"])
def test_index_of_the_concentrate_is_above_that_of_phreeqc_and_by_less_than_0_12(water, recovery):
    index = FORMULAS["concentrate_langelier_index"].evaluate({**feed(water), "recovery": recovery}).value
    assert 0 <= index - concentrated(water, 1 / (1 - recovery)).si("Calcite") < 0.12


@pytest.mark.parametrize("water", ["hard", "moderate", "soft"])
def test_at_the_highest_recovery_phreeqc_stays_within_the_limit(water):
    found = FORMULAS["maximum_recovery"].evaluate({**feed(water), "index_limit": 1}).value
    assert 0.9 < concentrated(water, 1 / (1 - found)).si("Calcite") <= 1


@pytest.mark.parametrize("water", WATERS)
def test_free_carbon_dioxide_is_within_three_percent(water):
    given = {name: feed(water)[name] for name in ("alkalinity", "ph", "temperature")}
    expected = solution(water).species["CO2"] * 44010
    conductivity = WATERS[water][-1] / 0.64
    found = FORMULAS["free_carbon_dioxide"].evaluate({**given, "conductivity": conductivity}).value
    assert found == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize(("bicarbonate", "carbon_dioxide"), [(5, 20), (3, 5), (10, 10), (1, 2)])
def test_ph_of_permeate_is_within_0_01_for_the_ions_and_the_gas_that_are_there(bicarbonate, carbon_dioxide):
    sodium = bicarbonate / 61.017
    water = phreeqc().add_solution(
        {
            "units": "mmol/L",
            "temp": 25,
            "pH": "6 charge",
            "Na": sodium,
            "C(4)": sodium + carbon_dioxide / 44.01,
        }
    )
    given = {
        "bicarbonate": water.species["HCO3-"] * 61017,
        "carbon_dioxide": water.species["CO2"] * 44010,
        "temperature": 25,
    }
    assert FORMULAS["permeate_ph"].evaluate(given).value == pytest.approx(water.pH, abs=0.012)


@pytest.mark.parametrize("temperature", [5, 15, 25, 35])
def test_water_under_air_takes_up_what_henry_s_law_of_the_database_says(temperature):
    water = phreeqc().add_solution({"temp": temperature, "pH": "7 charge", "C(4)": "1 CO2(g) -3.376751"})
    given = {"temperature": temperature, "partial_pressure": 420}
    expected = water.species["CO2"] * 44010
    assert FORMULAS["carbon_dioxide_in_air_equilibrium"].evaluate(given).value == pytest.approx(
        expected, rel=0.01
    )


def test_load_of_permeate_is_its_salts_and_its_carbon_dioxide():
    """5 mg/L of hydrogen carbonate and 1.8 of chloride, both with sodium, and 20 mg/L of carbon dioxide."""
    salts = 5 / 61.017 + 1.8 / 35.45
    water = phreeqc().add_solution(
        {
            "units": "mmol/L",
            "temp": 25,
            "pH": "6 charge",
            "Na": salts,
            "Cl": 1.8 / 35.45,
            "C(4)": 5 / 61.017 + 20 / 44.01,
        }
    )
    given = {"conductivity": water.sc, "ph": water.pH, "carbon_dioxide": 20}
    assert FORMULAS["deioniser_load"].evaluate(given).value == pytest.approx(salts + 20 / 44.01, rel=0.01)
