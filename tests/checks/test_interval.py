"""Published decisions, and the acceptance limits that are shown before there is a reading."""

import math

import pytest

from checks.catalogue import FORMULAS
from checks.interval import Found, judge_interval

RULE = {"decision": "non_binary", "guard": 1, "strict": False}


def judged(reading, u, lower=None, upper=None, **rule):
    return judge_interval(RULE | rule, Found(reading, u, lower, upper, "bar"), FORMULAS)


def rectangular(accuracy, step=0.0):
    """u of a reading: a share of it and a fixed part, rectangular, and half a step (GUM 4.3.7, F.2.2.1)."""
    share, fixed = accuracy
    return lambda reading: math.sqrt((share * abs(reading) + fixed) ** 2 / 3 + step**2 / 12)


GAUGE_U = math.sqrt(0.06**2 / 3 + 0.05**2 / 12)  # class 1.0 of 6 bar, read to half a division of 0.05 bar


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [(3.45, "pass"), (3.50, "pass"), (3.55, "conditional_pass"), (3.65, "conditional_fail"), (3.70, "fail")],
)
def test_the_four_words_of_ilac_g8_on_an_upper_limit(reading, verdict):
    """ILAC-G8:09/2019 4.2.3 with w = U: zones at 3.525, 3.600 and 3.675 bar, worked by hand."""
    result = judged(reading, GAUGE_U, upper=3.60)
    assert result["verdict"] == verdict
    assert result["accept_upper"] == pytest.approx(3.525, abs=5e-4)


def test_the_risk_of_a_pass_near_the_acceptance_limit():
    """By hand: 1 - Phi((3.60 - 3.50) / 0.03753) = 0.39 %."""
    assert 1 - judged(3.50, GAUGE_U, upper=3.60)["probability"] == pytest.approx(0.0039, abs=5e-5)


def test_a_narrower_guard_band_of_iso_14253_lets_the_same_reading_pass():
    """r = 0.83: acceptance limit 3.5377 bar, so 3.53 passes; with r = 1 it does not."""
    assert judged(3.53, GAUGE_U, upper=3.60)["verdict"] == "conditional_pass"
    assert judged(3.53, GAUGE_U, upper=3.60, guard=0.83)["verdict"] == "pass"


def test_a_lower_limit_of_resistivity():
    """10.6 Mohm cm, 2 % + 0.1, step 0.1, against 10: U = 0.365, acceptance limit 10.365, p = 0.9995."""
    result = judged(10.6, rectangular((0.02, 0.1), 0.1)(10.6), lower=10)
    assert (result["verdict"], result["accept_lower"]) == ("pass", pytest.approx(10.365, abs=5e-4))
    assert result["probability"] == pytest.approx(0.9995, abs=5e-5)


def test_a_window_of_recovery():
    """Permeate 0.90, concentrate 2.05 L/min, each 2 %: 30.51 %, u 0.346, accepted from 25.69 to 34.31 %."""
    result = judged(30.51, 0.346, lower=25, upper=35)
    assert result["verdict"] == "pass"
    assert (result["accept_lower"], result["accept_upper"]) == (
        pytest.approx(25.69, abs=0.005),
        pytest.approx(34.31, abs=0.005),
    )


@pytest.mark.parametrize("reading", [6.5, 6.75, 7.0, 9.0])
@pytest.mark.parametrize("decision", ["guarded", "non_binary"])
def test_a_window_narrower_than_two_uncertainties_cannot_be_judged(reading, decision):
    """pH 6.5 to 7.0 with U 0.3: 2 U = 0.6 is wider than the window, whatever the reading."""
    result = judged(reading, 0.15, lower=6.5, upper=7.0, decision=decision)
    assert result["verdict"] == "instrument_not_good_enough"
    assert result["reasons"][0]["code"] == "window_too_narrow"
    assert result["reasons"][0]["needed"] == pytest.approx(0.25)


def test_five_readings_with_a_small_scatter_pass():
    """Mean 8.30, U 0.313 at k 2.03; with k = 2 U is 0.309: accepted up to 8.69 uS/cm."""
    result = judged(8.30, 0.1545, upper=9.0)
    assert (result["verdict"], result["accept_upper"]) == ("pass", pytest.approx(8.69, abs=0.005))


