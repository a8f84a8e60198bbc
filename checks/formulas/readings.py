"""What a series of readings says: newest, mean, spread, trend; and small conversions of one value."""

from __future__ import annotations

import sympy

from checks.expressions import count, greatest, larger, last, least, slope, squares, step, total
from checks.formula import ANY, Input, Series, Source, formula
from checks.source import practice

GUM = Source(
    "JCGM 100, Guide to the expression of uncertainty in measurement", "2008", "4.2.1", "from memory"
)
LOW_FLOW = Source(
    "R. Puls, M. Barcelona, Low-Flow Ground-Water Sampling, EPA/540/S-95/504",
    "1996",
    "stabilisation, 3 % in three successive readings, as their laboratory's abstract has it",
    "seen",
)
LEAST_SQUARES = Source(
    "NIST/SEMATECH e-Handbook of Statistical Methods", "2012", "4.1.4.1, linear least squares", "from memory"
)

GUM_SCATTER = Source(GUM.work, "2008", "4.2.2, 4.2.3, type A evaluation", "from memory")
READINGS = Series(ANY, "readings, oldest first", symbol="x")
REPEATS = Series(ANY, "repeated readings of one thing", at_least=2, symbol="x")


@formula(
    result_unit=ANY,
    source=GUM,
    symbol="x_mean",
    readings=Series(ANY, "repeated readings of one thing", repeats=True, symbol="x"),
)
def series_mean(readings):
    """Arithmetic mean of the readings.

    For repeats of one and the same measurement: their scatter counts in the uncertainty of the mean.
    Says nothing about a trend. Exact by definition.
    """
    return total("plain_sum", lambda reading: reading, readings) / count(readings)


@formula(result_unit=ANY, source=GUM_SCATTER, symbol="s", readings=REPEATS)
def series_standard_deviation(readings):
    """Experimental standard deviation of repeated readings, with n - 1. Exact by definition."""
    return sympy.sqrt(squares(readings) / (count(readings) - 1))


@formula(result_unit=ANY, source=GUM_SCATTER, symbol="u_A", readings=REPEATS)
def series_mean_uncertainty(readings):
    """Standard uncertainty of the mean of repeated readings, from their scatter (type A).

    With n - 1 degrees of freedom: of few readings it is not well known itself.
    Not for readings that drift. Exact by definition.
    """
    return sympy.sqrt(squares(readings) / (count(readings) * (count(readings) - 1)))


@formula(result_unit=ANY, source=practice("the newest reading is the one that counts"), readings=READINGS)
def last_reading(readings):
    """The newest of the readings.

    Exact by definition.
    """
    return last(readings)


@formula(result_unit="1", source=practice("readings are counted"), symbol="n", readings=READINGS)
def series_count(readings):
    """How many readings there are. Exact by definition."""
    return count(readings)


@formula(
    result_unit="1",
    source=practice("parts that work in parallel are compared with their mean"),
    readings=Series(ANY, "readings, one of each part", above=0, symbol="x"),
)
def series_largest_ratio(readings):
    """The largest reading as a multiple of the mean: 1 where all parts are alike.

    For quantities above zero, as the conductivities behind membranes in parallel.
    Exact by definition.
    """
    mean = step("x_mean", "mean of the readings", ANY, series_mean.on(readings=readings))
    return greatest(readings) / mean


@formula(
    result_unit="1",
    source=LOW_FLOW,
    readings=Series(ANY, "readings, oldest first", at_least=2, symbol="x"),
    resolution=Input(ANY, "smallest step of the display", minimum=0, default=0, exact=True, symbol="d"),
)
def reading_stability(readings, resolution):
    """Relative half-range: how far the readings lie from their middle, as a share of their mean.

    A steady trend can have a small half-range, so look at the trend too. A mean smaller than one
    step of the display counts as one step, because a share of nothing means nothing.
    Exact by definition.
    """
    mean = step("x_mean", "mean of the readings", ANY, series_mean.on(readings=readings))
    return (greatest(readings) - least(readings)) / 2 / larger(sympy.Abs(mean), resolution)


@formula(
    result_unit="1",
    source=LOW_FLOW,
    readings=Series(ANY, "readings, oldest first", symbol="x"),
    resolution=Input(ANY, "smallest step of the display", above=0, exact=True, symbol="d"),
    share=Input("1", "allowed share of the mean", above=0, below=1, default=0.03, exact=True, symbol="s"),
)
def reading_stability_maximum(readings, resolution, share):
    """Largest relative half-range that still counts as stable: a share, or two steps of the display.

    Near zero a share of the mean is finer than the display can show; then two steps count.
    The 3 % are practice of ground-water sampling for three readings 3 to 5 minutes apart.
    """
    mean = step("x_mean", "mean of the readings", ANY, series_mean.on(readings=readings))
    return larger(share, 2 * resolution / larger(sympy.Abs(mean), resolution))


@formula(
    result_unit=ANY,
    source=LEAST_SQUARES,
    readings=Series(ANY, "readings, oldest first, evenly spaced in time", at_least=2, symbol="x"),
)
def reading_trend(readings):
    """Least-squares slope of the readings: change from one reading to the next.

    Holds for readings evenly spaced in time. Exact by definition.
    """
    return slope(readings)


@formula(
    result_unit="min",
    source=Source("ISO 8601-1, Date and time", "2019", "3.1.1.8, duration", "from memory"),
    start=Input("ms", "first instant, milliseconds since 1970 in UTC", symbol="t_1"),
    end=Input("ms", "second instant, milliseconds since 1970 in UTC", symbol="t_2"),
)
def elapsed_minutes(start, end):
    """Minutes from one instant to another; negative when they are in the other order.

    Leap seconds are not counted, as in every computer's clock.
    """
    return (end - start) / 60000


@formula(
    result_unit=ANY,
    source=practice("a share or a multiple of a value"),
    value=Input(ANY, "value", symbol="x"),
    factor=Input("1", "factor", symbol="f"),
)
def scaled(value, factor):
    """A value times a factor. Exact by definition."""
    return value * factor
