"""The one Pint registry, the units that are offered, and the reading of a typed number.

`static/judging/typed-number.js` is the twin of `read_typed`; the conversion factors on the
phone (`static/generated/units.js`) come from this registry.
"""

from __future__ import annotations

import json
import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any

import pint


def _with_ours(registry: pint.UnitRegistry) -> pint.UnitRegistry:
    registry.define("date = [date]")  # a day's number, counted from 1970-01-01; not a duration
    registry.define("colony = [colony] = CFU")
    registry.define("equivalent = mole = eq")
    registry.define("gallon_per_minute = gallon / minute = gpm")
    registry.define("turbidity_unit = [turbidity] = NTU")
    registry.define(
        "german_degree = 17.848 milligram / liter = dGH"
    )  # hardness as CaCO3, as are the next two
    registry.define("french_degree = 10 milligram / liter = dfH")
    registry.define("parts_per_billion_by_mass = microgram / liter = ppb")
    return registry


REGISTRY = _with_ours(pint.UnitRegistry(autoconvert_offset_to_baseunit=True))
Quantity = REGISTRY.Quantity


@dataclass(frozen=True)
class Unit:
    """A unit as it is offered: `label` is what a page shows, `aliases` what else may be typed."""

    name: str
    label: str
    aliases: tuple[str, ...] = ()


OFFERED: dict[str, Unit] = {
    unit.name: unit
    for unit in (
        Unit("1", ""),
        Unit("%", "%", ("percent",)),
        Unit("uS/cm", "µS/cm", ("umho/cm",)),
        Unit("mS/m", "mS/m"),
        Unit("mS/cm", "mS/cm"),
        Unit("Mohm cm", "MΩ·cm", ("Mohm*cm", "Mohm.cm", "Mohmcm", "megohm cm", "megohm-cm", "Mohm-cm")),
        Unit("kohm cm", "kΩ·cm", ("kohm*cm", "kohm.cm", "kohmcm")),
        Unit("ohm", "Ω", ("ohms",)),
        Unit("mohm", "mΩ", ("milliohm",)),
        Unit("kohm", "kΩ"),
        Unit("Mohm", "MΩ", ("megohm",)),
        Unit("V", "V", ("volt",)),
        Unit("A", "A", ("amp",)),
        Unit("mA", "mA"),
        Unit("kA", "kA"),
        Unit("degC", "°C", ("°C", "C", "deg C")),
        Unit("degF", "°F", ("°F", "F", "deg F")),
        Unit("K", "K", ("kelvin",)),
        Unit("1/K", "1/K", ("/K", "K-1")),
        Unit("bar", "bar"),
        Unit("mbar", "mbar"),
        Unit("kPa", "kPa"),
        Unit("MPa", "MPa"),
        Unit("psi", "psi"),
        Unit("kN/m**2", "kN/m²", ("kN/m2",)),
        Unit("mg/L", "mg/L"),
        Unit("g/L", "g/L"),
        Unit("ug/L", "µg/L", ("ppb",)),
        Unit("dGH", "°dH", ("dH",)),
        Unit("dfH", "°fH", ("fH",)),
        Unit("grain/gallon", "gr/gal", ("gpg",)),
        Unit("eq/L", "eq/L"),
        Unit("ppm", "ppm"),
        Unit("NTU", "NTU"),
        Unit("%/min", "%/min"),
        Unit("CFU/mL", "CFU/mL"),
        Unit("CFU/L", "CFU/L"),
        Unit("L/min", "L/min", ("lpm",)),
        Unit("L/h", "L/h"),
        Unit("mL/min", "mL/min"),
        Unit("m**3/h", "m³/h", ("m3/h", "m^3/h")),
        Unit("gpm", "gal/min"),
        Unit("um", "µm"),
        Unit("mm", "mm"),
        Unit("cm", "cm"),
        Unit("m", "m", ("metre", "meter")),
        Unit("mm**2", "mm²", ("mm2", "mm^2", "sq mm")),
        Unit("m**2", "m²", ("m2", "m^2", "sq m")),
        Unit("kg", "kg"),
        Unit("g", "g"),
        Unit("mg", "mg"),
        Unit("lb", "lb", ("lbs", "pound")),
        Unit("mL", "mL"),
        Unit("L", "L", ("litre", "liter")),
        Unit("gallon", "gal", ("gal",)),
        Unit("m**3", "m³", ("m3", "m^3")),
        Unit("ms", "ms"),
        Unit("s", "s", ("sec",)),
        Unit("min", "min"),
        Unit("h", "h", ("hour",)),
        Unit("d", "d", ("day", "days")),
        Unit("month", "months", ("mo",)),
        Unit("m/s", "m/s"),
        Unit("W", "W", ("watt",)),
        Unit("mJ/cm**2", "mJ/cm²", ("mJ/cm2",)),
        Unit("J/m**2", "J/m²", ("J/m2",)),
        Unit("mg min/L", "mg·min/L", ("mg*min/L",)),
        Unit("kg/m**3", "kg/m³", ("kg/m3",)),
        Unit("mPa s", "mPa·s", ("mPa*s", "cP")),
        Unit("pH", "pH"),
    )
}

