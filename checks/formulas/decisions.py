"""Uncertainty of a reading, and what it leaves of a limit: decision rules as expressions."""

from __future__ import annotations

from typing import Any

import sympy

from checks.expressions import count, given, larger, pick, step, student, total, when
from checks.formula import ANY, Choice, Input, Refusal, Series, Source, formula
from checks.formulas.normal import normal_below
from checks.lookup import tables
from checks.nodes import SLACK

GUM = "JCGM 100, Guide to the expression of uncertainty in measurement"
GUM_TYPE_B = Source(GUM, "2008", "4.3.3, 4.3.7, F.2.2.1", "from memory")
GUM_SHARED = Source(GUM, "2008", "5.2.2, F.1.2.3, correlation through a common instrument", "from memory")
WELCH = Source(GUM, "2008", "G.4.1, equation G.2b", "seen")
STUDENT = tables("jcgm-100-2008")["coverage_factor"]
JCGM_106 = Source("JCGM 106, Conformity assessment", "2012", "clause 7", "from memory")
ILAC_G8 = Source("ILAC-G8, Guidelines on decision rules", "09/2019", "4.2", "seen")

MOST_DEGREES = 1000  # Student's distribution is the normal one then, to 1e-4
VERDICTS = (
    "pass",
    "conditional_pass",
    "conditional_fail",
    "fail",
    "instrument_not_good_enough",
    "no_valid_setting",
)
READING = Input(ANY, "reading", symbol="y")
LOWER = Input(ANY, "lower limit", optional=True, symbol="T_L")
UPPER = Input(ANY, "upper limit", optional=True, symbol="T_U")
OF_READING = Input(
    "1", "accuracy as a share of the reading", minimum=0, below=0.5, default=0, exact=True, symbol="b"
)
SPECIFIED: dict[str, Any] = {
    "accuracy_of_reading": Input(
        "1", "accuracy as a share of the reading", minimum=0, maximum=10, default=0, exact=True, symbol="b"
    ),
    "accuracy_of_range": Input(
        "1", "accuracy as a share of the range", minimum=0, maximum=10, default=0, exact=True, symbol="p"
    ),
    "range": Input(ANY, "span of the measuring range", minimum=0, default=0, exact=True, symbol="S"),
    "digits": Input(
        "1", "accuracy in steps of the display", minimum=0, maximum=1e6, default=0, exact=True, symbol="n"
    ),
    "resolution": Input(ANY, "smallest step of the display", minimum=0, default=0, exact=True, symbol="d"),
    "calibration_uncertainty": Input(
        ANY, "expanded uncertainty of the calibration, k = 2", minimum=0, default=0, exact=True, symbol="U_c"
    ),
}
NO_LIMIT = Refusal("no_limit_given", lambda lower, upper: ~given(lower) & ~given(upper))


def spread_of(uncertainties, degrees):
    """Sum of the fourth powers, each divided by its degrees of freedom."""
    return total("fourth_power_sum", lambda u, nu: u**4 / nu, uncertainties, degrees)


def half_width(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution):  # noqa: A002
    """The accuracy's parts added up."""
    a = accuracy_of_reading * sympy.Abs(reading) + accuracy_of_range * range + digits * resolution
    return step("a", "half-width of the accuracy", ANY, a)


@formula(result_unit=ANY, source=GUM_TYPE_B, symbol="u", reading=READING, **SPECIFIED)
def standard_uncertainty(
    reading,
    accuracy_of_reading,
    accuracy_of_range,
    range,  # noqa: A002 - the word of the instrument's specification
    digits,
    resolution,
    calibration_uncertainty,
):
    """Standard uncertainty of a reading, from its instrument's specification.

    Holds within the calibration interval and the range of conditions of the specification.
    The accuracy's parts add up to one half-width a; a and half a step of the display are taken as
    rectangular (divided by the root of 3), the calibration's figure as normal with k = 2. Where the
    accuracy already contains the resolution, give 0 for the resolution.
    """
    a = half_width(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution)
    return sympy.sqrt(a**2 / 3 + resolution**2 / 12 + (calibration_uncertainty / 2) ** 2)


@formula(result_unit=ANY, source=GUM_SHARED, symbol="u_s", reading=READING, **SPECIFIED)
def instrument_uncertainty(
    reading,
    accuracy_of_reading,
    accuracy_of_range,
    range,  # noqa: A002
    digits,
    resolution,
    calibration_uncertainty,
):
    """The part of a reading's standard uncertainty that all readings with this instrument share.

    Accuracy and calibration, without the step of the display. Between readings of one instrument this
    part is taken as fully correlated: it falls out of a difference of equal readings and doubles in a sum.
    """
    a = half_width(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution)
    return sympy.sqrt(a**2 / 3 + (calibration_uncertainty / 2) ** 2)


@formula(result_unit=ANY, source=GUM_TYPE_B, symbol="u_d", resolution=SPECIFIED["resolution"])
def resolution_uncertainty(resolution):
    """Standard uncertainty from the step of the display: half a step, rectangular."""
    return resolution / (2 * sympy.sqrt(3))


@formula(
    result_unit="1",
    source=STUDENT.source,
    symbol="k",
    degrees_of_freedom=Input(
        "1", "effective degrees of freedom", minimum=1, infinite=True, counted=False, symbol="nu"
    ),
)
def coverage_factor(degrees_of_freedom):
    """Factor from standard to expanded uncertainty for a coverage of 95.45 %.

    The row of the degrees of freedom or the next lower one, which is on the safe side.
    """
    return STUDENT(degrees_of_freedom)


