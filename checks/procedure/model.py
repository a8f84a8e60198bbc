"""The parts of a procedure, and their plain form (docs/api.md, "Procedure")."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass
from typing import Any

ENTRY_KINDS = ("reading", "series", "choice", "yes_no", "text", "date", "instant", "photo", "drawing")
SCANS = {"lot": "text", "lots": "text", "serial": "text", "expiry": "date"}
"""What a scanned code gives to an entry, and the kind of entry that takes it; of `lots` there are several."""
MEASURED_KINDS = ("reading", "series")
RULE_KINDS = ("limit", "answer", "given", "order", "same_instrument")
DECISIONS = ("guarded", "non_binary", "simple")
WEIGHTS = ("judge", "information")
INSTRUMENT_PROPERTIES = (
    "range_minimum",
    "range_maximum",
    "accuracy_of_reading",
    "accuracy_of_range",
    "digits",
    "resolution",
    "calibration_uncertainty",
)


@dataclass(frozen=True)
class Condition:
    """A thing exists only while this quantity has one of these values, or (`given`) has any value."""

    quantity: str
    is_: tuple[Any, ...] | None = None
    given: bool | None = None


@dataclass(frozen=True)
class Option:
    value: str | int | float
    label: str


@dataclass(frozen=True)
class Entry:
    """What a person enters. `minimum` and `maximum` say what is physically possible, in `unit`.

    `group` heads the entries of plate, site and baseline in a form. `from_` is the quantity of an accepted
    record that a value of the baseline is taken from, `anew` when a later record takes its place, because the
    part it speaks about is another one. `scan` is what a code on the thing says for this entry.
    `meaning` is what somebody states who signs in a drawing.
    """

    id: str
    kind: str
    label: str
    hint: str = ""
    unit: str | None = None
    units: tuple[str, ...] = ()
    instrument: str | None = None
    minimum: float | None = None
    maximum: float | None = None
    required: bool = True
    when: tuple[Condition, ...] = ()
    options: tuple[Option, ...] = ()
    default: Any = None
    source: str | None = None
    group: str | None = None
    from_: str | None = None
    anew: tuple[Condition, ...] = ()
    scan: str | None = None
    meaning: str | None = None


@dataclass(frozen=True)
class Derived:
    """A computed quantity. Without a formula it is its one input `value` under another name.

    The same id may stand several times in a step: the first whose condition holds counts.
    """

    id: str
    label: str
    unit: str | None
    inputs: dict[str, Any]
    formula: str | None = None
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Rule:
    """What is judged. The fields that a kind does not use stay empty.

    `expected` is the prediction that a limit was made of; the causes say what to look for when the reading
    is above or below it.
    """

    id: str
    kind: str
    label: str
    source: str
    reading: str | None = None
    lower: str | None = None
    upper: str | None = None
    strict: bool = False
    decision: str | None = None
    guard: float = 1
    entry: str | None = None
    is_: tuple[Any, ...] | None = None
    entries: tuple[str, ...] = ()
    when: tuple[Condition, ...] = ()
    pending: bool = False
    weight: str = "judge"
    expected: str | None = None
    causes_above: tuple[str, ...] = ()
    causes_below: tuple[str, ...] = ()


@dataclass(frozen=True)
class Need:
    """A step that comes first. A hold cannot be overridden."""

    step: str
    because: str
    hold: bool = False


@dataclass(frozen=True)
class Step:
    id: str
    title: str
    why: str
    cautions: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    entries: tuple[Entry, ...] = ()
    derived: tuple[Derived, ...] = ()
    rules: tuple[Rule, ...] = ()
    optional: bool = False
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Stage:
    id: str
    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True)
class Caution:
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Procedure:
    """`compares` says whether a visit is judged against the unit as it was accepted (its baseline),
    `sets_baseline` whether an accepted record is what later visits compare with. One that compares, too, sets
    only what is missing, and every one that compares what is taken `anew`.
    """

    id: str
    version: int
    title: str
    plate: tuple[Entry, ...]
    site: tuple[Entry, ...]
    cautions: dict[str, Caution]
    stages: tuple[Stage, ...]
    steps: tuple[Step, ...]
    baseline: tuple[Entry, ...] = ()
    compares: bool = False
    sets_baseline: bool = False


def plain(part: Any) -> Any:
    """The part as JSON data; whole numbers are written as integers, so that every JSON writer agrees."""
    if is_dataclass(part):
        return {
            field.name.rstrip("_"): _plain_field(field.name, getattr(part, field.name))
            for field in fields(part)
        }
    if isinstance(part, dict):
        return {key: plain(value) for key, value in part.items()}
    if isinstance(part, list | tuple):
        return [plain(value) for value in part]
    if isinstance(part, float) and part.is_integer():
        return int(part)
    return part


def _plain_field(name: str, value: Any) -> Any:
    return None if name in ("when", "anew") and not value else plain(value)
