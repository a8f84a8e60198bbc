"""A file of entries as a person writes it -> a case for the engine (docs/api.md, "Case and judgement").

Short forms: a cell may be a bare number in the entry's unit, a text like "2.5 bar", a choice word, true or
false; `unit` may stand for `plate`; `"done": true` confirms a step as it stands; a reading without an
instrument takes the only one of its kind.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any

from checks.engine import judge, plan_of
from checks.errors import CheckError
from checks.fold import field_kinds
from checks.messages import SEVERITIES, sentence
from checks.quantities import OWNERS
from checks.units import read_typed, unit_named

TOP = ("procedure", *OWNERS, "unit", "instruments", "entries", "steps", "defects", "notes", "unknown")
CELL = ("value", "typed", "unit", "instrument", "at", "id")
MORE = ("sha256", "type", "size", "scanned", "role", "means", "strokes", "stated")
"""What the content of a photo, a scanned text and a drawing holds besides."""
INSTRUMENT = {
    "id": None,
    "kind": None,
    "unit": None,
    "name": None,
    "serial": "",
    "calibration_due": None,
    "range_minimum": None,
    "range_maximum": None,
    "accuracy_of_reading": 0,
    "accuracy_of_range": 0,
    "digits": 0,
    "resolution": 0,
    "calibration_uncertainty": 0,
}
STATEMENTS = ("done", "override", "not_applicable", "not_done")


class CaseError(CheckError):
    """A file of entries that cannot be taken; `field` names where, `str()` says what to write instead."""

    def __init__(self, field: str, code: str, **details: Any) -> None:
        self.field, self.code, self.details = field, code, details
        said = sentence(code, **{"field": field, "input": field, **details})
        super().__init__(said if field in said else f"{field}: {said}")


def normalise(document: Any, procedure: Mapping[str, Any]) -> dict[str, Any]:
    """The case that a document means, each cell whole; raises CaseError naming the field."""
    _want(document, dict, "file", "an object with plate, site, instruments, entries and steps")
    for name in document:
        _want_known(name, TOP, name)
    instruments = _instruments(_part(document, "instruments"))
    plan = plan_of(procedure)
    owned: dict[str, Any] = {owner: {} for owner in OWNERS}
    case: dict[str, Any] = {**owned, "instruments": instruments, "entries": {}, "steps": {}}
    for owner in OWNERS:
        part = _part(document, "unit" if owner == "plate" and "plate" not in document else owner)
        _want(part, dict, owner, "an object of values by name")
        for own, given in part.items():
            name = f"{owner}.{own}"
            case[owner][own] = _cell(_entry(name, plan.settable, plan.entries), given, name, instruments)
    entries = _part(document, "entries")
    _want(entries, dict, "entries", "an object of values by STEP.NAME")
    for name, given in entries.items():
        entry = _entry(name, [one for one in field_kinds(procedure) if "#" not in one], plan.entries)
        case["entries"][name] = _cells(entry, given, name, instruments)
    case["defects"] = _defects(_part(document, "defects"), procedure)
    _take_steps(_part(document, "steps"), procedure, case)
    return case


def _part(document: Mapping[str, Any], name: str) -> Any:
    part = document.get(name)
    return {} if part is None else part


def _instruments(given: Any) -> dict[str, Any]:
    if isinstance(given, list):
        for place, one in enumerate(given):
            _want(one, dict, f"instruments.{place}", "an object with id, kind and unit")
            _want(one.get("id", ""), str, f"instruments.{place}.id", "a text")
        given = {one.get("id", f"instrument-{place}"): one for place, one in enumerate(given)}
    _want(given, dict, "instruments", "an object of instruments by id")
    found = {}
    for identity, one in given.items():
        field = f"instruments.{identity}"
        _want(one, dict, field, "an object with id, kind and unit")
        for name in one:
            _want_known(name, INSTRUMENT, f"{field}.{name}")
        for name in ("kind", "unit"):
            _want(one.get(name), str, f"{field}.{name}", "a word")
        found[identity] = {**INSTRUMENT, "name": identity, **one, "id": identity}
    return found


def _entry(name: str, allowed: Iterable[str], entries: Mapping[str, Any]) -> Mapping[str, Any]:
    _want_known(name, list(allowed), name)
    return entries[name]


def _cells(entry: Mapping[str, Any], given: Any, name: str, instruments: Mapping[str, Any]) -> Any:
    if isinstance(given, dict) and "conflict" in given:
        _want(given["conflict"], list, f"{name}.conflict", "a list of values")
        return {"conflict": [_cell(entry, one, name, instruments) for one in given["conflict"]]}
    if entry["kind"] != "series":
        return _cell(entry, given, name, instruments)
    _want(given, list, name, "a list of readings")
    return [_cell(entry, one, f"{name}.{place}", instruments) for place, one in enumerate(given)]


def _cell(entry: Mapping[str, Any], given: Any, name: str, instruments: Mapping[str, Any]) -> dict[str, Any]:
    cell = dict(given) if isinstance(given, dict) else {"value": given}
    for part in cell:
        _want_known(part, [*CELL, *MORE], f"{name}.{part}")
    if entry["kind"] in ("reading", "series"):
        cell = _reading(entry, cell, name)
        if entry["instrument"] and not cell.get("instrument"):
            cell |= _only_instrument(entry["instrument"], instruments)
    elif isinstance(cell.get("value"), bool):
        cell["value"] = "yes" if cell["value"] else "no"
    elif isinstance(cell.get("value"), int | float) and entry["kind"] == "choice":
        cell["value"] = f"{cell['value']:g}"
    return cell


def _only_instrument(kind: str, instruments: Mapping[str, Any]) -> dict[str, Any]:
    fitting = [identity for identity, one in instruments.items() if one["kind"] == kind]
    return {"instrument": fitting[0]} if len(fitting) == 1 else {}


def _reading(entry: Mapping[str, Any], cell: dict[str, Any], name: str) -> dict[str, Any]:
    number = cell.get("value")
    text = number if isinstance(number, str) else None if "value" in cell else cell.get("typed")
    if text is None:
        if number is not None and (isinstance(number, bool) or not isinstance(number, int | float)):
            raise CaseError(name, "not_a_number", value=number)
        return cell
    _want(text, str, name, "a number or a text like “2.5 bar”")
    chosen = cell.get("unit")
    if chosen not in (None, entry["unit"], *entry["units"]):
        named = unit_named(chosen) if isinstance(chosen, str) else None
        if named is None:
            raise CaseError(name, "unknown_unit", unit=chosen, units=entry["units"])
        chosen = named
    read = read_typed(text, entry["unit"], entry["units"], chosen)
    if read.problem is not None:
        details = {key: value for key, value in read.problem.items() if key != "code"}
        raise CaseError(name, read.problem["code"], **details)
    return {**cell, "value": read.value, "typed": text, "unit": read.unit}


def _defects(given: Any, procedure: Mapping[str, Any]) -> dict[str, Any]:
    _want(given, dict, "defects", "an object of lists of defects by step")
    for name, listed in given.items():
        _want_known(name, [step["id"] for step in procedure["steps"]], f"defects.{name}")
        _want(listed, list, f"defects.{name}", "a list of defects")
        for place, one in enumerate(listed):
            _want(one, dict, f"defects.{name}.{place}", "an object with text and severity")
            if "conflict" not in one:
                _want_one_of(one.get("severity"), tuple(SEVERITIES), f"defects.{name}.{place}.severity")
    return dict(given)


def _take_steps(given: Any, procedure: Mapping[str, Any], case: dict[str, Any]) -> None:
    """What was said about steps; `done: true` confirms the values as they are in this file."""
    _want(given, dict, "steps", "an object of statements by step")
    confirmed = []
    for name, said in given.items():
        _want_known(name, [step["id"] for step in procedure["steps"]], f"steps.{name}")
        _want(said, dict, f"steps.{name}", "an object with done, override, not_applicable or not_done")
        case["steps"][name] = {}
        for statement, content in said.items():
            _want_known(statement, STATEMENTS, f"steps.{name}.{statement}")
            if content is True and statement == "done":
                confirmed.append(name)
            elif content:
                made = {"reason": content} if isinstance(content, str) else content
                _want(made, dict, f"steps.{name}.{statement}", "an object, or a reason as a text")
                case["steps"][name][statement] = made
    if confirmed:
        standing = judge(procedure, case)["steps"]
        for name in confirmed:
            case["steps"][name]["done"] = {"seen": standing[name]["basis"]}


def _want(value: Any, kind: type, field: str, wanted: str) -> None:
    if not isinstance(value, kind):
        raise CaseError(field, "wrong_shape", wanted=wanted)


def _want_one_of(value: Any, options: tuple[str, ...], field: str) -> None:
    if value not in options:
        raise CaseError(field, "wrong_shape", wanted=f"one of {', '.join(options)}")


def _want_known(name: str, known: Iterable[str], field: str) -> None:
    listed = list(known)
    if name not in listed:
        near = get_close_matches(name, listed, n=2)
        raise CaseError(field, "unknown_field", near=" or ".join(near) or None)