NOT_OFFERED = {"S cm**2/eq": "S·cm²/eq", "g/cm**3": "g/cm³", "mW/cm**2": "mW/cm²", "ohm/km": "Ω/km"}
"""How units are written in which formulas and tables count, but which nobody chooses."""

RECIPROCAL = ("conductivity", "resistivity")
_BASES = {
    "number": "1",
    "conductivity": "uS/cm",
    "resistivity": "Mohm cm",
    "resistance": "ohm",
    "voltage": "V",
    "current": "A",
    "temperature": "degC",
    "per_kelvin": "1/K",
    "pressure": "bar",
    "concentration": "mg/L",
    "colonies": "CFU/mL",
    "flow": "L/min",
    "length": "mm",
    "area": "mm**2",
    "mass": "kg",
    "volume": "L",
    "time": "s",
    "velocity": "m/s",
    "viscosity": "mPa s",
}


@dataclass(frozen=True)
class Scale:
    """How a unit lies against its dimension's base unit: base = value * factor + offset."""

    dimension: str
    factor: float
    offset: float


@cache
def scale(unit: str) -> Scale:
    """The scale of a unit; KeyError when the unit is unknown, so that the caller can say where."""
    if unit in ("1", "pH", ""):
        return Scale("number", 1.0, 0.0)
    try:
        parsed = REGISTRY.Unit(unit)
    except (pint.errors.PintError, ValueError, AttributeError, TypeError) as error:
        raise KeyError(unit) from error
    for dimension, base in _BASES.items():
        if (
            base != "1"
            and parsed.is_compatible_with(base)
            and (dimension != "temperature" or "/" not in unit)
        ):
            return Scale(dimension, *_against(unit, base))
    if parsed.dimensionless:
        return Scale("number", *_against(unit, "dimensionless"))
    root_unit = str(Quantity(1, parsed).to_root_units().units)
    return Scale(root_unit, *_against(unit, root_unit))


def _against(unit: str, base: str) -> tuple[float, float]:
    """Factor and offset, each rounded once from an exact fraction."""
    registry = _exact_registry()
    zero = registry.Quantity(Fraction(0), unit).to(base).magnitude
    one = registry.Quantity(Fraction(1), unit).to(base).magnitude
    return float(one - zero), float(zero)


@cache
def _exact_registry() -> pint.UnitRegistry:
    return _with_ours(pint.UnitRegistry(non_int_type=Fraction, autoconvert_offset_to_baseunit=True))


@lru_cache(maxsize=1000)
def can_convert(unit: str, to: str) -> bool:
    """Whether a value in one unit can be said in the other."""
    given, wanted = scale(unit).dimension, scale(to).dimension
    return given == wanted or _reciprocal(given, wanted)


