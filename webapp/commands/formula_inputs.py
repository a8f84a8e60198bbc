"""Reading `input=value` and `input="value unit"` as they stand on a command line."""

import math
import re
from collections.abc import Iterable
from typing import Any

from checks.entries import days
from checks.errors import CheckError, NotANumber, UnknownInput, WrongUnit
from checks.formula import ANY, Choice, Formula
from checks.inputs import Input, Series
from checks.messages import sentence
from checks.units import OFFERED, REGISTRY, Quantity, read_typed, scale, unit_named
from webapp.commands.group import BadInput, near

# A number is grouped by spaces at times, and a unit begins with a digit where it is a reciprocal: 0.02 1/K.
NUMBER_AND_UNIT = re.compile(
    r"\s*([+\-\u2212]?(?:\d[\d., ]*?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*((?:1\s*/|[^\d\s.,]).*?|)\s*", re.DOTALL
)
# What a formula wants in kelvin is a difference of temperatures.
KELVIN_PER_DEGREE = {"degC": 1.0, "degF": 5 / 9}
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
INFINITE = {"inf", "infinity", "infinite"}


def read_inputs(formula: Formula, given: Iterable[str]) -> dict[str, Any]:
    """Input name -> number, Pint quantity, word or list; CheckError or BadInput names what is wrong."""
    values: dict[str, Any] = {}
    for pair in given:
        name, equals, text = pair.partition("=")
        if not equals:
            raise BadInput(f"{pair!r} is no input; write input=value, like {next(iter(formula.inputs))}=1.")
        if name not in formula.inputs:
            raise BadInput(unknown_input(formula, name))
        value = read_value(name, formula.inputs[name], text)
        if name in values and not isinstance(formula.inputs[name], Series):
            raise BadInput(f"{name} is given twice; give it once.")
        values[name] = values.get(name, []) + value if isinstance(value, list) else value
    return values


def unknown_input(formula: Formula, name: str) -> str:
    listed = str(UnknownInput(name, inputs=list(formula.inputs)))
    guess = near(name, formula.inputs)
    return f"There is no input named {name!r}{guess}" if "Did you mean" in guess else listed


def read_value(name: str, given: Input | Choice, text: str) -> Any:
    if isinstance(given, Choice):
        return text.strip()
    if isinstance(given, Series):
        return [read_one(name, given, part) for part in parts(text)]
    return read_one(name, given, text)


def parts(text: str) -> list[str]:
    """The readings of a list: between semicolons, else commas, else spaces; a last unit holds for all."""
    plain = text.strip().strip("[]")
    match = re.fullmatch(r"(.*?[\d.])\s*([^\d\s.,;][^;,]*)?", plain, re.DOTALL)
    body, unit = (match[1], match[2] or "") if match else (plain, "")
    if ";" in body:
        split = body.split(";")
    elif "," in body:
        split = body.split(",")
    else:
        split = body.split()
    found = [part.strip() for part in split if part.strip()]
    return [part if part[-1:].isalpha() else f"{part} {unit}".strip() for part in found]


def read_one(name: str, given: Input, text: str) -> Any:
    """One number, as a Pint quantity when a unit was written with it; a date as days since 1970-01-01."""
    if given.unit == "date" and DATE.fullmatch(text.strip()):
        return read_date(name, text.strip())
    if given.infinite and text.strip().lower() in INFINITE:
        return math.inf
    match = NUMBER_AND_UNIT.fullmatch(text)
    if match is None:
        raise NotANumber(name, value=text)
    number, unit = match.groups()
    typed = read_typed(number, "1", [])
    if typed.problem is not None or typed.value is None:
        raise refused_number(name, text, typed.problem)
    if not unit:
        return typed.value
    meant = known_unit(name, unit, given.unit)
    if given.unit == "K" and meant in KELVIN_PER_DEGREE:
        return typed.value * KELVIN_PER_DEGREE[meant]
    return Quantity(typed.value, meant)


def read_date(name: str, text: str) -> int:
    """Whole days since 1970-01-01, as the formulas take a date."""
    try:
        return days(text)
    except ValueError:
        raise BadInput(f"{name}: {sentence('not_a_date')}") from None


def offered_name(unit: str | None) -> str | None:
    """How the pages write a unit that Pint spells out: mS/cm for "millisiemens / centimeter"."""
    for name in OFFERED:
        if unit and name not in ("1", "pH") and REGISTRY.Unit(name) == REGISTRY.Unit(unit):
            return name
    return unit


def refused_number(name: str, text: str, problem: dict[str, Any] | None) -> CheckError | BadInput:
    if problem is None or problem["code"] == "not_a_number":
        return NotANumber(name, value=text)
    return BadInput(f"{name}: {sentence({'typed': text, **problem})}")


def known_unit(name: str, unit: str, wanted: str) -> str:
    """The unit that was meant: one of those on the pages, or any that Pint knows."""
    meant = unit_named(unit) or unit
    try:
        scale(meant)
    except KeyError:
        shown = (
            "one unit for all inputs of the kind"
            if wanted == ANY
            else (wanted if wanted != "1" else "no unit")
        )
        raise WrongUnit(name, unit=f"{unit!r}, which is no known unit", wanted=shown) from None
    return "dimensionless" if meant in ("1", "pH") else meant
