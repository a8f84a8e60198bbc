"""Whether a derived quantity fits its formula: inputs by name, unit and choice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any

from checks.inputs import ANY, Choice, Input, Series
from checks.procedure.errors import Place
from checks.procedure.model import INSTRUMENT_PROPERTIES, Derived
from checks.procedure.names import Names
from checks.units import scale

COUNTED = {"instant": "ms", "date": "date"}
"""Entries that are texts and enter a formula as numbers, with the unit that they have there."""

SHARES = ("accuracy_of_reading", "accuracy_of_range", "digits")
"""Properties of an instrument that are numbers without a unit; the others are in the reading's."""


def check_derived(derived: Derived, names: Names, formulas: Mapping[str, Any], place: Place) -> None:
    """Raise ProcedureError where the quantity does not fit its formula."""
    if derived.formula is None:
        if list(derived.inputs) != ["value"]:
            place.wrong("without a formula it has exactly one input, 'value'")
        _check_unit(_unit_of(derived.inputs["value"], names, place), derived.unit, "value", place)
        return
    formula = formulas.get(derived.formula)
    if formula is None:
        near = get_close_matches(derived.formula, list(formulas), n=3)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        place.wrong(f"there is no formula {derived.formula!r}{hint}")
    shared: list[str] = []
    for name, given in derived.inputs.items():
        if name not in formula.inputs:
            place.wrong(f"{derived.formula} has no input {name!r}; it has {', '.join(formula.inputs)}")
        _check_input(name, given, formula.inputs[name], names, shared, place)
    for name, declared in formula.inputs.items():
        dispensable = declared.default is not None or getattr(declared, "optional", False)
        if name not in derived.inputs and not dispensable:
            place.wrong(f"input {name!r} of {derived.formula} is missing")
    result = (shared or ["1"])[0] if formula.unit == ANY else formula.unit
    _check_unit(result, derived.unit, f"result of {derived.formula}", place)


def inputs_of(alternatives: Iterable[Derived]) -> list[str]:
    """The names of the quantities that a derived quantity is computed from."""
    found = []
    for derived in alternatives:
        for given in derived.inputs.values():
            if isinstance(given, str):
                found.append(given)
            elif isinstance(given, Mapping) and "value" not in given:
                found.append(given["instrument"] if "instrument" in given else given["quantity"])
    return found


def same_unit(unit: str | None, other: str | None) -> bool:
    """Whether bare numbers in the two units mean the same."""
    return unit == other or (unit is not None and other is not None and scale(unit) == scale(other))


def _check_input(name: str, given: Any, declared: Any, names: Names, shared: list[str], place: Place) -> None:
    if isinstance(declared, Choice):
        _check_choice(name, given, declared, names, place)
        return
    if isinstance(given, Mapping) and "value" in given:
        if not isinstance(given["value"], int | float):
            place.wrong(f"input {name!r} must be a number, not {given['value']!r}")
        return
    unit = _unit_of(given, names, place)
    if isinstance(given, str) or "quantity" in given:
        _check_shape(name, given, declared, names, place)
    if declared.unit == ANY:
        shared.append(unit or "1")
        _check_unit(unit, shared[0], name, place)
    else:
        _check_unit(unit, declared.unit, name, place)


def _check_shape(name: str, given: Any, declared: Input, names: Names, place: Place) -> None:
    known = names.find(given if isinstance(given, str) else given["quantity"], place)
    if isinstance(declared, Series) and not known.is_series:
        place.wrong(f"input {name!r} wants a series of readings")
    if not isinstance(given, str) and not known.is_series:
        place.wrong(f"'newest' asks for a series; {given['quantity']} is a {known.kind}")
    if not isinstance(declared, Series) and not (known.is_number or known.kind in COUNTED):
        place.wrong(f"input {name!r} wants a number, not a {known.kind}")


def _check_choice(name: str, given: Any, declared: Choice, names: Names, place: Place) -> None:
    if isinstance(given, Mapping):
        options: Iterable[Any] = [given.get("value")]
    else:
        options = names.find(given, place).options or ["(no choice)"]
    # A word that the formula does not know may be kept away by a condition; not to know any is a mistake.
    if not any(str(option) in declared.options for option in options):
        place.wrong(f"input {name!r} wants one of {', '.join(declared.options)}")


def _unit_of(given: Any, names: Names, place: Place) -> str | None:
    """The unit of an input; None for a literal, which is in whatever unit is wanted."""
    if isinstance(given, str):
        known = names.find(given, place)
        return COUNTED.get(known.kind, known.unit)
    if isinstance(given, Mapping) and set(given) == {"value"}:
        return None
    if isinstance(given, Mapping) and set(given) == {"quantity", "newest"}:
        if not isinstance(given["newest"], int) or given["newest"] < 1:
            place.wrong("'newest' is how many of the newest readings are taken: 1 or more")
        return names.find(given["quantity"], place).unit
    if not isinstance(given, Mapping) or set(given) != {"instrument", "property"}:
        place.wrong(
            f"an input is a quantity's name, {{ value = ... }}, {{ quantity = ..., newest = ... }} "
            f"or {{ instrument = ..., property = ... }}, not {given!r}"
        )
    if given["property"] not in INSTRUMENT_PROPERTIES:
        place.wrong(f"an instrument has no {given['property']!r}; it has {', '.join(INSTRUMENT_PROPERTIES)}")
    known = names.find(given["instrument"], place)
    if known.entry is None or not known.entry.instrument:
        place.wrong(f"{given['instrument']} is not measured with an instrument")
    return "1" if given["property"] in SHARES else known.unit


def _check_unit(unit: str | None, wanted: str | None, what: str, place: Place) -> None:
    if unit is not None and not same_unit(unit, wanted):
        place.wrong(f"the unit of {what} is {unit}; it must be {wanted}")