@formula(
    result_unit="1",
    source=WELCH,
    symbol="nu_eff",
    refusals=(
        Refusal(
            "lengths_differ", lambda uncertainties, degrees: sympy.Ne(count(uncertainties), count(degrees))
        ),
        Refusal("unlimited_degrees", lambda uncertainties, degrees: spread_of(uncertainties, degrees) <= 0),
    ),
    uncertainties=Series(ANY, "contributions to the standard uncertainty", minimum=0, symbol="u_i"),
    degrees=Series("1", "their degrees of freedom", above=0, infinite=True, symbol="nu_i"),
)
def effective_degrees_of_freedom(uncertainties, degrees):
    """Effective degrees of freedom of a combined standard uncertainty (Welch-Satterthwaite).

    For independent contributions, already multiplied by their sensitivities. A contribution that
    is known without limit has the degrees "inf"; when all have, there is no number: take k = 2.
    """
    combined = step(
        "q", "square of the combined uncertainty", ANY, total("square_sum", lambda u: u**2, uncertainties)
    )
    return combined**2 / spread_of(uncertainties, degrees)


@formula(
    result_unit=ANY,
    source=(ILAC_G8, GUM_TYPE_B),
    symbol="A",
    refusals=(Refusal("no_acceptable_reading", lambda result: result < 0),),
    limit=Input(ANY, "limit", minimum=0, symbol="T"),
    side=Choice(
        {"upper": "the reading must not be above", "lower": "the reading must not be below"},
        "side of the limit",
    ),
    accuracy_of_reading=OF_READING,
    accuracy_absolute=Input(
        ANY, "accuracy that does not depend on the reading", minimum=0, default=0, exact=True, symbol="c"
    ),
)
def acceptance_limit(limit, side, accuracy_of_reading, accuracy_absolute):
    """The reading that just passes when the guard band is the expanded uncertainty (k = 2).

    Solved, because the uncertainty depends on the reading: y + 2 (b y + c) / root of 3 = limit.
    For a rectangular accuracy alone and quantities that cannot be negative.
    """
    g = 2 / sympy.sqrt(3)
    return pick(
        side,
        {
            "upper": (limit - g * accuracy_absolute) / (1 + g * accuracy_of_reading),
            "lower": (limit + g * accuracy_absolute) / (1 - g * accuracy_of_reading),
        },
    )


@formula(
    result_unit="1",
    source=JCGM_106,
    symbol="p_c",
    refusals=(NO_LIMIT,),
    reading=READING,
    standard_uncertainty=Input(ANY, "standard uncertainty of the reading", above=0, symbol="u"),
    lower=LOWER,
    upper=UPPER,
    degrees_of_freedom=Input(
        "1", "its degrees of freedom, where they are few", minimum=1, counted=True, optional=True, symbol="nu"
    ),
)
def conformance_probability(reading, standard_uncertainty, lower, upper, degrees_of_freedom):
    """Probability that the true value is inside the limits, for a normal or Student's distribution.

    Without degrees of freedom, or with more than 1000, the normal distribution counts; it is computed by
    Cody's rational approximation: relative deviation below 1e-13 down to 37 standard uncertainties.
    JCGM 106 treats the normal case; Student's t with the effective degrees of freedom is that of
    JCGM 100 G.3 and exact to 1e-14.
    """
    few = given(degrees_of_freedom) & (degrees_of_freedom <= MOST_DEGREES)
    from_above, from_below = (
        when(few, student(z, degrees_of_freedom), normal_below(z))
        for z in ((upper - reading) / standard_uncertainty, (lower - reading) / standard_uncertainty)
    )
    return when(given(upper), from_above, 1) - when(given(lower), from_below, 0)


@formula(
    result_unit=VERDICTS,
    source=ILAC_G8,
    refusals=(NO_LIMIT,),
    reading=READING,
    expanded_uncertainty=Input(ANY, "expanded uncertainty of the reading", minimum=0, symbol="U"),
    lower=LOWER,
    upper=UPPER,
    guard=Input(
        "1", "guard band as a multiple of U", minimum=0, maximum=10, default=1, exact=True, symbol="r"
    ),
    rule=Choice(
        {
            "non_binary": "four words: pass, conditional pass, conditional fail, fail",
            "binary": "only a reading inside the guarded limits passes",
            "simple": "the limits count as they are",
        },
        "decision rule",
        default="non_binary",
    ),
)
def guarded_verdict(reading, expanded_uncertainty, lower, upper, guard, rule):
    """What a reading with its uncertainty says about the limits.

    A reading exactly at a limit counts to the better side (our convention), with a relative slack
    of 1e-9. Limits that cross have no valid setting; a window narrower than two guard bands can be
    passed by no reading of this instrument.
    """
    band = step(
        "w",
        "guard band",
        ANY,
        pick(
            rule,
            {"non_binary": guard * expanded_uncertainty, "binary": guard * expanded_uncertainty, "simple": 0},
        ),
    )
    largest = larger(sympy.Abs(reading), larger(sympy.Abs(lower), sympy.Abs(upper)))
    slack = step("s", "slack of the comparison", ANY, SLACK * largest)
    over = when(given(upper), reading - upper, -largest)
    under = when(given(lower), lower - reading, -largest)
    outside = step("e", "how far outside the limits, less the slack", ANY, larger(over, under) - slack)
    window = step(
        "o", "width between the limits", ANY, when(given(lower) & given(upper), upper - lower, largest)
    )
    four = when(outside <= -band, 0, when(outside <= 0, 1, when(outside <= band, 2, 3)))
    two = when(outside <= -band, 0, 3)
    zone = pick(rule, {"non_binary": four, "binary": two, "simple": two})
    both = given(lower) & given(upper)
    too_narrow = both & (window + slack < 2 * band)
    return when(both & (window < -slack), 5, when(too_narrow, 4, zone))
