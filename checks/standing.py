"""Where the steps and the record stand: verdicts, states, prerequisites, conditions.

Free of domain words; `static/judging/standing.js` is the twin.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from checks.quantities import PlannedStep, Quantities, add

WORST_FIRST = (
    "fail",
    "no_valid_setting",
    "instrument_not_good_enough",
    "conditional_fail",
    "not_measured",
    "pending",
    "conditional_pass",
    "pass",
)
COUNTED = ("safety", "major")
"""Defects that count while they are open; minor ones are only listed."""
FAILED = WORST_FIRST[:4]
MET_WITHOUT_HOLD = ("pass", "conditional_pass", "pending")
WITHOUT_DOING = ("step_failed", "defect_unsafe", "step_not_done", "step_not_reached")
"""What keeps a record from passing, and not from being complete: its signer has nothing left to do."""
CONDITIONS = {"pending": "rule_pending", "conditional_pass": "rule_conditional_pass"}

Results = Mapping[str, dict[str, Any]]
Step = Mapping[str, Any]


def judge_steps(
    planned: Sequence[PlannedStep],
    case: Mapping[str, Any],
    quantities: Quantities,
    rules: Results,
    rests_on: Mapping[str, list[str]],
) -> dict[str, dict[str, Any]]:
    """The standing of each step, in the order of the procedure: a step needs only steps before it."""
    standing: dict[str, dict[str, Any]] = {}
    steps = {one.step["id"]: one.step for one in planned}
    defects = case.get("defects") or {}
    for one in planned:
        said = case["steps"].get(one.step["id"]) or {}
        result = _measured(one, quantities, rules, rests_on)
        _count_defects(one.step["id"], defects.get(one.step["id"]) or (), result)
        result |= _needs(one.step, steps, standing)
        result["conditions"] = _conditions(one, said, result, rules)
        result["state"] = _state(said, result)
        if result["state"] == "not_applicable" and not _unsafe(result):
            result["verdict"] = "not_applicable"
        if result["state"] == "not_done":
            result["verdict"] = worst([result["verdict"], "not_measured"])
        standing[one.step["id"]] = result
    return standing


def judge_record(procedure: Mapping[str, Any], steps: Results) -> dict[str, Any]:
    """The verdict of the whole, whether it is complete, what blocks it, and its conditions.

    A record is complete, too, where somebody said why a step could not be done: it fails then, and what
    waits for that step was not reached.
    """
    stopped = _stopped(procedure, steps)
    blocking: list[dict[str, Any]] = []
    conditions: list[dict[str, Any]] = []
    for step in procedure["steps"]:
        result = steps[step["id"]]
        blocking += _blocking(step, result, step["id"] in stopped)
        conditions += result["conditions"]
    verdict = worst(result["verdict"] for result in steps.values() if result["verdict"] != "not_applicable")
    incomplete = any(one["code"] not in WITHOUT_DOING for one in blocking)
    return {
        "verdict": "fail" if stopped else _summed_up(verdict, conditions),
        "state": "incomplete" if incomplete else "complete",
        "blocking": blocking,
        "conditions": conditions,
    }


def _stopped(procedure: Mapping[str, Any], steps: Results) -> set[str]:
    """The steps that could not be done, and those that wait for one of them."""
    found: set[str] = set()
    for step in procedure["steps"]:
        result = steps[step["id"]]
        waits = result["state"] in ("held", "waiting")
        if result["state"] == "not_done" or (
            waits and not found.isdisjoint([*result["held_by"], *result["unmet"]])
        ):
            found.add(step["id"])
    return found


def worst(verdicts: Any) -> str:
    """The worst of some verdicts; `pass` for none."""
    return min(verdicts, key=WORST_FIRST.index, default="pass")


def _summed_up(verdict: str, conditions: Sequence[Mapping[str, Any]]) -> str:
    if verdict in FAILED:
        return "fail"
    if verdict == "not_measured":
        return "not_measured"
    return "conditional_pass" if conditions or verdict != "pass" else "pass"


def _measured(
    one: PlannedStep, quantities: Quantities, rules: Results, rests_on: Mapping[str, list[str]]
) -> dict[str, Any]:
    """Verdict, what is missing and what they rest on, from the step's entries and rules alone."""
    applies, missing, used = quantities.holds(one.step["when"])
    verdicts = []
    for name, rule in one.rules:
        result = rules[name]
        if rule["weight"] == "judge" and result["verdict"] != "not_applicable":
            verdicts.append(result["verdict"])
            add(used, rests_on[name])
            if result["verdict"] != "pending":
                add(missing, result["missing"])
    for name, entry in one.entries:
        quantity = quantities[name]
        if entry["required"]:
            add(used, quantity.used)
        if quantity.value is None and (quantity.reason is not None or entry["required"]):
            add(missing, quantity.missing)
    verdict = worst([*verdicts, "not_measured"] if missing else verdicts)
    basis = _basis(quantities, used)
    return {"verdict": verdict, "missing": missing, "basis": basis, "applies": applies is not False}


