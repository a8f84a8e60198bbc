"""Water, flow and washing out: laws that hold whatever the numbers are."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

amounts = st.floats(0.01, 1e4)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.floats(4.0, 99.9))
def test_above_four_degrees_water_becomes_lighter_as_it_warms(temperature):
    assert value("water_density", temperature=temperature + 0.1) < value(
        "water_density", temperature=temperature
    )


def test_water_is_heaviest_at_four_degrees():
    densest = max(range(0, 1001), key=lambda tenth: value("water_density", temperature=tenth / 100))
    assert densest / 100 == pytest.approx(3.98, abs=0.02)  # 3.98 degC, CRC Handbook (from memory)


@given(st.floats(0, 99.9))
def test_water_becomes_thinner_as_it_warms(temperature):
    assert value("water_viscosity", temperature=temperature + 0.1) < value(
        "water_viscosity", temperature=temperature
    )


@given(amounts, amounts)
def test_twice_the_bore_is_a_quarter_of_the_velocity(flow, bore):
    assert value("flow_velocity", flow=flow, bore=2 * bore) == pytest.approx(
        value("flow_velocity", flow=flow, bore=bore) / 4, rel=1e-12
    )


@given(amounts, amounts, st.floats(0, 100))
def test_reynolds_number_grows_with_the_flow(flow, bore, temperature):
    given_ = {"bore": bore, "temperature": temperature}
    assert value("reynolds_number", flow=2 * flow, **given_) == pytest.approx(
        2 * value("reynolds_number", flow=flow, **given_), rel=1e-12
    )


@given(amounts, amounts, st.floats(1.01, 1e4), st.floats(0, 100), st.floats(0.001, 0.99))
def test_after_the_washout_time_the_content_is_at_the_limit(volume, flow, above, inflow, share):
    start = inflow + above
    limit = inflow + share * above
    time = value("washout_time", volume=volume, flow=flow, start=start, limit=limit, inflow=inflow)
    left = value("washout_concentration", volume=volume, flow=flow, time=time, start=start, inflow=inflow)
    assert left == pytest.approx(limit, rel=1e-9)


def test_a_content_that_is_low_enough_already_needs_no_flush():
    assert value("washout_volumes", start=1, limit=1, inflow=0) == 0
    assert value("washout_volumes", start=1, limit=2, inflow=5) == 0


@pytest.mark.parametrize("inflow", [1, 1.0001, 7])
def test_an_inflow_that_is_not_below_the_limit_never_gets_there(inflow):
    outcome = FORMULAS["washout_volumes"].evaluate({"start": 50, "limit": 1, "inflow": inflow})
    assert outcome.reason == {"code": "never_reached"}


def test_the_inflow_s_own_content_makes_the_flush_longer():
    with_it = value("washout_time", volume=60, flow=4, start=50, limit=1, inflow=0.2)
    without = value("washout_time", volume=60, flow=4, start=50, limit=1, inflow=0)
    assert with_it == pytest.approx(15 * math.log(49.8 / 0.8))
    assert without == pytest.approx(15 * math.log(50))


@given(st.floats(-1000, 1000), st.floats(0, 100))
def test_a_head_downwards_is_the_same_head_upwards_with_the_other_sign(height, temperature):
    up = value("static_head", height=height, temperature=temperature)
    assert value("static_head", height=-height, temperature=temperature) == -up