def test_a_colorimeter_just_inside_its_limit_is_not_proven():
    """Mean 0.0767 mg/L, u 0.0169, limit 0.10: p = 0.916 for a normal distribution."""
    result = judged(0.0767, 0.0169, upper=0.10)
    assert (result["verdict"], result["probability"]) == ("conditional_pass", pytest.approx(0.916, abs=5e-4))


@pytest.mark.parametrize(
    ("reading", "u", "lower", "upper", "published"),
    [
        (
            -5.47,
            0.05,
            None,
            -5.40,
            0.92,
        ),  # JCGM 106:2012 clause 7, breakdown voltage of a diode (from memory)
        (13.6, 1.8, 12.5, 16.3, 0.66),  # JCGM 106:2012 clause 7, viscosity of an oil (from memory)
    ],
)
def test_conformance_probability_of_jcgm_106(reading, u, lower, upper, published):
    assert judged(reading, u, lower, upper, decision="simple")["probability"] == pytest.approx(
        published, abs=0.005
    )


def test_the_upper_acceptance_limit_is_solved_since_uncertainty_depends_on_the_reading():
    """10.0 with 1 % + 0.1: (10 - g 0.1) / (1 + g 0.01), g = 2 / root of 3, is 9.772."""
    found = Found(None, None, None, 10.0, "bar", rectangular((0.01, 0.1)))
    result = judge_interval(RULE, found, FORMULAS)
    assert result["verdict"] == "not_measured"
    assert result["accept_upper"] == pytest.approx(9.772, abs=5e-4)


def test_the_lower_acceptance_limit_is_solved_too():
    """10 with 2 % + 0.1: (10 + g 0.1) / (1 - g 0.02) is 10.355."""
    found = Found(None, None, 10.0, None, "bar", rectangular((0.02, 0.1)))
    assert judge_interval(RULE, found, FORMULAS)["accept_lower"] == pytest.approx(10.355, abs=5e-4)


@pytest.mark.parametrize("share", [0, 0.001, 0.02, 0.1, 0.3])
@pytest.mark.parametrize("step", [0, 0.01, 1])
@pytest.mark.parametrize("limit", [0.2, 10, 3000])
def test_at_the_solved_limit_the_reading_is_just_accepted(share, step, limit):
    at = rectangular((share, 0.05), step)
    found = Found(None, None, None, limit, "bar", at)
    accept = judge_interval(RULE, found, FORMULAS)["accept_upper"]
    assert accept + 2 * at(accept) == pytest.approx(limit, rel=1e-12)


def test_a_limit_that_only_a_negative_reading_could_meet_needs_a_better_instrument():
    """Limit 0.10 mg/L, U 0.11: no reading of what cannot be negative passes."""
    found = Found(0.0, 0.055, None, 0.10, "mg/L", lambda reading: 0.055, least=0, most=10)
    result = judge_interval(RULE, found, FORMULAS)
    assert (result["verdict"], result["reasons"][0]["code"]) == (
        "instrument_not_good_enough",
        "no_reading_can_pass",
    )


def test_limits_that_cross_come_before_any_question_of_the_instrument():
    result = judged(None, None, lower=3.25, upper=2.52)
    assert (result["verdict"], result["reasons"][0]["code"]) == ("no_valid_setting", "lower_above_upper")


def test_numbers_that_differ_only_by_their_binary_fraction_count_as_equal():
    """0.5 - 0.042 is 0.458 in decimal and a little more in binary."""
    assert judged(0.5 - 0.042, 0.0, upper=0.458, decision="simple")["verdict"] == "pass"


@pytest.mark.parametrize(("decision", "verdict"), [("simple", "fail"), ("non_binary", "conditional_fail")])
def test_less_than_does_not_accept_the_limit_itself(decision, verdict):
    assert judged(10.0, 0.0, upper=10, decision=decision)["verdict"] == "pass"
    assert judged(10.0, 0.0, upper=10, decision=decision, strict=True)["verdict"] == verdict


def test_the_margin_is_counted_from_the_acceptance_limit():
    assert judged(9.0, 0.1, upper=10)["margin"] == pytest.approx(0.8)
    assert judged(9.0, 0.1, upper=10, decision="simple")["margin"] == pytest.approx(1.0)


def test_without_a_known_uncertainty_nothing_is_proven():
    result = judged(9.0, None, upper=10, decision="guarded")
    assert (result["verdict"], result["reasons"]) == (
        "instrument_not_good_enough",
        [{"code": "uncertainty_unknown"}],
    )
