"""Uncertainty, guarded limits and verdicts."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

positive = st.floats(0.01, 1000)
share = st.floats(0, 0.3)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(st.sampled_from(["upper", "lower"]), positive, share, st.floats(0, 10))
def test_at_the_acceptance_limit_the_reading_and_its_uncertainty_just_reach_the_limit(side, limit, b, c):
    accepted = value("acceptance_limit", limit=limit, side=side, accuracy_of_reading=b, accuracy_absolute=c)
    assume(accepted is not None)
    specification = {"accuracy_of_reading": b, "accuracy_of_range": 1, "range": c}
    expanded = 2 * value("standard_uncertainty", reading=accepted, **specification)
    assert accepted + (expanded if side == "upper" else -expanded) == pytest.approx(limit, rel=1e-9, abs=1e-9)


def test_an_accuracy_wider_than_the_limit_leaves_no_acceptable_reading():
    outcome = FORMULAS["acceptance_limit"].evaluate({"limit": 0.1, "side": "upper", "accuracy_absolute": 0.2})
    assert outcome.reason == {"code": "no_acceptable_reading"}


@given(st.floats(-1000, 1000), share, positive)
def test_uncertainty_grows_with_every_contribution(reading, b, resolution):
    plain = value("standard_uncertainty", reading=reading, accuracy_of_reading=b)
    assert (
        value("standard_uncertainty", reading=reading, accuracy_of_reading=b, resolution=resolution) > plain
    )
    assert (
        value("standard_uncertainty", reading=reading, accuracy_of_reading=b, calibration_uncertainty=1)
        > plain
    )


@given(st.floats(-1000, 1000), positive, st.floats(-1000, 1000))
def test_above_and_below_a_limit_are_complementary(reading, u, limit):
    above = value("conformance_probability", reading=reading, standard_uncertainty=u, lower=limit)
    below = value("conformance_probability", reading=reading, standard_uncertainty=u, upper=limit)
    assert above + below == pytest.approx(1)


def test_a_reading_at_the_limit_conforms_with_even_odds():
    assert value("conformance_probability", reading=5, standard_uncertainty=0.1, upper=5) == pytest.approx(
        0.5
    )


@pytest.mark.parametrize("name", ["conformance_probability", "guarded_verdict"])
def test_without_any_limit_there_is_nothing_to_say(name):
    given_ = {"reading": 1, "standard_uncertainty": 1, "expanded_uncertainty": 1}
    declared = FORMULAS[name]
    outcome = declared.evaluate({key: one for key, one in given_.items() if key in declared.inputs})
    assert outcome.reason == {"code": "no_limit_given"}


MIRROR = {"rule": "non_binary", "expanded_uncertainty": 0.0751}
# Limit 3.60, U 0.0751: pass to 3.5249, conditional pass to 3.60, conditional fail to 3.6751 (ILAC-G8 4.2.3).
ZONES = [(3.50, "pass"), (3.55, "conditional_pass"), (3.65, "conditional_fail"), (3.70, "fail")]


@pytest.mark.parametrize(("reading", "word"), ZONES)
def test_the_zones_of_an_upper_limit_are_mirrored_by_a_lower_one(reading, word):
    assert value("guarded_verdict", reading=reading, upper=3.6, **MIRROR) == word
    assert value("guarded_verdict", reading=-reading, lower=-3.6, **MIRROR) == word
    assert value("guarded_verdict", reading=reading, upper=3.6, lower=0, **MIRROR) == word


@pytest.mark.parametrize(
    ("reading", "word"), [(0.458, "pass"), (0.5, "conditional_pass"), (0.542, "conditional_fail")]
)
def test_equality_counts_to_the_better_side_in_spite_of_binary_fractions(reading, word):
    assert value("guarded_verdict", reading=reading, expanded_uncertainty=0.042, upper=0.5) == word


@given(st.floats(0, 10), st.floats(0, 1), st.floats(0, 10), st.floats(0, 3))
def test_a_wider_guard_band_never_makes_a_verdict_better(reading, expanded, upper, guard):
    given_ = {"reading": reading, "expanded_uncertainty": expanded, "upper": upper, "rule": "binary"}
    if value("guarded_verdict", guard=guard + 0.5, **given_) == "pass":
        assert value("guarded_verdict", guard=guard, **given_) == "pass"


def test_limits_that_cross_have_no_valid_setting():
    assert (
        value("guarded_verdict", reading=1, expanded_uncertainty=0, lower=2.4, upper=2.3)
        == "no_valid_setting"
    )


def test_a_window_narrower_than_two_guard_bands_needs_a_better_instrument():
    """pH between 6.5 and 7.0 with U 0.3: no reading can pass."""
    given_ = {"reading": 6.75, "expanded_uncertainty": 0.3, "lower": 6.5, "upper": 7.0}
    assert value("guarded_verdict", **given_) == "instrument_not_good_enough"
    assert value("guarded_verdict", rule="simple", **given_) == "pass"
    assert value("guarded_verdict", **{**given_, "expanded_uncertainty": 0.25}) == "pass"


def test_contributions_and_their_degrees_belong_together():
    outcome = FORMULAS["effective_degrees_of_freedom"].evaluate({"uncertainties": [1, 2], "degrees": [3]})
    assert outcome.reason == {"code": "lengths_differ"}


def test_contributions_known_without_limit_have_no_number_of_degrees():
    outcome = FORMULAS["effective_degrees_of_freedom"].evaluate({"uncertainties": [1], "degrees": ["inf"]})
    assert outcome.reason == {"code": "unlimited_degrees"}


@given(st.lists(st.tuples(positive, st.integers(1, 50)), min_size=1, max_size=6))
def test_the_effective_degrees_lie_between_the_least_and_the_sum(contributions):
    uncertainties, degrees = ([one[place] for one in contributions] for place in (0, 1))
    effective = value("effective_degrees_of_freedom", uncertainties=uncertainties, degrees=degrees)
    assert min(degrees) * (1 - 1e-9) <= effective <= sum(degrees) * (1 + 1e-9)


@given(st.floats(1, 200))
def test_the_coverage_factor_falls_to_two(degrees):
    here = value("coverage_factor", degrees_of_freedom=degrees)
    assert here >= value("coverage_factor", degrees_of_freedom=degrees + 1) >= 2
    assert value("coverage_factor", degrees_of_freedom="inf") == 2
