"""What was typed into a formula's form, read: bare numbers for the formula, or the sentence why not.

`static/parts/calculator-reading.js` does the same on the phone; a test holds the two together.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from checks.entries import days
from checks.formula import Formula
from checks.inputs import ANY, Choice, Input, Series
from checks.units import convert, read_typed
from webapp.calculator import declared
from webapp.calculator.declared import SHARED, capital, label
from webapp.language import _, say, sentence

ENDLESS = ("inf", "infinite", "infinity", "∞")
DIFFERENCES = ("degC", "degF")

Texts = Callable[[str], list[str]]
"""All texts that were sent under a name, in their order."""


@dataclass
class Reading:
    """`values` are in the declared units, ANY in `shared`; `problems` are sentences by input."""

    values: dict[str, Any] = field(default_factory=dict)
    problems: dict[str, str] = field(default_factory=dict)
    shared: str = "1"


@dataclass(frozen=True)
class Answer:
    """What a form comes to: a value in the declared unit and as shown, or why there is none."""

    value: Any = None
    unit: str = "1"
    shown: Any = None
    shown_unit: str = "1"
    reason: str = ""
    code: str = ""
    missing: tuple[str, ...] = ()
    at: str = ""


def read_inputs(formula: Formula, texts: Texts) -> Reading:
    """Read every input of the formula; what is empty is left out."""
    reading = Reading(shared=first(texts(f"{SHARED}.unit")) or "1")
    for name, given in formula.inputs.items():
        typed = [text.strip() for text in texts(name) if text.strip()]
        if not typed:
            continue
        if isinstance(given, Choice):
            reading.values[name] = typed[0]
            continue
        read = [read_one(given, text, first(texts(f"{name}.unit")), reading.shared) for text in typed]
        problem = next((problem for _, problem in read if problem), None)
        if problem:
            reading.problems[name] = explained(problem, given)
        else:
            numbers = [value for value, _ in read]
            reading.values[name] = numbers if isinstance(given, Series) else numbers[0]
    return reading


def first(texts: list[str]) -> str | None:
    return texts[0] if texts else None


def read_one(given: Input, text: str, chosen: str | None, shared: str) -> tuple[Any, dict[str, Any] | None]:
    """The number in the declared unit, or the problem with its code."""
    if given.infinite and text.lower() in ENDLESS:
        return math.inf, None
    if given.unit == "date":
        return read_date(text)
    own = shared if given.unit == ANY else given.unit
    offered = [name for name, _ in declared.units_for(given.unit)] or [own]
    typed = read_typed(text, own, offered, chosen if chosen in offered else None)
    if own == "K" and typed.unit in DIFFERENCES:
        # 2 °C would become 275.15 K, where a difference of 2 K is meant.
        return None, {"code": "wrong_unit", "unit": typed.unit, "units": offered}
    return typed.value, typed.problem


def read_date(text: str) -> tuple[Any, dict[str, Any] | None]:
    """Whole days since 1970-01-01; the same number as the record's formulas take."""
    try:
        return days(text), None
    except ValueError:
        return None, {"code": "not_a_date", "typed": text}


def explained(reason: Mapping[str, Any], given: Any = None) -> str:
    """The sentence of a reason, with the input and its units as a person knows them."""
    details = dict(reason)
    if given is not None:
        details["input"] = capital(say(given.meaning))
    for name in ("unit", "wanted"):
        if name in details:
            details[name] = label(details[name])
    if "units" in details:
        details["units"] = [label(unit) or _("no unit") for unit in details["units"]]
    return capital(sentence(details))


def answer(formula: Formula, reading: Reading, wanted_unit: str | None = None) -> Answer:
    """Evaluate what was read; `wanted_unit` is the one to show the result in."""
    missing = missing_inputs(formula, reading)
    if reading.problems or missing:
        return Answer(missing=missing)
    outcome = formula.evaluate(reading.values)
    if outcome.reason is not None:
        at = outcome.reason.get("input", "")
        reason = explained(outcome.reason, formula.inputs.get(at))
        return Answer(reason=reason, code=outcome.reason["code"], at=at)
    unit = reading.shared if formula.unit == ANY else formula.unit
    return shown_in(outcome.value, unit, wanted_unit, declared.result_units(formula))


def missing_inputs(formula: Formula, reading: Reading) -> tuple[str, ...]:
    """The inputs without which nothing can be computed."""
    given = {**reading.values, **reading.problems}
    return tuple(
        name
        for name, one in formula.inputs.items()
        if name not in given and one.default is None and not getattr(one, "optional", False)
    )


def shown_in(value: Any, unit: str, wanted: str | None, units: tuple[tuple[str, str], ...]) -> Answer:
    if isinstance(value, str):
        return Answer(value, unit, value, unit)
    if wanted is None or wanted not in dict(units):
        return Answer(value, unit, value, unit)
    try:
        return Answer(value, unit, convert(value, unit, wanted), wanted)
    except ValueError:  # the reciprocal of zero
        return Answer(value, unit, value, unit)
