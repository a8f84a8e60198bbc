"""Against scipy: normal, Poisson and Student's t, each with the deviation that the docstrings state."""

import numpy
import pytest
from scipy import special, stats

from checks.catalogue import FORMULAS
from checks.formulas.normal import error_function_complement, normal_below


@pytest.mark.parametrize("reach", [0.46, 0.47, 3.9, 4.1, 26.0])
def test_complementary_error_function_has_fourteen_digits(reach):
    """26 is where the value nears the smallest number of full precision."""
    for x in numpy.linspace(0, reach, 500):
        assert error_function_complement.numeric(float(x)) == pytest.approx(float(special.erfc(x)), rel=3e-14)


def test_share_below_has_thirteen_digits_on_both_sides_of_zero():
    for z in numpy.linspace(-37, 37, 2001):
        assert normal_below.numeric(float(z)) == pytest.approx(float(stats.norm.cdf(z)), rel=1e-13)


@pytest.mark.parametrize("reading", [-3.0, 9.0, 9.99, 10.0, 10.4, 25.0])
def test_conformance_is_the_probability_between_the_limits(reading):
    given = {"reading": reading, "standard_uncertainty": 0.4, "lower": 9, "upper": 11}
    expected = stats.norm.cdf(11, reading, 0.4) - stats.norm.cdf(9, reading, 0.4)
    assert FORMULAS["conformance_probability"].evaluate(given).value == pytest.approx(
        expected, rel=1e-12, abs=1e-15
    )


@pytest.mark.parametrize("degrees", [1, 2, 3, 4, 7, 19, 100, 999, 1000])
def test_with_few_degrees_of_freedom_conformance_is_students(degrees):
    for reading in (-30.0, 8.7, 9.0, 9.99, 10.0, 11.3, 40.0):
        given = {"reading": reading, "standard_uncertainty": 0.4, "lower": 9, "upper": 11}
        expected = stats.t.cdf(11, degrees, reading, 0.4) - stats.t.cdf(9, degrees, reading, 0.4)
        outcome = FORMULAS["conformance_probability"].evaluate({**given, "degrees_of_freedom": degrees})
        assert outcome.value == pytest.approx(expected, abs=1e-14)


@pytest.mark.parametrize("degrees", [1, 2, 5, 12, 60])
def test_the_slope_of_the_conformance_is_the_density(degrees):
    given = {"reading": 10.3, "standard_uncertainty": 0.4, "upper": 11, "degrees_of_freedom": degrees}
    slope = FORMULAS["conformance_probability"].sensitivities(given)["reading"]
    assert slope == pytest.approx(-stats.t.pdf(11, degrees, 10.3, 0.4), rel=1e-12)


@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.95, 0.999])
@pytest.mark.parametrize("count", [0, 1, 2, 9, 60, 300, 1000])
def test_count_limits_are_those_of_the_chi_square_distribution(count, confidence):
    tail = (1 - confidence) / 2
    given = {"count": count, "volume": 1, "confidence": confidence}
    upper = stats.chi2.isf(tail, 2 * count + 2) / 2
    lower = stats.chi2.ppf(tail, 2 * count) / 2 if count else 0.0
    assert FORMULAS["colony_count_upper"].evaluate(given).value == pytest.approx(upper, rel=1e-11)
    assert FORMULAS["colony_count_lower"].evaluate(given).value == pytest.approx(lower, rel=1e-11)


def test_volume_shows_the_limit_at_the_one_sided_bound():
    for count in (0, 3, 40):
        expected = stats.chi2.isf(0.05, 2 * count + 2) / 2 / 0.1
        given = {"limit": 0.1, "count": count}
        assert FORMULAS["volume_to_demonstrate"].evaluate(given).value == pytest.approx(expected, rel=1e-11)


@pytest.mark.parametrize("degrees", [1, 2, 5, 10, 20, 50, 100])
def test_coverage_factor_is_students_t_to_the_printed_digits(degrees):
    expected = stats.t.ppf((1 + 0.9545) / 2, degrees)
    factor = FORMULAS["coverage_factor"].evaluate({"degrees_of_freedom": degrees}).value
    assert factor == pytest.approx(expected, abs=0.0055)


def test_effective_degrees_follow_from_a_simulation_of_two_samples():
    """Welch's own case: two means of normal samples; scipy's t test gives the degrees."""
    first, second = stats.norm.rvs(size=(2, 12), random_state=7)
    second = second[:5] * 3
    u = [float(numpy.std(one, ddof=1) / len(one) ** 0.5) for one in (first, second)]
    expected = stats.ttest_ind(first, second, equal_var=False).df
    given = {"uncertainties": u, "degrees": [11, 4]}
    assert FORMULAS["effective_degrees_of_freedom"].evaluate(given).value == pytest.approx(
        expected, rel=1e-12
    )


def test_trend_is_the_least_squares_slope():
    readings = [1.32, 1.28, 1.27, 1.26, 1.26]
    expected = stats.linregress(range(5), readings).slope
    assert FORMULAS["reading_trend"].evaluate({"readings": readings}).value == pytest.approx(
        expected, rel=1e-13
    )
