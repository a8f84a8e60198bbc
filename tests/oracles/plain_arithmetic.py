"""Sums, shares, series and small conversions against numpy, pint, uncertainties and Python's own modules.

Nothing published prints what a difference is. Each is stated in the library's words, never as the
formula has it: a share that a root finder looks for, a band that pint draws, a slope that is fitted.
"""

import statistics
from fractions import Fraction
from math import fsum

import numpy
import pint

from tests.oracles.comparison import SAME, Comparison, every

UNITS = pint.get_application_registry()
PAIRS = every(first=[-3.2, 0.0, 1e-9, 7.25, 4.1e6], second=[-40.0, 0.3, 7.25, 1e5])
"""Two values in any order: negative, equal, nothing, far apart."""
SERIES = (
    [1.32, 1.28, 1.27, 1.26, 1.26],
    [0.03, 0.02],
    [18.2, 18.1, 18.2, 18.15],
    [-0.4, 0.1, 0.2],
    [5000, 5003, 4996, 5001, 5002, 4999],
)
ABOVE_ZERO = tuple({"readings": [abs(one) for one in series]} for series in SERIES)


def named(first, second, pairs=PAIRS):
    """The pairs under the names that a formula gives them."""
    return tuple({first: pair["first"], second: pair["second"]} for pair in pairs)


def grown(point):
    """The share by which the reference has to grow to become the value: a root."""
    return float(numpy.roots([point["reference"], point["reference"] - point["value"]])[0])


def band(point):
    return UNITS.Quantity(point["value"], "bar").plus_minus(point["share"], relative=True)


def fitted_change(point):
    slope = numpy.polynomial.Polynomial.fit([0, point["minutes"]], [point["start"], point["end"]], 1)
    return float(slope.deriv()(0)) * point["per"]


def farthest(readings):
    """How far the readings lie at most from the point in their middle."""
    return float(numpy.max(numpy.abs(readings - numpy.mean([numpy.min(readings), numpy.max(readings)]))))


def unrest(point):
    readings = numpy.array(point["readings"])
    return farthest(readings) / max(abs(numpy.average(readings)), point["resolution"])


def tolerance(point):
    """The tolerance in the unit of the readings, then as a share of their mean."""
    mean = abs(numpy.average(point["readings"]))
    allowed = numpy.max([point["share"] * mean, 2 * point["resolution"]])
    return float(allowed / numpy.max([mean, point["resolution"]]))


def quotient(value, of, by, by_unit, to):
    """A function that divides two inputs as quantities with units."""

    def divided(point):
        return (UNITS.Quantity(point[value], of) / UNITS.Quantity(point[by], by_unit)).to(to).magnitude

    return divided


def warmer(point):
    return (UNITS.Quantity(point["end"], "degC") - UNITS.Quantity(point["start"], "degC")).to("K").magnitude


