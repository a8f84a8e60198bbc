"""The ends of every input's range: what belongs to it is taken, and what lies beyond names the input."""

import math
import random

import pytest

from checks.catalogue import FORMULAS
from checks.inputs import LARGEST, Choice, Series
from tests.agreement.generated_inputs import some_inputs

BEYOND = 1e-6
"""Relative; the ends themselves have a slack of 1e-9, so that 212 degF is 100 degC."""


def accepted(formula):
    """Inputs that the formula takes."""
    draw = random.Random(formula.name)
    for _ in range(200):
        values = some_inputs(draw, formula)
        if formula.read(values)[1] is None:
            return values
    raise AssertionError(f"No accepted inputs were found for {formula.name}.")


def numbers(formula):
    return {name: given for name, given in formula.inputs.items() if not isinstance(given, Choice)}


def put(formula, name, value):
    """Why the inputs are refused when this one has the value; for a series all its readings have it."""
    given = formula.inputs[name]
    whole = [value] * max(given.at_least, 1) if isinstance(given, Series) else value
    return formula.read({**accepted(formula), name: whole})[1]


def moved(given, end, away):
    """A number beyond an end, or within it when `away` is turned round; counted things move by one."""
    return end + away if given.counted else end + away * BEYOND * max(1.0, abs(end))


def ends(given):
    """(end, direction that leads out, whether it belongs to the range)."""
    low = given.minimum if given.minimum is not None else given.above
    high = given.maximum if given.maximum is not None else given.below
    found = [(-LARGEST if low is None else low, -1, given.above is None)]
    return [*found, (LARGEST if high is None else high, 1, given.below is None)]


@pytest.mark.parametrize("name", FORMULAS)
def test_beyond_an_end_the_input_and_its_range_are_named(name):
    formula = FORMULAS[name]
    for one, given in numbers(formula).items():
        if given.among is not None:
            assert put(formula, one, max(given.among) * 1.5)["code"] == "not_in_table"
            continue
        for end, out, belongs in ends(given):
            beyond = moved(given, end, out) if belongs else end
            reason = put(formula, one, beyond)
            assert reason is not None, f"{one} = {beyond} was taken"
            assert (reason["code"], reason["input"]) == ("outside_range", one)


@pytest.mark.parametrize("name", FORMULAS)
def test_up_to_an_end_the_input_is_taken(name):
    formula = FORMULAS[name]
    for one, given in numbers(formula).items():
        if given.among is not None:
            assert all(put(formula, one, known) is None for known in given.among)
            continue
        for end, out, belongs in ends(given):
            within = end if belongs else moved(given, end, -out)
            assert put(formula, one, math.trunc(within) if given.counted else within) is None, (one, within)


@pytest.mark.parametrize("name", FORMULAS)
def test_a_word_that_is_no_choice_and_a_reading_too_few_are_named(name):
    formula = FORMULAS[name]
    for one, given in formula.inputs.items():
        if isinstance(given, Choice):
            reason = formula.read({**accepted(formula), one: "no_such_word"})[1]
            assert (reason["code"], reason["input"]) == ("unknown_choice", one)
        if isinstance(given, Series):
            few = [given.lowest or 1.0] * (given.at_least - 1)
            reason = formula.read({**accepted(formula), one: few})[1]
            assert (reason["code"], reason["count"]) == ("too_few_readings", given.at_least - 1)