def convert(value: float, unit: str, to: str) -> float:
    """The value in another unit of the same dimension.

    Conductivity and resistivity turn into one another as reciprocals, both at the water's
    temperature or both at 25 degC: no compensation is done here. KeyError for an unknown unit,
    ValueError for units that measure different things, and for the reciprocal of zero.
    """
    if unit == to:
        return value
    given, wanted = scale(unit), scale(to)
    base = value * given.factor + given.offset
    if _reciprocal(given.dimension, wanted.dimension):
        if base == 0:
            raise ValueError(f"0 {unit} has no value in {to}")
        base = 1 / base
    elif given.dimension != wanted.dimension:
        raise ValueError(f"{unit} cannot be given in {to}")
    return (base - wanted.offset) / wanted.factor


def conversion_slope(value: float, unit: str, to: str) -> float:
    """By how much the converted value changes per unit of the value; for uncertainties."""
    if unit == to:
        return 1.0
    given, wanted = scale(unit), scale(to)
    plain = given.factor / wanted.factor
    if not _reciprocal(given.dimension, wanted.dimension):
        return plain
    base = value * given.factor + given.offset
    return -plain / (base * base)


def _reciprocal(given: str, wanted: str) -> bool:
    return given != wanted and given in RECIPROCAL and wanted in RECIPROCAL


@dataclass(frozen=True)
class Typed:
    """What was typed, read: the value in the entry's own unit, the unit meant, or the problem."""

    value: float | None
    unit: str | None
    problem: dict[str, Any] | None


_SPACES = re.compile("[ \t\u00a0\u2007\u2009\u202f]+")
_PARTS = re.compile(r"([+-]?) ?([0-9][0-9., ]*|[.,][0-9]+)((?:[eE][+-]?[0-9]+)?)(.*)", re.DOTALL)
_PLAIN = re.compile("[0-9]*[.,]?[0-9]*")
_AMBIGUOUS = re.compile("(?!0+,)[0-9]{1,3},[0-9]{3}")
_GROUPED = {
    " ": re.compile("[1-9][0-9]{0,2}(?: [0-9]{3})+(?:[.,][0-9]*)?"),
    ".": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+(?:,[0-9]*)?"),
    ",": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?"),
}


def read_typed(text: str, unit: str, units: list[str], chosen: str | None = None) -> Typed:
    """Read a number as people type it, with or without a unit.

    `unit` is the entry's own unit, in which the value is given back; `units` are those offered,
    named in a problem; `chosen` is the unit picked beside the number (the entry's own when
    absent); a unit typed with the number counts before it. Nothing typed is no problem.
    """
    plain = _SPACES.sub(" ", text.replace("\u2212", "-")).strip(" ")
    if not plain:
        return Typed(None, None, None)
    parts = _PARTS.fullmatch(plain)
    if parts is None:
        return Typed(None, None, {"code": "not_a_number", "typed": text})
    sign, body, exponent, suffix = parts.groups()
    digits = _digits(body.strip(" "))
    if digits is None:
        return Typed(None, None, _unreadable(body.strip(" "), text))
    meant, problem = _unit_meant(suffix.strip(" "), chosen or unit, unit, units)
    if meant is None:
        return Typed(None, None, problem)
    value = float(f"{sign}{digits}{exponent}")
    lost = value == 0 and re.search("[1-9]", digits) is not None
    try:
        converted = math.inf if lost else convert(value, meant, unit)
    except ValueError:
        converted = math.inf
    if not math.isfinite(converted):
        return Typed(None, meant, {"code": "out_of_float_range", "typed": text})
    return Typed(converted, meant, None)


def _digits(body: str) -> str | None:
    """The digits with a decimal point and without grouping; None when they cannot be read."""
    if _PLAIN.fullmatch(body):
        return None if _AMBIGUOUS.fullmatch(body) else body.replace(",", ".")
    for mark, pattern in _GROUPED.items():
        if pattern.fullmatch(body):
            return body.replace(mark, "").replace(",", ".")
    return None


