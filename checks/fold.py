"""Events -> the current values of a record; `static/judging/fold.js` is the twin.

Every event stays. An event names the events it replaces; what no other event of the same field and item
replaces is current. Several current events with different contents are a conflict, kept until a person picks
one. The result does not depend on the order of arrival, nor on how often an event arrives.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from checks.once import once_for_each

Event = Mapping[str, Any]
STATEMENTS = ("done", "override", "not_applicable", "not_done")
ENTERED = ("plate", "site")
"""Whose values can be given in a visit, too; what was accepted once cannot."""
REPEATED = ("series", "defect")
"""What has items: one field, and on it any number of readings, or of defects."""


def fold(procedure: Mapping[str, Any], events: Iterable[Event]) -> dict[str, Any]:
    """The `entries`, `steps`, `notes` and `defects` of a case (docs/api.md).

    `unknown` lists the events whose field, or item, this procedure does not have: `{"id", "field"}`.
    """
    kinds = field_kinds(procedure)
    result: dict[str, Any] = {"entries": {}, "steps": {}, "notes": {}, "defects": {}, "unknown": []}
    groups: dict[str, dict[str | None, list[Event]]] = {}
    for event in _once_each(events):
        kind = kinds.get(event["field"])
        if kind is None or (event.get("item") is not None and kind not in REPEATED):
            result["unknown"].append({"id": event["id"], "field": event["field"]})
        else:
            groups.setdefault(event["field"], {}).setdefault(event.get("item"), []).append(event)
    for field in sorted(groups):
        _put(result, field, kinds[field], groups[field])
    return result


@once_for_each
def field_kinds(procedure: Mapping[str, Any]) -> dict[str, str]:
    """Every field that an event may name, with the kind of its entry, "statement", "note" or "defect"."""
    kinds = {
        f"{owner}.{entry['id']}": entry["kind"] for owner in ENTERED for entry in procedure.get(owner) or ()
    }
    for step in procedure["steps"]:
        for entry in step["entries"]:
            kinds[f"{step['id']}.{entry['id']}"] = entry["kind"]
        for statement in STATEMENTS:
            kinds[f"{step['id']}#{statement}"] = "statement"
        kinds |= {f"{step['id']}#note": "note", f"{step['id']}#defect": "defect"}
    return kinds


def _put(result: dict[str, Any], field: str, kind: str, items: dict[str | None, list[Event]]) -> None:
    step = field.partition("#")[0]
    if kind == "statement":
        said = _statement(items[None])
        if said is not None:
            result["steps"].setdefault(step, {})[field.partition("#")[2]] = said
    elif kind == "note":
        notes = [_cell(event) for event in _heads(items[None]) if event["content"] is not None]
        if notes:
            result["notes"][step] = notes
    elif kind == "series":
        kept = [cell for _, cell in _each(items)]
        if kept:
            result["entries"][field] = kept
    elif kind == "defect":
        defects = [{**cell, "item": item} for item, cell in _each(items)]
        if defects:
            result["defects"][step] = defects
    else:
        cell = _current(items[None])
        if cell is not None:
            result["entries"][field] = cell


def _each(items: dict[str | None, list[Event]]) -> list[tuple[str | None, dict[str, Any]]]:
    """Each item with its current value, in the order in which they were begun; removed ones are left out."""
    found = []
    for item in sorted(items, key=lambda item: _first(item, items[item])):
        cell = _current(items[item])
        if cell is not None:
            found.append((item, cell))
    return found


def _once_each(events: Iterable[Event]) -> list[Event]:
    """Each event once, by time. Of two with one id the lesser stays, whoever came first."""
    known: dict[str, Event] = {}
    for event in events:
        before = known.get(event["id"])
        if before is None or _rank(event) < _rank(before):
            known[event["id"]] = event
    return sorted(known.values(), key=_place)


def _place(event: Event) -> tuple[str, str]:
    return event["hlc"], event["id"]


def _rank(event: Event) -> tuple[str, str]:
    return event["hlc"], key(event)


def _heads(events: list[Event]) -> list[Event]:
    """The events that no other one replaces; all of them if they replace each other in a ring."""
    replaced = {old for event in events for old in event["replaces"] if old != event["id"]}
    return [event for event in events if event["id"] not in replaced] or events


def _current(events: list[Event]) -> dict[str, Any] | None:
    """The newest current value, the conflict, or None where the value was removed."""
    heads = {content_key(event["content"]): event for event in _heads(events)}
    if len(heads) > 1:
        return {"conflict": [_cell(event) for event in sorted(heads.values(), key=_place)]}
    (event,) = heads.values()
    return None if event["content"] is None else _cell(event)


def _statement(events: list[Event]) -> dict[str, Any] | None:
    """The newest statement; none if anybody who was not contradicted took it back."""
    heads = _heads(events)
    if any(event["content"] is None for event in heads):
        return None
    return {"at": heads[-1]["at"], **_content(heads[-1])}


def _content(event: Event) -> Mapping[str, Any]:
    return event["content"] if isinstance(event["content"], Mapping) else {}


def _cell(event: Event) -> dict[str, Any]:
    content = _content(event)
    value = content.get("value", content.get("sha256"))
    return {**content, "value": value, "at": event["at"], "id": event["id"]}


def _first(item: str | None, events: list[Event]) -> tuple[str, str]:
    """Where an item stands in its series: at the time of the event that began it."""
    began = next((event for event in events if event["id"] == item), events[0])
    return began["hlc"], item or ""


def content_key(content: Any) -> str:
    """Two contents with one key say the same: how a number was typed does not matter once it was read."""
    if isinstance(content, Mapping) and "typed" in content and content.get("value") is not None:
        return key({"value": content["value"], "instrument": content.get("instrument")})
    return key(content)


def key(value: Any) -> str:
    """One text per JSON value, whatever the order of its fields."""
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{name}:{key(value[name])}" for name in sorted(value)) + "}"
    if isinstance(value, list | tuple):
        return "[" + ",".join(key(one) for one in value) + "]"
    if isinstance(value, bool) or value is None:
        return {True: "true", False: "false", None: "null"}[value]
    if isinstance(value, int | float):
        digits, _, exponent = f"{value + 0.0:.16e}".partition("e")
        return f"{digits}e{int(exponent)}"
    return f'"{value}"'
