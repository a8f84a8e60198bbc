"""What a formula's declaration becomes on a page: its inputs with meaning, units, range and default."""

import sys
from collections.abc import Iterable
from dataclasses import dataclass

from checks.catalogue import FORMULAS
from checks.entries import date_of
from checks.formula import Formula
from checks.inputs import ANY, AnyInput, Choice, Input, Series
from checks.layout import symbol
from checks.units import OFFERED, can_convert, scale, unit_label
from webapp.language import _, date, decimal, say

SHARED = "any"
"""The name under which the one unit of all inputs declared with ANY is sent."""

DIGITS = 15  # of a number in a declaration: all that was written, nothing that binary fractions add
Labelled = tuple[str, str]


@dataclass(frozen=True)
class Field:
    """One input of a formula as a page offers it; `symbol` is MathML, `units` are names with labels."""

    name: str
    kind: str
    meaning: str
    symbol: str
    unit: str
    units: tuple[Labelled, ...]
    hint: str
    options: tuple[Labelled, ...] = ()
    default: str = ""
    at_least: int = 0
    signed: bool = False


def subjects() -> dict[str, list[Formula]]:
    """The formulas under what their modules say they are about, in the order of the catalogue."""
    found: dict[str, list[Formula]] = {}
    for formula in FORMULAS.values():
        found.setdefault(say(subject(formula)), []).append(formula)
    return found


def subject(formula: Formula) -> str:
    """What the formula's module says it is about, in English."""
    words = sys.modules[formula.function.__module__].__doc__ or ""
    return words.splitlines()[0].strip().rstrip(".")


def meanings(formula: Formula) -> str:
    """What its inputs mean: words under which a formula is found although the list does not show them."""
    return " ".join(
        dict.fromkeys(" ".join(say(given.meaning) for given in formula.inputs.values()).lower().split())
    )


def searched(formula: Formula, subject: str) -> str:
    """All words under which a formula is found."""
    return f"{formula.name} {title(formula)} {subject} {meanings(formula)}".lower()


def found(words: str) -> dict[str, list[Formula]]:
    """The subjects with the formulas that contain every one of the words."""
    wanted = words.lower().split()
    kept = {
        subject: [one for one in listed if all(word in searched(one, subject) for word in wanted)]
        for subject, listed in subjects().items()
    }
    return {subject: listed for subject, listed in kept.items() if listed}


def fields(formula: Formula) -> list[Field]:
    """The inputs of a formula in their order."""
    return [field(name, given) for name, given in formula.inputs.items()]


def field(name: str, given: AnyInput) -> Field:
    mark = symbol(given.symbol) if given.symbol else ""
    if isinstance(given, Choice):
        options = tuple((word, say(meaning or word)) for word, meaning in given.options.items())
        return Field(name, "choice", say(given.meaning), mark, "", (), "", options, given.default or "")
    return Field(
        name=name,
        kind=kind_of(given),
        meaning=say(given.meaning),
        symbol=mark,
        unit=given.unit,
        units=units_for(given.unit),
        hint=hint(given),
        at_least=given.at_least if isinstance(given, Series) else 0,
        signed=given.lowest is None or given.lowest < 0,
    )


def kind_of(given: Input) -> str:
    if isinstance(given, Series):
        return "series"
    return "date" if given.unit == "date" else "number"


def units_for(unit: str) -> tuple[Labelled, ...]:
    """The units in which a value may be given or shown, the declared one first.

    A difference of temperatures stays in kelvin, a plain number has no unit to choose, and ANY is chosen once
    for the whole formula.
    """
    if unit == ANY:
        return ()
    if unit in ("K", "date") or scale(unit).dimension == "number":
        return ((unit, label(unit)),)
    others = (name for name in OFFERED if name not in (unit, "month") and can_convert(name, unit))
    return tuple((name, label(name)) for name in (unit, *others))


def shared_units() -> tuple[Labelled, ...]:
    """What the inputs declared with ANY may be given in, all in the same."""
    named = tuple((name, one.label) for name, one in OFFERED.items() if one.label)
    return (("1", _("no unit")), *named)


def shares_a_unit(formula: Formula) -> bool:
    return any(getattr(given, "unit", None) == ANY for given in formula.inputs.values())


def result_units(formula: Formula) -> tuple[Labelled, ...]:
    """In what the result may be shown: one of them is no choice, none is a word or the shared unit."""
    return () if formula.words else units_for(formula.unit)


def label(unit: str) -> str:
    """The sign of a unit as a page shows it; nothing for a bare number, a date or the shared unit."""
    if unit in ("date", ANY):
        return ""
    return say(unit_label(unit))


def hint(given: Input) -> str:
    """The range in the declared unit, then what happens when nothing is given."""
    parts = [range_words(given), several_words(given), absence_words(given)]
    return ". ".join(capital(part) for part in parts if part)


def range_words(given: Input) -> str:
    """The validity range in words: `from 0 up to 100 °C`; empty where there is no end."""
    if given.among is not None:
        return _("one of {values}", values="; ".join(amount(value, given.unit) for value in given.among))
    low = _("above {amount}", amount=amount(given.above, given.unit)) if given.above is not None else ""
    low = _("from {amount}", amount=amount(given.minimum, given.unit)) if given.minimum is not None else low
    high = _("below {amount}", amount=amount(given.below, given.unit)) if given.below is not None else ""
    high = (
        _("up to {amount}", amount=amount(given.maximum, given.unit)) if given.maximum is not None else high
    )
    both = " ".join(part for part in (low, high) if part)
    return f"{both} {label(given.unit)}".strip() if both else ""


def several_words(given: Input) -> str:
    if not isinstance(given, Series) or given.at_least < 2:
        return ""
    return _("at least {count} readings", count=given.at_least)


def absence_words(given: Input) -> str:
    if given.default is not None:
        usual = f"{amount(given.default, given.unit)} {label(given.unit)}".strip()
        return _("{amount} counts while this is empty", amount=usual)
    if given.infinite:
        return _("type inf for without end")
    return _("may be left empty") if given.optional else ""


def amount(value: float | None, unit: str) -> str:
    """A number of a declaration: as it stands there, a date as a date."""
    if value is None:
        return ""
    if unit == "date":
        return date(date_of(value))
    return decimal(f"{value:.{DIGITS}g}")


def title(formula: Formula) -> str:
    """The first sentence of the formula's text, as a heading."""
    return paragraphs(formula)[0].splitlines()[0].rstrip(".")


def paragraphs(formula: Formula) -> list[str]:
    """What the formula's text says, paragraph by paragraph."""
    return say(formula.text).split("\n\n")


def capital(text: str) -> str:
    """Sentences begin with a capital; pH keeps its own."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def names_of(listed: Iterable[Field]) -> dict[str, str]:
    """How a person calls each input."""
    return {one.name: capital(one.meaning) for one in listed}
