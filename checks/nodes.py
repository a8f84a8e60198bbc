"""The operations that are no plain expression; `static/judging/nodes.js` is the twin.

Tables, a bracketed root and folds over a series of readings, each with one meaning here and
one there. Every function takes and gives plain numbers and is written with the same steps in
both languages, so that the results agree to the last digits.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

SLACK = 1e-9
HALVINGS = 80

Series = Sequence[float]


def at_most(value: float, limit: float) -> bool:
    """Compare with a relative slack of 1e-9: 0.5 - 0.042 counts as at most 0.458."""
    return value <= limit or value - limit <= SLACK * max(1.0, min(abs(value), abs(limit)))


def larger(first: float, second: float) -> float:
    """The larger of two numbers."""
    return first if first >= second else second


def smaller(first: float, second: float) -> float:
    """The smaller of two numbers."""
    return first if first <= second else second


def started(value: float) -> float:
    """The number of steps begun: 1.2 steps count as 2, 1.0000000001 as 1."""
    return float(math.ceil(value - SLACK))


def completed(value: float) -> float:
    """The number of steps completed: 1.8 steps count as 1, 1.9999999999 as 2."""
    return float(math.floor(value + SLACK))


def total(function: Callable[..., float], *series: Series) -> float:
    """Sum of a function over the readings, in their order; nan when lengths differ."""
    if any(len(other) != len(series[0]) for other in series):
        return math.nan
    result = 0.0
    for values in zip(*series, strict=True):
        result += function(*values)
    return result


def count(series: Series) -> float:
    """How many readings there are."""
    return float(len(series))


def last(series: Series) -> float:
    """The newest reading."""
    return series[-1] if series else math.nan


def tail(series: Series, number: float) -> Series:
    """The newest readings, as many as asked for; all of them when asked for 0."""
    wanted = int(number)
    return series[-wanted:] if wanted > 0 else series


def greatest(series: Series) -> float:
    """The greatest reading."""
    return max(series) if series else math.nan


def least(series: Series) -> float:
    """The least reading."""
    return min(series) if series else math.nan


def slope(series: Series) -> float:
    """Least-squares slope per reading, the readings being evenly spaced; nan for fewer than two."""
    size = len(series)
    if size < 2:
        return math.nan
    middle = (size - 1) / 2
    above = below = 0.0
    for place, value in enumerate(series):
        above += (place - middle) * value
        below += (place - middle) * (place - middle)
    return above / below


def squares(series: Series) -> float:
    """Sum of the squared deviations of the readings from their mean."""
    size = len(series)
    mean = total(float, series) / size if size else math.nan
    result = 0.0
    for value in series:
        result += (value - mean) * (value - mean)
    return result


def exact(keys: Series, values: Series, key: float) -> float:
    """The table's value at exactly this key; nan when the key is not in the table."""
    for known, value in zip(keys, values, strict=True):
        if at_most(known, key) and at_most(key, known):
            return value
    return math.nan


def step_down(keys: Series, values: Series, key: float) -> float:
    """The table's value at this key or at the next lower one; nan outside the table."""
    found = math.nan
    for known, value in zip(keys, values, strict=True):
        if at_most(known, key):
            found = value
    return found if at_most(key, keys[-1]) else math.nan


def linear(keys: Series, values: Series, key: float) -> float:
    """The table's value, straight lines between the rows; nan outside the table."""
    row = _row(keys, key)
    if row < 0:
        return math.nan
    share = (key - keys[row]) / (keys[row + 1] - keys[row])
    return values[row] + share * (values[row + 1] - values[row])


def linear_slope(keys: Series, values: Series, key: float) -> float:
    """Slope of the straight line that `linear` uses at this key."""
    row = _row(keys, key)
    return math.nan if row < 0 else (values[row + 1] - values[row]) / (keys[row + 1] - keys[row])


def _row(keys: Series, key: float) -> int:
    """Index of the line's lower row; -1 outside the table."""
    if not (at_most(keys[0], key) and at_most(key, keys[-1])):
        return -1
    row = 0
    while row < len(keys) - 2 and keys[row + 1] <= key:
        row += 1
    return row


def root(function: Callable[[float], float], lower: float, upper: float) -> float:
    """Where the function changes its sign between the two ends, by halving 80 times.

    The number of halvings is fixed, so that both languages walk the same path. The ends
    themselves count as roots when the function does not change its sign.
    """
    at_lower = function(lower)
    if at_lower == 0:
        return lower
    for _ in range(HALVINGS):
        middle = lower + (upper - lower) / 2
        if (function(middle) > 0) == (at_lower > 0):
            lower = middle
        else:
            upper = middle
    return lower + (upper - lower) / 2


def poisson(number: float, mean: float) -> float:
    """Probability of at most `number` events when `mean` are expected; 0 below zero events.

    Holds to 1e-13 for up to 1000 events: the exponential is taken in two halves, which
    keeps every term inside the range of a double.
    """
    if number < 0:
        return 0.0
    half = math.exp(-mean / 2)
    term = half
    result = term
    for event in range(1, int(number) + 1):
        term = term * mean / event
        result += term
    return result * half


def poisson_density(number: float, mean: float) -> float:
    """Probability of exactly `number` events when `mean` are expected."""
    half = math.exp(-mean / 2)
    term = half
    for event in range(1, int(number) + 1):
        term = term * mean / event
    return term * half


def student(t: float, degrees: float) -> float:
    """Share of Student's distribution below t: a finite sum for a whole number of degrees of freedom.

    Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (from memory).
    """
    whole = int(degrees)
    below = math.sqrt(whole + t * t)
    sine, square = t / below, whole / (whole + t * t)
    odd = whole % 2
    term = sine * math.sqrt(square) if odd else sine
    result = 0.0
    for step in range(odd + 1, whole + odd, 2):
        result += term
        term = term * square * step / (step + 1)
    share = 2 / math.pi * (math.atan(t / math.sqrt(whole)) + result) if odd else result
    return (1 + share) / 2


def student_density(t: float, degrees: float) -> float:
    """Density of Student's distribution at t, for a whole number of degrees of freedom."""
    whole = int(degrees)
    scale = math.sqrt(math.pi) / 2 if whole % 2 == 0 else 1 / math.sqrt(math.pi)
    for step in range(2 - whole % 2, whole, 2):
        scale = scale * (step + 1) / step
    power: float = math.pow(1 + t * t / whole, -(whole + 1) / 2)
    return scale / math.sqrt(whole * math.pi) * power
