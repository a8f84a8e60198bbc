"""What an instrument's specification says about a reading: its uncertainty, and why it may not count.

`static/judging/instrument.js` is the twin.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from checks.units import OFFERED, can_convert, conversion_slope, convert

Instrument = Mapping[str, Any]
Reason = dict[str, Any]
SHORT_NAMES = {"ph": "pH", "toc": "TOC"}
"""Words of a kind that are written otherwise than their code."""
SPECIFIED = ("accuracy_of_reading", "accuracy_of_range", "digits", "resolution", "calibration_uncertainty")


def kind_in_words(kind: str) -> str:
    """The kind of an instrument as English words, which are the key of its translation: `pH meter`."""
    return " ".join(SHORT_NAMES.get(word, word) for word in kind.split("_"))


def standard_uncertainty(
    instrument: Instrument, value: float, unit: str, formulas: Mapping[str, Any]
) -> float | None:
    """The standard uncertainty of a reading of this value, in `unit`; None if it is not specified."""
    shown = _converted(value, unit, instrument["unit"]) if fits(instrument, unit) else None
    if shown is None:
        return None
    inputs = {name: instrument.get(name) or 0 for name in SPECIFIED}  # what is not specified counts as 0
    inputs |= {"reading": shown, "range": _span(instrument)}
    outcome = formulas["standard_uncertainty"].evaluate(inputs)
    if outcome.value is None:
        return None
    return finite(outcome.value * abs(conversion_slope(shown, instrument["unit"], unit)))


def contributions(
    instrument: Instrument, value: float, unit: str, formulas: Mapping[str, Any]
) -> tuple[float, float] | None:
    """The standard uncertainty in two parts, in `unit`: what all readings with this instrument share, and
    what is this reading's own. None if it is not specified.

    The shared part has a sign: a meter that shows too much resistivity shows too little conductivity.
    """
    shown = _converted(value, unit, instrument["unit"]) if fits(instrument, unit) else None
    if shown is None:
        return None
    inputs = {name: instrument.get(name) or 0 for name in SPECIFIED}
    resolution = {"resolution": inputs["resolution"]}
    shared = formulas["instrument_uncertainty"].evaluate(
        {**inputs, "reading": shown, "range": _span(instrument)}
    )
    own = formulas["resolution_uncertainty"].evaluate(resolution)
    if shared.value is None or own.value is None:
        return None
    slope = conversion_slope(shown, instrument["unit"], unit)
    return shared.value * slope, own.value * abs(slope)


def property_of(instrument: Instrument, name: str, value: float | None, unit: str) -> float | None:
    """A number of the specification in `unit`; `value` is where on a curved scale it is wanted."""
    number: Any = instrument.get(name)
    if not _is_number(number) or not fits(instrument, unit):
        return None
    if name in ("accuracy_of_reading", "accuracy_of_range", "digits"):
        return number
    if name in ("range_minimum", "range_maximum"):
        return _converted(number, instrument["unit"], unit)
    shown = 1.0 if value is None else _converted(value, unit, instrument["unit"])
    return None if shown is None else finite(number * abs(conversion_slope(shown, instrument["unit"], unit)))


def problems(instrument: Instrument, value: float, unit: str, kind: str, at: str | None) -> list[Reason]:
    """Why a reading with this instrument cannot be judged; empty when it can."""
    name = instrument.get("name") or instrument.get("id")
    if instrument["kind"] != kind:
        return [{"code": "wrong_instrument", "name": name, "kind": instrument["kind"], "wanted": kind}]
    if not fits(instrument, unit):
        return [{"code": "instrument_unit", "name": name, "unit": instrument.get("unit")}]
    if not all(_is_number(instrument.get(end)) for end in ("range_minimum", "range_maximum")):
        return [{"code": "instrument_incomplete", "name": name}]
    return _calibration(instrument, name, at) + _range(instrument, name, value, unit)


def fits(instrument: Instrument, unit: str) -> bool:
    """Whether the instrument's own unit measures the same as `unit`."""
    return instrument.get("unit") in OFFERED and unit in OFFERED and can_convert(instrument["unit"], unit)


def _calibration(instrument: Instrument, name: Any, at: str | None) -> list[Reason]:
    due = instrument.get("calibration_due")
    if not isinstance(due, str) or not due:
        return [{"code": "calibration_unknown", "name": name}]
    if at is not None and at[:10] > due:
        return [{"code": "calibration_overdue", "name": name, "due": due}]
    return []


def _range(instrument: Instrument, name: Any, value: float, unit: str) -> list[Reason]:
    low, high = instrument["range_minimum"], instrument["range_maximum"]
    shown = _converted(value, unit, instrument["unit"])
    slack = 1e-9 * max(abs(low), abs(high))
    if shown is not None and low - slack <= shown <= high + slack:
        return []
    details = {"name": name, "minimum": low, "maximum": high, "unit": instrument["unit"]}
    return [{"code": "outside_instrument_range", **details}]


def _span(instrument: Instrument) -> float:
    low: Any = instrument.get("range_minimum")
    high: Any = instrument.get("range_maximum")
    return high - low if _is_number(low) and _is_number(high) else 0


def _converted(value: float, unit: str, to: str) -> float | None:
    try:
        return finite(convert(value, unit, to))
    except (KeyError, ValueError):
        return None


def finite(value: float) -> float | None:
    """The number, or None for what JSON cannot hold."""
    return value if math.isfinite(value) else None


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
