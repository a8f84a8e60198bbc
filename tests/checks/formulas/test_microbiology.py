"""Counts of colonies: limits contain the estimate, and the published table of what a count shows."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checks.catalogue import FORMULAS


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@settings(max_examples=40)
@given(st.integers(0, 300), st.floats(0.1, 1000), st.floats(0.5, 0.999))
def test_the_estimate_lies_between_its_limits(count, volume, confidence):
    given_ = {"count": count, "volume": volume}
    lower, upper = (
        value(f"colony_count_{end}", confidence=confidence, **given_) for end in ("lower", "upper")
    )
    assert lower <= value("colony_count", **given_) <= upper


@settings(max_examples=40)
@given(st.integers(0, 300), st.floats(0.5, 0.99))
def test_more_confidence_widens_the_limits(count, confidence):
    given_ = {"count": count, "volume": 1}
    assert value("colony_count_upper", confidence=confidence + 0.005, **given_) > value(
        "colony_count_upper", confidence=confidence, **given_
    )
    assert value("colony_count_lower", confidence=confidence + 0.005, **given_) <= value(
        "colony_count_lower", confidence=confidence, **given_
    )


@settings(max_examples=40)
@given(st.integers(0, 200), st.floats(0.01, 1000))
def test_the_volume_needed_is_where_the_one_sided_upper_limit_meets_the_limit(count, limit):
    volume = value("volume_to_demonstrate", limit=limit, count=count)
    upper = value("colony_count_upper", count=count, volume=volume, confidence=0.9)
    assert upper == pytest.approx(limit, rel=1e-10)


def test_no_colony_has_no_lower_limit():
    assert value("colony_count_lower", count=0, volume=1) == 0


@pytest.mark.parametrize("count", [0.5, 1001, -1])
def test_colonies_are_whole_and_countable(count):
    assert FORMULAS["colony_count_upper"].evaluate({"count": count, "volume": 1}).value is None
