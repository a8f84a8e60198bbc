"""What a count of colonies says about the water, and how much water it takes to say it."""

from __future__ import annotations

import sympy

from checks.expressions import poisson, root, step, when
from checks.formula import Input, Source, formula

GARWOOD = Source(
    "F. Garwood, Biometrika 28", "1936", "p. 437, fiducial limits for the Poisson distribution", "seen"
)
COUNTING = Source(
    "ISO 8199, Water quality - Microbiological culture methods", "2018", "counting", "from memory"
)

COUNT = Input("1", "colonies counted", minimum=0, maximum=1000, counted=True, symbol="n")
VOLUME = Input("mL", "volume examined", above=0, maximum=1e6, symbol="V")
TWO_SIDED = Input(
    "1", "confidence, two-sided", above=0, maximum=0.9999, default=0.95, exact=True, symbol="gamma"
)


def upper_mean(count, tail):
    """The mean at which so few colonies would be seen with probability `tail`."""
    highest = count + 12 * sympy.sqrt(count + 1) + 12
    mean = root("few_enough", lambda x, n, tail: poisson(n, x) - tail, count, highest, n=count, tail=tail)
    return step("m", "mean at which so few would be seen this rarely", "1", mean)


@formula(result_unit="CFU/mL", source=COUNTING, count=COUNT, volume=VOLUME)
def colony_count(count, volume):
    """Colonies per volume, the plain result.

    Says nothing about how sure it is: see the lower and the upper limit. Exact by definition.
    """
    return count / volume


@formula(result_unit="CFU/mL", source=GARWOOD, count=COUNT, volume=VOLUME, confidence=TWO_SIDED)
def colony_count_lower(count, volume, confidence):
    """Lower limit of the true colony count, from counting alone.

    Clumps, operator and medium widen it further. Up to 1000 colonies; 0 when none was found.
    The exact limit; halving leaves a relative error below 1e-12.
    """
    above = root(
        "many_enough",
        lambda x, n, rest: poisson(n - 1, x) - rest,
        0,
        count,
        n=count,
        rest=(1 + confidence) / 2,
    )
    mean = step("m", "mean at which so many would be seen this rarely", "1", when(count < 1, 0, above))
    return mean / volume


@formula(result_unit="CFU/mL", source=GARWOOD, count=COUNT, volume=VOLUME, confidence=TWO_SIDED)
def colony_count_upper(count, volume, confidence):
    """Upper limit of the true colony count, from counting alone.

    Clumps, operator and medium widen it further. Up to 1000 colonies.
    The exact limit; halving leaves a relative error below 1e-12.
    """
    return upper_mean(count, (1 - confidence) / 2) / volume


@formula(
    result_unit="mL",
    source=GARWOOD,
    symbol="V_min",
    limit=Input("CFU/mL", "limit to be shown", above=0, maximum=1e6, symbol="c"),
    count=Input(
        "1", "colonies that may be counted", minimum=0, maximum=1000, default=0, counted=True, symbol="n"
    ),
    confidence=Input(
        "1", "confidence, one-sided", above=0, maximum=0.9999, default=0.95, exact=True, symbol="gamma"
    ),
)
def volume_to_demonstrate(limit, count, confidence):
    """Least volume in which so many colonies still show that the water is below the limit.

    From counting alone. With no colony at 95 % it is 3.0 divided by the limit.
    """
    return upper_mean(count, 1 - confidence) / limit