COMPARISONS = [
    Comparison(
        "difference",
        "numpy",
        "two values, -40 to 4.1e6",
        named("value", "subtract"),
        lambda point: float(numpy.diff([point["subtract"], point["value"]])[0]),
        0,
        SAME,
    ),
    Comparison(
        "ratio",
        "fractions",
        "two values, -40 to 4.1e6",
        named("value", "reference"),
        lambda point: float(Fraction(point["value"]) / Fraction(point["reference"])),
        1e-15,
        SAME,
    ),
    Comparison(
        "relative_difference",
        "numpy",
        "two values, -40 to 4.1e6",
        named("value", "reference"),
        grown,
        1e-15,
        SAME,
    ),
    Comparison(
        "sum_of",
        "math",
        "one to six values of very different size",
        (
            {"first": 0.1},
            {"first": 0.1, "second": 0.2, "third": 0.3},
            {"second": 1e9, "fourth": -1e9, "sixth": 0.25},
            {"first": 4, "second": 31, "third": 12, "fourth": 7.5, "fifth": 1e-3, "sixth": 1e6},
        ),
        lambda point: fsum(point.values()),
        1e-15,
        "Exactly rounded there; ours adds from the first to the last.",
    ),
    Comparison(
        "scaled",
        "fractions",
        "two values, -40 to 4.1e6",
        named("value", "factor"),
        lambda point: float(Fraction(point["value"]) * Fraction(point["factor"])),
        1e-15,
        SAME,
    ),
    Comparison(
        "smaller_of",
        "numpy",
        "two values, -40 to 4.1e6",
        PAIRS,
        lambda point: float(numpy.minimum(point["first"], point["second"])),
        0,
        SAME,
    ),
    Comparison(
        "larger_of",
        "numpy",
        "two values, -40 to 4.1e6",
        PAIRS,
        lambda point: float(numpy.maximum(point["first"], point["second"])),
        0,
        SAME,
    ),
    Comparison(
        "band_lower",
        "pint",
        "0.02 to 350, half-width 0.1 to 100 %",
        every(value=[0.02, 7.5, 350], share=[0.001, 0.1, 0.15, 1]),
        lambda point: (band(point).value - band(point).error).magnitude,
        1e-15,
        SAME,
        absolute=True,
    ),
    Comparison(
        "band_upper",
        "pint",
        "0.02 to 350, half-width 0.1 to 400 %",
        every(value=[0.02, 7.5, 350], share=[0.001, 0.1, 0.15, 4]),
        lambda point: (band(point).value + band(point).error).magnitude,
        1e-15,
        SAME,
    ),
    Comparison(
        "change_per_time",
        "numpy",
        "rising, falling and steady, 0.5 to 600 min, per minute, hour and day",
        every(start=[4.6, -1.0], end=[4.1, 0.0, 12.0], minutes=[0.5, 45, 600], per=[1, 60, 1440]),
        fitted_change,
        1e-12,
        SAME,
    ),
    Comparison(
        "last_reading",
        "numpy",
        "two to six readings",
        tuple({"readings": series} for series in SERIES),
        lambda point: float(numpy.take(point["readings"], -1)),
        0,
        SAME,
    ),
    Comparison(
        "series_count",
        "numpy",
        "two to six readings",
        tuple({"readings": series} for series in SERIES),
        lambda point: float(numpy.size(point["readings"])),
        0,
        SAME,
    ),
    Comparison(
        "series_largest_ratio",
        "numpy",
        "two to six readings above zero",
        ABOVE_ZERO,
        lambda point: float(numpy.max(point["readings"] / numpy.average(point["readings"]))),
        1e-15,
        SAME,
    ),
    Comparison(
        "series_mean",
        "statistics",
        "two to six readings",
        tuple({"readings": series} for series in SERIES),
        lambda point: statistics.fmean(point["readings"]),
        1e-14,
        SAME,
    ),
    Comparison(
        "series_standard_deviation",
        "statistics",
        "two to six readings",
        tuple({"readings": series} for series in SERIES),
        lambda point: statistics.stdev(point["readings"]),
        1e-12,
        SAME,
    ),
    Comparison(
        "reading_stability",
        "numpy",
        "two to six readings, also near zero; resolution 0.01 and 0.1",
        tuple({"readings": series, "resolution": step} for series in SERIES for step in (0.01, 0.1)),
        unrest,
        1e-13,
        "The middle of the readings is rounded once more there.",
    ),
    Comparison(
        "reading_stability_maximum",
        "numpy",
        "two to six readings, also near zero; resolution 0.01 and 0.1; share 1 and 3 %",
        tuple(
            {"readings": series, "resolution": step, "share": share}
            for series in SERIES
            for step in (0.01, 0.1)
            for share in (0.01, 0.03)
        ),
        tolerance,
        1e-13,
        SAME,
    ),
    Comparison(
        "dead_leg_ratio",
        "pint",
        "length 0 to 1.5 m, bore 4 to 50 mm",
        every(length=[0, 32, 97, 1500], bore=[4, 16.2, 50]),
        quotient("length", "mm", "bore", "mm", ""),
        1e-15,
        SAME,
    ),
    Comparison(
        "timed_flow",
        "pint",
        "0 to 20 L in 4 to 90 s",
        every(volume=[0, 0.5, 20], time=[4, 33.3, 90]),
        quotient("volume", "L", "time", "s", "L/min"),
        1e-15,
        SAME,
    ),
    Comparison(
        "temperature_change",
        "pint",
        "-5 to 80 °C",
        every(start=[-5, 12.5, 80], end=[-5, 12.4, 25]),
        warmer,
        1e-12,
        "There both go through kelvin.",
        absolute=True,
    ),
]
