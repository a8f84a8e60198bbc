"""The window for a relief valve, put back into the conditions that its standards state."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

pressures = st.floats(0.5, 60)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def highest_at_the_unit(setting, family, head, back):
    """ISO 4126-1: opens up to 3 % or 0.1 bar late, rises by 10 % or 0.1 bar; EN 1491: 20 % above nominal."""
    if family == "en_1491":
        return 1.2 * setting + head + back
    opens = setting + max(0.03 * setting, 0.1)
    return opens + max(0.1 * opens, 0.1) + head + back


@pytest.mark.parametrize("family", ["iso_4126", "en_1491"])
@given(pressure=pressures, height=st.floats(-20, 20), back=st.floats(0, 2))
def test_a_valve_set_to_the_maximum_just_keeps_a_hard_limit(family, pressure, height, back):
    given_ = {"maximum_pressure": pressure, "valve_height": height, "back_pressure": back}
    setting = value("relief_set_pressure_maximum", basis="hard", valve_family=family, **given_)
    assume(setting is not None)
    head = value("static_head", height=height)
    assert highest_at_the_unit(setting, family, head, back) == pytest.approx(pressure, rel=1e-9)


@pytest.mark.parametrize(("family", "rise"), [("iso_4126", 0.1), ("en_1491", 0.2)])
@given(pressure=st.floats(2, 60), height=st.floats(-5, 5))
def test_on_the_basis_ps_setting_and_brief_rise_both_stay_within_it(family, rise, pressure, height):
    setting = value(
        "relief_set_pressure_maximum",
        maximum_pressure=pressure,
        basis="ps",
        valve_family=family,
        valve_height=height,
    )
    head = value("static_head", height=height)
    assert setting + head <= pressure * (1 + 1e-12)
    assert setting * (1 + rise) + head <= 1.1 * pressure * (1 + 1e-12)
    above = setting * 1.0001
    assert above + head > pressure or above * (1 + rise) + head > 1.1 * pressure


@given(pressures, st.floats(0, 2), st.floats(0.5, 1), st.floats(0, 5))
def test_a_valve_set_to_the_minimum_just_closes_again_and_keeps_ratio_and_surge(rest, margin, ratio, surge):
    setting = value(
        "relief_set_pressure_minimum",
        rest_pressure=rest,
        valve_family="iso_4126",
        margin=margin,
        rest_ratio=ratio,
        surge=surge,
    )
    closes = setting - max(0.03 * setting, 0.1) - max(0.2 * setting, 0.6)
    slacks = [closes - rest - margin, setting - rest / ratio, setting - rest - surge]
    assert min(slacks) == pytest.approx(0, abs=1e-9 * setting)


def test_the_obvious_valve_by_name_does_not_fit_a_three_bar_unit():
    """By hand: 3.0 bar hard, valve 1.2 m above the inlet, rest 1.6 bar: only 2.40 to 2.52 bar is right."""
    upper = value(
        "relief_set_pressure_maximum",
        maximum_pressure=3,
        basis="hard",
        valve_family="iso_4126",
        valve_height=1.2,
    )
    lower = value("relief_set_pressure_minimum", rest_pressure=1.6, valve_family="iso_4126")
    assert (lower, upper) == (pytest.approx(2.4, abs=5e-4), pytest.approx(2.520, abs=5e-4))


def test_a_head_above_the_allowed_pressure_leaves_no_setting():
    outcome = FORMULAS["relief_set_pressure_maximum"].evaluate(
        {"maximum_pressure": 1, "basis": "hard", "valve_family": "en_1491", "valve_height": 15}
    )
    assert outcome.reason == {"code": "no_set_pressure"}


@given(st.floats(1, 1e4), st.floats(0.05, 1), st.floats(0.01, 100))
def test_four_times_the_pressure_is_twice_the_flow(area, coefficient, difference):
    given_ = {"flow_area": area, "discharge_coefficient": coefficient}
    one = value("relief_discharge_capacity", pressure_difference=difference, **given_)
    assert value("relief_discharge_capacity", pressure_difference=4 * difference, **given_) == pytest.approx(
        2 * one, rel=1e-12
    )


def test_without_a_pressure_difference_nothing_flows():
    given_ = {"flow_coefficient_kv": 1.6, "relieving_pressure": 3}
    assert value("regulator_failed_open_flow", supply_pressure=3, **given_) == 0
    assert value("regulator_failed_open_flow", supply_pressure=2, **given_) == 0