def _count_defects(name: str, cells: Sequence[Any], result: dict[str, Any]) -> None:
    """What the step's open defects mean: one that makes it unsafe fails it, whatever was measured."""
    counted = [(cell, severity) for cell in cells if (severity := _severity(cell)) is not None]
    result["defects"] = [{"defect": cell.get("item"), "severity": severity} for cell, severity in counted]
    if counted:
        result["basis"][f"{name}#defect"] = [_mark(cell) for cell, _ in counted]
    if _unsafe(result):
        result["verdict"] = "fail"


def _severity(cell: Mapping[str, Any]) -> str | None:
    """How an open defect counts; None for one that is closed or minor. In a conflict the worse one counts."""
    versions = cell.get("conflict", [cell])
    found = [one.get("severity") for one in versions if not one.get("closed")]
    return next((severity for severity in COUNTED if severity in found), None)


def _unsafe(result: Mapping[str, Any]) -> bool:
    return any(one["severity"] == "safety" for one in result["defects"])


def _basis(quantities: Quantities, names: Sequence[str]) -> dict[str, Any]:
    """The event, or else the value, behind each entry that has one."""
    return {name: _mark(cell) for name in sorted(names) if (cell := quantities.cell(name)) is not None}


def _mark(cell: Any) -> Any:
    if isinstance(cell, list):
        return [_mark(one) for one in cell]
    if "conflict" in cell:
        return [_mark(one) for one in cell["conflict"]]
    return cell["id"] if cell.get("id") is not None else cell.get("value")


def _needs(step: Step, steps: Mapping[str, Step], standing: Results) -> dict[str, Any]:
    unmet: dict[bool, list[str]] = {True: [], False: []}
    for need in step["needs"]:
        if not _met(need, steps[need["step"]], standing[need["step"]]):
            unmet[need["hold"]].append(need["step"])
    return {"held_by": unmet[True], "unmet": unmet[False]}


def _met(need: Mapping[str, Any], step: Step, result: Mapping[str, Any]) -> bool:
    if result["state"] == "not_applicable":
        return not _unsafe(result) and (not result["applies"] or step["optional"])
    accepted = ("pass",) if need["hold"] else MET_WITHOUT_HOLD
    return result["state"] == "done" and result["verdict"] in accepted


def _state(said: Mapping[str, Any], result: Mapping[str, Any]) -> str:
    if not result["applies"] or said.get("not_applicable") is not None:
        return "not_applicable"
    if said.get("not_done") is not None:
        return "not_done"
    if result["held_by"]:
        return "held"
    if result["unmet"] and said.get("override") is None:
        return "waiting"
    if said.get("done") is None:
        return "open"
    return "done" if said["done"].get("seen") == result["basis"] else "recheck"


def _conditions(
    one: PlannedStep, said: Mapping[str, Any], result: Mapping[str, Any], rules: Results
) -> list[dict[str, Any]]:
    """Under which conditions the step counts."""
    name = one.step["id"]
    open_defects = [
        {"code": "defect_open", "step": name, "defect": defect["defect"]}
        for defect in result["defects"]
        if defect["severity"] == "major"
    ]
    if not result["applies"]:
        return open_defects
    if said.get("not_applicable") is not None:
        reason = _reason(said["not_applicable"])
        return [{"code": "step_not_applicable", "step": name, "reason": reason}, *open_defects]
    found: list[dict[str, Any]] = []
    if said.get("override") is not None:
        reason = _reason(said["override"])
        found += [
            {"code": "prerequisite_overridden", "step": name, "needs": need, "reason": reason}
            for need in result["unmet"]
        ]
    for rule_name, rule in one.rules:
        verdict = rules[rule_name]["verdict"]
        if rule["weight"] == "judge" and verdict in CONDITIONS:
            found.append({"code": CONDITIONS[verdict], "step": name, "rule": rule_name})
    return found + open_defects


def _reason(said: Mapping[str, Any]) -> Any:
    """A reason given with a statement is a text, or a code with a text."""
    reason = said.get("reason")
    return reason.get("text") if isinstance(reason, Mapping) else reason


def _blocking(step: Step, result: Mapping[str, Any], stopped: bool) -> list[dict[str, Any]]:
    """What of a step keeps the record from being complete, and what keeps it from passing."""
    name, state = step["id"], result["state"]
    found = [
        {"code": "defect_unsafe", "step": name, "defect": defect["defect"]}
        for defect in result["defects"]
        if defect["severity"] == "safety"
    ]
    if state == "not_applicable":
        left_out = result["applies"] and not step["optional"]
        return found + ([{"code": "step_not_optional", "step": name}] if left_out else [])
    if not stopped and (result["missing"] or result["verdict"] == "not_measured"):
        found.append({"code": "step_missing", "step": name, "missing": result["missing"]})
    if result["verdict"] in FAILED:
        found.append({"code": "step_failed", "step": name, "verdict": result["verdict"]})
    if stopped:
        found.append({"code": "step_not_done" if state == "not_done" else "step_not_reached", "step": name})
    elif state != "done":
        found.append({"code": f"step_{state}", "step": name})
    return found