def _unreadable(body: str, text: str) -> dict[str, Any]:
    """Why the digits cannot be read; both ways of reading where there are two."""
    if not _AMBIGUOUS.fullmatch(body):
        return {"code": "not_a_number", "typed": text}
    ways = {"decimal": body.replace(",", "."), "whole": body.replace(",", "")}
    return {"code": "ambiguous_number", "typed": text, **ways}


def _unit_meant(
    suffix: str, otherwise: str, unit: str, units: list[str]
) -> tuple[str | None, dict[str, Any] | None]:
    if not suffix:
        return otherwise, None
    named = unit_named(suffix)
    if named is None:
        return None, {"code": "unknown_unit", "unit": suffix, "units": list(units)}
    if not can_convert(named, unit):
        return None, {"code": "wrong_unit", "unit": named, "units": list(units)}
    return named, None


def names_a_unit(typed: str) -> bool:
    """Whether somebody typed a unit beside the number: it is then shown as it was typed."""
    return re.search(r"[^\W\d_]|[%°]", typed) is not None


def unit_named(text: str) -> str | None:
    """The offered unit that was meant: exact first, then whatever the case of the letters."""
    exact, lowered = spellings()
    plain = spelled(text)
    return exact.get(plain) or lowered.get(plain.lower())


def spelled(text: str) -> str:
    """One way of writing for what people type: micro sign, ohm sign, degree sign, dots and powers."""
    for typed, written in _LETTERS.items():
        text = text.replace(typed, written)
    return text.replace(" ", "")


_LETTERS = {
    "\u00b5": "u",
    "\u03bc": "u",
    "\u03a9": "ohm",
    "\u2126": "ohm",
    "\u00b0": "deg",
    "\u00b7": "",
    "\u22c5": "",
    "*": "",
    "\u00b2": "2",
    "\u00b3": "3",
    "^": "",
}


@cache
def spellings() -> tuple[dict[str, str], dict[str, str]]:
    """Every way to write an offered unit; and in lower case those that then still name one unit alone."""
    exact: dict[str, str] = {}
    for unit in OFFERED.values():
        for written in (unit.name, unit.label, *unit.aliases):
            if spelled(written):
                exact.setdefault(spelled(written), unit.name)
    meant: dict[str, set[str]] = {}
    for written, name in exact.items():
        meant.setdefault(written.lower(), set()).add(name)
    return exact, {written: names.pop() for written, names in meant.items() if len(names) == 1}


def unit_label(name: str) -> str:
    """How a unit is written for a reader: `uS/cm` is µS/cm, a plain number has none; an unknown one stays."""
    return OFFERED[name].label if name in OFFERED else NOT_OFFERED.get(name, name)


def units_module(head: str) -> str:
    """The text of `static/generated/units.js`: every offered unit and every way to write it."""
    units = {
        unit.name: [
            unit.label,
            *(getattr(scale(unit.name), part) for part in ("dimension", "factor", "offset")),
        ]
        for unit in OFFERED.values()
    }
    entries = ",\n".join(
        f"  {json.dumps(name)}: {json.dumps(unit, ensure_ascii=False)}" for name, unit in units.items()
    )
    letters, exact, lowered = (json.dumps(table, ensure_ascii=True) for table in (_LETTERS, *spellings()))
    return (
        f"{head}\n\n/** Label, dimension, factor and offset to the dimension's base unit. */\n"
        f"export const units = {{\n{entries},\n}};\n\n"
        f"/** How a unit is written for a reader. @param {{string}} unit @returns {{string}} */\n"
        f"export const unitLabel = (unit) => units[unit]?.[0] ?? written[unit] ?? unit;\n\n"
        f"/** How units are written that nobody chooses. */\n"
        f"const written = {json.dumps(NOT_OFFERED, ensure_ascii=False)};\n\n"
        f"/** Letters that are written in another way before a unit is looked up. */\n"
        f"export const letters = {letters};\n\n"
        f"/** What may be typed for a unit. */\nexport const spellings = {exact};\n\n"
        f"/** The same in lower case, where that still names one unit alone. */\n"
        f"export const lowered = {lowered};\n"
    )
