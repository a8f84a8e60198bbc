"""Friction, drains, gaps and supply curves: laws that hold whatever the numbers are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.floats(2300, 1e8), st.floats(0, 0.04))
def test_a_rougher_wall_has_more_friction_and_a_faster_flow_has_less(reynolds, roughness):
    factor = value("friction_factor", reynolds_number=reynolds, relative_roughness=roughness)
    rougher = value("friction_factor", reynolds_number=reynolds, relative_roughness=roughness + 0.01)
    faster = value("friction_factor", reynolds_number=min(1e8, 1.5 * reynolds), relative_roughness=roughness)
    assert rougher > factor >= faster * (1 - 1e-4)


def test_laminar_flow_does_not_feel_the_wall_and_ends_at_2300():
    smooth, rough = (
        value("friction_factor", reynolds_number=2299, relative_roughness=one) for one in (0, 0.05)
    )
    assert smooth == rough == pytest.approx(64 / 2299)
    assert value("friction_factor", reynolds_number=2300, relative_roughness=0) > smooth


PIPE = {"bore": 16.2, "roughness": 0.0015, "temperature": 22}


@given(st.floats(0.1, 50), st.floats(0.1, 500), st.floats(0, 50))
def test_length_and_fittings_add_up(flow, length, fittings):
    both = value("pipe_pressure_loss", flow=flow, length=length, loss_coefficients=fittings, **PIPE)
    pipe = value("pipe_pressure_loss", flow=flow, length=length, **PIPE)
    alone = value("pipe_pressure_loss", flow=flow, length=0, loss_coefficients=fittings, **PIPE)
    assert both == pytest.approx(pipe + alone, rel=1e-9)


def test_a_wall_that_is_rougher_than_the_law_knows_is_refused():
    """5 % of the bore is the end of Colebrook's range; beyond, the friction factor has no value."""
    given_ = {"flow": 10, "bore": 10, "length": 1, "temperature": 20}
    assert value("pipe_pressure_loss", roughness=0.5, **given_) > 0
    outcome = FORMULAS["pipe_pressure_loss"].evaluate({"roughness": 0.51, **given_})
    assert outcome.reason == {"code": "wall_too_rough"}


@given(st.floats(0.001, 1000), st.floats(1, 500))
def test_a_dead_leg_is_counted_in_its_own_bores(ratio, bore):
    assert value("dead_leg_ratio", length=ratio * bore, bore=bore) == pytest.approx(ratio)


@given(st.floats(0.1, 500))
def test_an_air_gap_is_never_below_twenty_millimetres_or_twice_the_bore(bore):
    gap = value("air_gap_minimum", inlet_bore=bore)
    assert gap >= 20
    assert gap >= 2 * bore
    assert gap in (20, 2 * bore)


@given(st.floats(10, 500), st.floats(0.001, 0.1))
def test_a_drain_half_full_carries_half_of_the_full_bore(diameter, slope):
    given_ = {"diameter": diameter, "slope": slope}
    full = value("gravity_drain_capacity", depth_ratio=1, **given_)
    assert value("gravity_drain_capacity", depth_ratio=0.5, **given_) == pytest.approx(full / 2, rel=1e-9)
    assert value("gravity_drain_capacity", depth_ratio=0.94, **given_) > full  # Chow: most at 0.94


SUPPLY = {"static_pressure": 4.6, "dynamic_pressure": 3.4, "test_flow": 8}


def test_the_supply_curve_goes_through_both_points_of_the_test():
    assert value("supply_pressure_at_flow", flow=0, **SUPPLY) == 4.6
    assert value("supply_pressure_at_flow", flow=8, **SUPPLY) == pytest.approx(3.4)


@given(st.floats(0, 14), st.floats(0.1, 1))
def test_more_flow_leaves_less_pressure(flow, more):
    assert value("supply_pressure_at_flow", flow=flow + more, **SUPPLY) < value(
        "supply_pressure_at_flow", flow=flow, **SUPPLY
    )


def test_a_flow_that_the_supply_cannot_give_has_no_pressure():
    outcome = FORMULAS["supply_pressure_at_flow"].evaluate({**SUPPLY, "flow": 16})
    assert outcome.reason == {"code": "supply_exhausted"}


def test_readings_in_the_wrong_order_are_noticed():
    swapped = {**SUPPLY, "static_pressure": 3.4, "dynamic_pressure": 4.6}
    outcome = FORMULAS["supply_pressure_at_flow"].evaluate({**swapped, "flow": 5})
    assert outcome.reason == {"code": "dynamic_above_static"}
