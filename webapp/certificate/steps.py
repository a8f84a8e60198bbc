"""The steps of a record for a reader: requirements with their readings, other values, remarks, working."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from checks.entries import fits
from webapp.certificate import defects, drawings, figures, working
from webapp.certificate.wording import Wording, verdict
from webapp.language import _, noop, say

DECISION_RULES = {
    "guarded": noop("inside the guard band"),
    "non_binary": noop("four words"),
    "simple": noop("no guard band"),
}

WANTED = {
    "given": noop("given"),
    "order": noop("in this order"),
    "same_instrument": noop("by one instrument"),
}


@dataclass(frozen=True)
class Reading:
    """What the blocks of a record are made from: its folded case, its judgement, and the names of people."""

    case: dict[str, Any]
    judgement: dict[str, Any]
    wording: Wording
    names: Mapping[str, str]
    changed: set[str] = field(default_factory=set)


def stages(reading: Reading) -> list[dict[str, Any]]:
    """Stage by stage the steps that apply to this unit; a stage without one is left out."""
    blocks = []
    for stage in reading.wording.procedure["stages"]:
        found = [step_block(reading, name) for name in stage["steps"] if applies(reading, name)]
        if found:
            blocks.append({"title": stage["title"], "steps": found})
    return blocks


def left_out(reading: Reading) -> list[dict[str, str]]:
    """The steps that this unit does not need, each with what takes it away."""
    return [
        {"title": step["title"], "because": taken_away_by(reading, step)}
        for name, step in reading.wording.steps.items()
        if not applies(reading, name)
    ]


def taken_away_by(reading: Reading, step: dict[str, Any]) -> str:
    """The condition of the step that does not hold: "Degasser fitted: No"."""
    for condition in step["when"] or ():
        name = condition["quantity"]
        value = reading.judgement["quantities"].get(name, {}).get("value")
        if not fits(condition, value):
            said = reading.wording.content(name, {"value": value}) if value is not None else _("not given")
            return f"{reading.wording.label(name)}: {said}"
    return ""


def applies(reading: Reading, name: str) -> bool:
    return bool(reading.judgement["steps"].get(name, {}).get("applies", True))


def step_block(reading: Reading, name: str) -> dict[str, Any]:
    step, judged = reading.wording.steps[name], reading.judgement["steps"].get(name, {})
    rules = [rule_row(reading, step, rule) for rule in step["rules"] if rule_applies(reading, step, rule)]
    shown = {quantity for row in rules for quantity in row["quantities"]}
    return {
        "id": name,
        "title": step["title"],
        "state": judged.get("state", "open"),
        "verdict": verdict(judged.get("verdict", "not_measured")),
        "remarks": remarks(reading, name, judged),
        "rules": rules,
        "values": values(reading, step, shown),
        "drawings": drawn(reading, step),
        "photos": photos(reading, step) + defects.photos(reading.case, name),
        "working": working.blocks(step, reading.judgement["quantities"]),
    }


# ---- requirements


def rule_applies(reading: Reading, step: dict[str, Any], rule: dict[str, Any]) -> bool:
    judged = reading.judgement["rules"].get(f"{step['id']}.{rule['id']}")
    return judged is not None and judged["verdict"] != "not_applicable"


def rule_row(reading: Reading, step: dict[str, Any], rule: dict[str, Any]) -> dict[str, Any]:
    judged = reading.judgement["rules"][f"{step['id']}.{rule['id']}"]
    unit = figures.symbol(judged.get("unit") or "")
    quantities = rule_quantities(rule)
    return {
        "label": rule["label"],
        "source": rule.get("source") or "",
        "quantities": quantities,
        "reading": ", ".join(quantity_text(reading, name, judged) for name in quantities),
        "changed": any(name in reading.changed for name in quantities),
        "expected": expected(reading, rule, unit),
        "uncertainty": figures.expanded_uncertainty(judged.get("expanded"), unit),
        "instrument": ", ".join(
            dict.fromkeys(filter(None, (used_for(reading, name) for name in quantities)))
        ),
        "limit": wanted(reading, rule, judged, unit),
        "accepted": accepted(judged, unit),
        "decision": how_decided(rule),
        "verdict": verdict(judged["verdict"]),
        "reasons": [reading.wording.reason(reason) for reason in judged.get("reasons", [])]
        + causes(rule, judged),
    }


def how_decided(rule: dict[str, Any]) -> str:
    """The decision rule in a few words."""
    words = [say(DECISION_RULES.get(rule.get("decision") or "", ""))] if rule["kind"] == "limit" else []
    if rule.get("weight") == "information":
        words.append(_("for information"))
    return ", ".join(words)


def rule_quantities(rule: dict[str, Any]) -> list[str]:
    if rule["kind"] == "limit":
        return [rule["reading"]]
    return list(rule["entries"]) if rule["entries"] else [rule["entry"]]


def wanted(reading: Reading, rule: dict[str, Any], judged: dict[str, Any], unit: str) -> str:
    """What the requirement asks, in words."""
    if rule["kind"] == "limit":
        return figures.interval(judged.get("lower"), judged.get("upper"), unit)
    if rule["kind"] == "answer":
        answers = [reading.wording.content(rule["entry"], {"value": value}) for value in rule["is"]]
        return _(" or ").join(answers)
    return say(WANTED.get(rule["kind"], ""))


def accepted(judged: dict[str, Any], unit: str) -> str:
    """The readings that pass, where uncertainty makes them fewer than those inside the limit."""
    ends = (judged.get("accept_lower"), judged.get("accept_upper"))
    if ends == (judged.get("lower"), judged.get("upper")):
        return ""
    return figures.interval(*ends, unit)


def quantity_text(reading: Reading, name: str, judged: dict[str, Any]) -> str:
    """An entry as it was typed; a computed quantity rounded."""
    if name in reading.wording.entries:
        return cells_text(reading, name, cells(reading, name))
    value = judged.get("reading")
    if value is None:
        return figures.NO_VALUE
    return figures.amount(value, figures.symbol(judged.get("unit") or ""))


def expected(reading: Reading, rule: dict[str, Any], unit: str) -> str:
    """What was predicted, where something was."""
    known = reading.judgement["quantities"].get(rule.get("expected") or "", {}).get("value")
    return (
        _("expected {amount}", amount=figures.amount(known, unit)) if isinstance(known, int | float) else ""
    )


def causes(rule: dict[str, Any], judged: dict[str, Any]) -> list[str]:
    """What to look for where a reading lies outside the band of its prediction."""
    value, lower, upper = (judged.get(part) for part in ("reading", "lower", "upper"))
    found: list[str] = []
    if value is not None and upper is not None and value > upper:
        found = rule.get("causes_above") or []
    elif value is not None and lower is not None and value < lower:
        found = rule.get("causes_below") or []
    return [_("Look for: {causes}.", causes="; ".join(found))] if found else []


# ---- entries


def cells(reading: Reading, name: str) -> list[dict[str, Any]]:
    """The cells of an entry: none, one, the readings of a series, or the values in conflict."""
    entry = reading.case["entries"].get(name)
    if entry is None:
        return []
    if isinstance(entry, list):
        return entry
    return list(entry.get("conflict", [entry]))


def cells_text(reading: Reading, name: str, found: list[dict[str, Any]]) -> str:
    text = "; ".join(reading.wording.content(name, cell) for cell in found)
    if "conflict" in (reading.case["entries"].get(name) or ()):
        return _("In conflict: {text}", text=text)
    return text or figures.NO_VALUE


def values(reading: Reading, step: dict[str, Any], shown: set[str]) -> list[dict[str, Any]]:
    """The entries of a step that no requirement has shown already."""
    rows = []
    for entry in step["entries"]:
        name = f"{step['id']}.{entry['id']}"
        found = cells(reading, name)
        if found and name not in shown and entry["kind"] != "photo":
            rows.append(
                {
                    "label": entry["label"],
                    "value": cells_text(reading, name, found),
                    "changed": name in reading.changed,
                    "note": instruments_used(reading, found),
                }
            )
    return rows


def used_for(reading: Reading, name: str) -> str:
    return instruments_used(reading, cells(reading, name)) if name in reading.wording.entries else ""


def instruments_used(reading: Reading, found: list[dict[str, Any]]) -> str:
    used = dict.fromkeys(cell["instrument"] for cell in found if cell.get("instrument"))
    known = reading.case["instruments"]
    return ", ".join(known[one]["name"] if one in known else one for one in used)


def photos(reading: Reading, step: dict[str, Any]) -> list[dict[str, str]]:
    """The photos of a step: hash and what they show."""
    return [
        {"sha256": cell["sha256"], "label": entry["label"]}
        for entry in step["entries"]
        if entry["kind"] == "photo"
        for cell in cells(reading, f"{step['id']}.{entry['id']}")
        if cell.get("sha256")
    ]


def drawn(reading: Reading, step: dict[str, Any]) -> list[dict[str, Any]]:
    """The signatures of a step, also those by a typed name."""
    return [
        drawings.drawing(entry["label"], cell)
        for entry in step["entries"]
        if entry["kind"] == "drawing"
        for cell in cells(reading, f"{step['id']}.{entry['id']}")
        if cell.get("value")
    ]


# ---- remarks


def remarks(reading: Reading, name: str, judged: dict[str, Any]) -> list[str]:
    """What a reader has to know of a step before its readings: what was overridden, left out, noted."""
    said = reading.case["steps"].get(name, {})
    lines = []
    if said.get("override"):
        reason = said["override"]["reason"]
        lines.append(_("Done although a prerequisite was not met. Reason: {reason}", reason=reason))
    if said.get("not_applicable"):
        reason = said["not_applicable"]["reason"]
        lines.append(_("Marked as not applicable. Reason: {reason}", reason=reason))
    if said.get("not_done"):
        reason = said["not_done"]["reason"]
        lines.append(_("Could not be done. Reason: {reason}", reason=reason))
    if judged.get("state") == "recheck":
        lines.append(_("To be checked again: a value it rested on was changed after the step was done."))
    lines += [_("Note: {text}", text=note["value"]) for note in reading.case["notes"].get(name, [])]
    return lines
