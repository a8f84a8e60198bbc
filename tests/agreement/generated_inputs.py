"""Inputs for a formula: over its whole range, at every edge and just beside it, and nonsense."""

import math
import random

from checks.inputs import LARGEST, Choice, Series

NONSENSE = ["", "x", True, [], {}, -1, 0, 1e16, 1e-300, "inf", 0.5, [1, "x"], [1, None]]


def sane_input(draw: random.Random, given):
    """A value that the input takes, most often."""
    if isinstance(given, Choice):
        return draw.choice(list(given.options))
    if isinstance(given, Series):
        return [sane_number(draw, given) for _ in range(draw.randint(given.at_least, given.at_least + 6))]
    return sane_number(draw, given)


def sane_number(draw: random.Random, given):
    if given.among is not None:
        return draw.choice(given.among)
    if given.infinite and draw.random() < 0.2:
        return "inf"
    low, high = given.lowest, given.highest
    low = -1000.0 if low is None else low
    high = max(1000.0, 10 * abs(low)) if high is None else high
    if given.counted:
        return float(draw.randint(int(low), min(int(high), 60)))
    if low >= 0 and high > 100 and draw.random() < 0.5:
        return (
            round(math.exp(draw.uniform(math.log(max(low, 1e-3)), math.log(high))), draw.randint(0, 9)) or 1.0
        )
    return round(draw.uniform(low, high), draw.choice([0, 1, 2, 12]))


def edges(given):
    """Both ends of the range, inside and outside by the least step and by more than the slack."""
    if isinstance(given, Choice):
        return [*given.options, "no_such_word", 1, 5, 2.5]
    found = [LARGEST, -LARGEST, LARGEST * 1.01]
    for end in (given.lowest, given.highest):
        if end is not None:
            step = max(1.0, abs(end))
            found += [end, math.nextafter(end, -math.inf), math.nextafter(end, math.inf)]
            found += [end - 5e-10 * step, end + 5e-10 * step, end - 1e-6 * step, end + 1e-6 * step]
    return [[value] * max(given.at_least, 1) for value in found] if isinstance(given, Series) else found


def cases(formula, number: int, seed: int = 20261125):
    """Sets of inputs for a formula: so many sane ones, then one odd value in an otherwise sane set."""
    draw = random.Random(f"{formula.name} {seed}")
    found = [some_inputs(draw, formula) for _ in range(number)]
    for name, given in formula.inputs.items():
        for odd in [*edges(given), *NONSENSE]:
            found.append({**some_inputs(draw, formula), name: odd})
        found.append({other: value for other, value in some_inputs(draw, formula).items() if other != name})
    found += [{}, {"no_such_input": 1}]
    return found + collisions(draw, formula)


def some_inputs(draw: random.Random, formula):
    """A sane set; inputs that have a default or may be left out are left out now and then."""
    values = {}
    for name, given in formula.inputs.items():
        needless = given.default is not None or getattr(given, "optional", False)
        if not (needless and draw.random() < 0.3):
            values[name] = sane_input(draw, given)
    return values


def collisions(draw: random.Random, formula):
    """Sets in which several inputs have the very same value: limits at readings, starts at ends."""
    numeric = [name for name, given in formula.inputs.items() if hasattr(given, "unit")]
    found = []
    for _ in range(40 if len(numeric) > 1 else 0):
        values = some_inputs(draw, formula)
        one, other = draw.sample(numeric, 2)
        if one in values and other in values:
            values[one] = values[other]
        found.append(values)
    return found
