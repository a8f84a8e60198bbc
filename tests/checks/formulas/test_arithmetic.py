"""Values of one unit side by side."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

positive = st.floats(0.01, 1e4)
number = st.floats(-1e4, 1e4)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(number, positive)
def test_difference_ratio_and_relative_difference_say_the_same(a, b):
    ratio = value("ratio", value=a, reference=b)
    assert value("relative_difference", value=a, reference=b) == pytest.approx(ratio - 1, rel=1e-9, abs=1e-9)
    assert value("difference", value=a, subtract=b) == pytest.approx((ratio - 1) * b, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("name", ["ratio", "relative_difference"])
def test_nothing_is_a_share_of_zero(name):
    outcome = FORMULAS[name].evaluate({"value": 1, "reference": 0})
    assert outcome.reason == {"code": "no_finite_result"}


@given(number, number)
def test_the_smaller_and_the_larger_are_both_of_the_two(a, b):
    smaller, larger = (value(name, first=a, second=b) for name in ("smaller_of", "larger_of"))
    assert smaller <= larger
    assert {smaller, larger} == {a if abs(a) >= 1e-30 else 0, b if abs(b) >= 1e-30 else 0}


def test_parts_that_are_left_out_add_nothing():
    assert value("sum_of", first=1.5, fourth=2, sixth=-0.5) == 3
    assert FORMULAS["sum_of"].evaluate({}).reason == {"code": "nothing_given"}


@given(number, number, positive, st.floats(1, 120))
def test_a_steady_change_reaches_the_end_after_the_time_it_took(start, end, minutes, per):
    change = value("change_per_time", start=start, end=end, minutes=minutes, per=per)
    assert start + change * minutes / per == pytest.approx(end, rel=1e-9, abs=1e-6)


def test_a_change_is_named_per_hour():
    """By hand: 0.2 bar in 15 minutes are 0.8 bar in an hour."""
    assert value("change_per_time", start=6.0, end=5.8, minutes=15) == pytest.approx(-0.8)
