"""Bands around a prediction, and how far three flows may miss."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

FLOWS = {"feed_flow": 120, "permeate_flow": 36, "concentrate_flow": 84}


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def band(share, **more):
    """The band for meters that all have this relative standard uncertainty."""
    uncertain = {name.replace("flow", "uncertainty"): flow * share for name, flow in FLOWS.items()}
    return value("flow_balance_band", **FLOWS, **uncertain, **more)


@given(st.floats(0.001, 1e6), st.floats(0, 1))
def test_the_value_lies_midway_between_its_ends(middle, share):
    ends = [value(end, value=middle, share=share) for end in ("band_lower", "band_upper")]
    assert sum(ends) / 2 == pytest.approx(middle)
    assert ends[0] <= middle <= ends[1]


def test_a_band_of_a_fifth():
    assert value("band_lower", value=50, share=0.2) == pytest.approx(40)
    assert value("band_upper", value=50, share=0.2) == pytest.approx(60)
    assert FORMULAS["band_lower"].evaluate({"value": 50, "share": 1.1}).reason["code"] == "outside_range"


def test_the_band_is_the_expanded_uncertainty_of_the_balance():
    """2 x root of (3.6^2 + 1.08^2 + 2.52^2) / 120, each flow known to 3 %."""
    assert band(0.03, least=0) == pytest.approx(2 * (3.6**2 + 1.08**2 + 2.52**2) ** 0.5 / 120)


def test_practice_leaves_a_tenth_alone():
    assert band(0.03) == 0.1
    assert band(0.05) == pytest.approx(0.1257, abs=5e-5)
