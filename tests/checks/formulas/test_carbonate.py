"""Carbonic acid and lime: what must grow with what, and where there is no answer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

HARD = {"temperature": 12, "calcium": 100, "alkalinity": 230, "dissolved_solids": 511}
waters = st.fixed_dictionaries(
    {
        "ph": st.floats(6.5, 8.5),
        "temperature": st.floats(1, 40),
        "calcium": st.floats(1, 300),
        "alkalinity": st.floats(5, 500),
        "dissolved_solids": st.floats(20, 2000),
    }
)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.floats(4.5, 8.2), st.floats(1, 500), st.floats(0, 50))
def test_a_tenth_of_ph_is_a_quarter_of_the_carbon_dioxide(ph, alkalinity, temperature):
    given_ = {"alkalinity": alkalinity, "temperature": temperature}
    lower = value("free_carbon_dioxide", ph=ph, **given_)
    assert value("free_carbon_dioxide", ph=ph + 0.1, **given_) == pytest.approx(lower / 10**0.1)


def test_above_ph_8_3_there_is_no_free_carbon_dioxide():
    given_ = {"alkalinity": 100, "temperature": 15}
    assert value("free_carbon_dioxide", ph=8.31, **given_) == 0
    assert value("free_carbon_dioxide", ph=8.29, **given_) > 0


def test_below_the_end_of_the_titration_alkalinity_says_nothing():
    outcome = FORMULAS["free_carbon_dioxide"].evaluate({"alkalinity": 100, "temperature": 15, "ph": 4.4})
    assert outcome.reason["code"] == "outside_range"


@given(st.floats(0, 49), st.floats(1, 1e4))
def test_warm_water_holds_less_gas_and_more_gas_is_held_in_proportion(temperature, pressure):
    given_ = {"temperature": temperature, "partial_pressure": pressure}
    held = value("carbon_dioxide_in_air_equilibrium", **given_)
    warmer = {**given_, "temperature": temperature + 1}
    assert value("carbon_dioxide_in_air_equilibrium", **warmer) < held
    assert value("carbon_dioxide_in_air_equilibrium", **{**given_, "partial_pressure": 2 * pressure}) == (
        pytest.approx(2 * held)
    )


@given(st.floats(0.1, 100), st.floats(0.1, 100), st.floats(0, 50))
def test_equal_moles_of_both_have_the_ph_of_the_constant(millimoles, other, temperature):
    half = value(
        "permeate_ph",
        bicarbonate=millimoles * 61.017 / 100,
        carbon_dioxide=millimoles * 44.01 / 100,
        temperature=temperature,
    )
    again = value(
        "permeate_ph",
        bicarbonate=other * 61.017 / 100,
        carbon_dioxide=other * 44.01 / 100,
        temperature=temperature,
    )
    assert half == pytest.approx(again)
    assert 6.25 < half < 6.6  # pK1 from 0 to 50 degC, Plummer and Busenberg


@given(waters)
def test_without_recovery_the_concentrate_is_the_feed(water):
    assert value("concentrate_langelier_index", recovery=0, **water) == pytest.approx(
        value("langelier_index", **water), abs=1e-9
    )


@given(waters, st.floats(-1, 2.5))
def test_at_the_highest_recovery_the_index_is_at_its_limit(water, limit):
    outcome = FORMULAS["maximum_recovery"].evaluate({**water, "index_limit": limit})
    if outcome.reason:
        assert outcome.reason == {"code": "no_recovery_allowed"}
        assert value("langelier_index", **water) > limit
        return
    index = value("concentrate_langelier_index", recovery=min(0.99, outcome.value), **water)
    assert index == pytest.approx(limit, abs=1e-6) or (outcome.value == 0.99 and index <= limit + 1e-9)


@given(waters, st.floats(0, 0.97))
def test_more_recovery_raises_the_index(water, recovery):
    assert value("concentrate_langelier_index", recovery=recovery + 0.01, **water) > value(
        "concentrate_langelier_index", recovery=recovery, **water
    )


def test_hard_water_without_an_inhibitor_allows_no_recovery():
    outcome = FORMULAS["maximum_recovery"].evaluate({"ph": 7.4, "index_limit": 0, **HARD})
    assert outcome.reason == {"code": "no_recovery_allowed"}
