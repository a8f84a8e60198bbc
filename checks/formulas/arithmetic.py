"""Two or a few values of one unit put side by side: difference, ratio, sum, the smaller, the larger."""

from __future__ import annotations

from typing import Any

import sympy

from checks.expressions import given, larger, smaller
from checks.formula import ANY, Input, Refusal, formula
from checks.source import practice

FIRST = Input(ANY, "first value", symbol="a")
SECOND = Input(ANY, "second value", symbol="b")
PARTS: dict[str, Any] = {
    name: Input(ANY, f"{name} value", optional=True, symbol=f"x_{place}")
    for place, name in enumerate(("first", "second", "third", "fourth", "fifth", "sixth"), 1)
}


@formula(
    result_unit=ANY,
    source=practice("how far apart two values are"),
    value=Input(ANY, "value", symbol="a"),
    subtract=Input(ANY, "value that is taken off", symbol="b"),
)
def difference(value, subtract):
    """One value less another of the same unit; negative when the second is the larger.

    Exact by definition.
    """
    return value - subtract


@formula(
    result_unit="1",
    source=practice("one value as a multiple of another"),
    value=Input(ANY, "value", symbol="a"),
    reference=Input(ANY, "value it is divided by", symbol="b"),
)
def ratio(value, reference):
    """One value divided by another of the same unit. Exact by definition."""
    return value / reference


@formula(
    result_unit="1",
    source=practice("a change as a share of where it began"),
    value=Input(ANY, "value", symbol="a"),
    reference=Input(ANY, "value it is compared with", symbol="b"),
)
def relative_difference(value, reference):
    """How far a value lies from a reference, as a share of the reference; negative below it.

    Says little where the reference is near zero. Exact by definition.
    """
    return (value - reference) / reference


@formula(result_unit=ANY, source=practice("the smaller of two limits counts"), first=FIRST, second=SECOND)
def smaller_of(first, second):
    """The smaller of two values of the same unit. Exact by definition."""
    return smaller(first, second)


@formula(result_unit=ANY, source=practice("the larger of two limits counts"), first=FIRST, second=SECOND)
def larger_of(first, second):
    """The larger of two values of the same unit. Exact by definition."""
    return larger(first, second)


def none_given(first, second, third, fourth, fifth, sixth):
    """The condition that there is no value at all."""
    return sympy.And(*(~given(one) for one in (first, second, third, fourth, fifth, sixth)))


@formula(
    result_unit=ANY,
    source=practice("parts add up to the whole"),
    refusals=(Refusal("nothing_given", none_given),),
    **PARTS,
)
def sum_of(first, second, third, fourth, fifth, sixth):
    """Sum of up to six values of the same unit; what is left out counts as zero.

    Exact by definition.
    """
    return first + second + third + fourth + fifth + sixth


@formula(
    result_unit=ANY,
    source=practice("a drift is named per hour"),
    start=Input(ANY, "value at the start", symbol="x_1"),
    end=Input(ANY, "value at the end", symbol="x_2"),
    minutes=Input("min", "time between them", above=0, symbol="t"),
    per=Input("min", "period that the change is given for", above=0, default=60, exact=True, symbol="T"),
)
def change_per_time(start, end, minutes, per):
    """Change of a value in a period, one hour unless another is given; negative when it falls.

    The change is taken as steady between the two readings. Its unit is that of the value.
    """
    return (end - start) * per / minutes
