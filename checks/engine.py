"""Entries + data plate -> derived quantities -> limits -> rules -> steps -> record, as plain data.

`judge` knows the shapes of docs/api.md and no word of any domain; `static/judging/engine.js` is the twin.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import pairwise
from typing import Any

from checks.catalogue import FORMULAS
from checks.entries import instant
from checks.instrument import problems
from checks.interval import Found, blank, judge_interval
from checks.once import once_for_each
from checks.quantities import Plan, Quantities, Quantity, add
from checks.standing import judge_record, judge_steps

OVERDUE = "calibration_overdue"


def judge(
    procedure: Mapping[str, Any], case: Mapping[str, Any], formulas: Mapping[str, Any] = FORMULAS
) -> dict[str, Any]:
    """The judgement of a case (docs/api.md, "Case and judgement").

    Never raises for what a person entered: what is missing or cannot be used is named in the result.
    Numbers are finite or None. Nothing of the case is changed.
    """
    quantities = Quantities(plan_of(procedure), case, formulas)
    rules: dict[str, dict[str, Any]] = {}
    rests_on: dict[str, list[str]] = {}
    planned = quantities.plan.steps
    for one in planned:
        for name, rule in one.rules:
            rests_on[name] = []
            rules[name] = judge_rule(rule, quantities, rests_on[name])
    steps = judge_steps(planned, case, quantities, rules, rests_on)
    names = [*quantities.plan.entries, *quantities.plan.derived]
    return {
        "quantities": {name: quantities[name].plain() for name in names},
        "rules": rules,
        "steps": steps,
        "record": judge_record(procedure, steps),
    }


@once_for_each
def plan_of(procedure: Mapping[str, Any]) -> Plan:
    """The procedure's plan."""
    return Plan.of(procedure)


def judge_rule(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    """The result of one rule; the entries it rests on are added to `used`."""
    applies, missing, rests_on = quantities.holds(rule["when"])
    add(used, rests_on)
    if applies is False:
        return blank("not_applicable")
    if applies is None:
        return blank("not_measured") | {"missing": missing}
    return _KINDS[rule["kind"]](rule, quantities, used)


def _limit(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    reading = quantities[rule["reading"]]
    ends = [quantities[rule[end]] if rule[end] else None for end in ("lower", "upper")]
    parts = [reading, *(end for end in ends if end is not None)]
    for part in parts:
        add(used, part.used)
    result = judge_interval(rule, _found(rule["reading"], reading, ends, quantities), quantities.formulas)
    result["missing"] = _missing(parts)
    _give_reasons(result, _reasons(parts))
    if any(part.value is None for part in parts):
        if result["verdict"] not in ("no_valid_setting", "instrument_not_good_enough"):
            result["verdict"] = _without_value(rule, result)
        return result
    bad = [] if result["verdict"] == "no_valid_setting" else _instrument_problems(quantities, parts)
    if bad:
        known = [one for one in result["reasons"] if one["code"] != "uncertainty_unknown"]
        result |= {"verdict": "instrument_not_good_enough", "reasons": known}
        _give_reasons(result, bad)
    return result


def _found(name: str, reading: Quantity, ends: Sequence[Quantity | None], quantities: Quantities) -> Found:
    entry = quantities.plan.entries.get(name)
    lower, upper = (None if end is None else end.value for end in ends)
    measured = entry is not None and quantities.instrument(name) is not None
    return Found(
        reading=reading.value,
        u=None if reading.value is None else reading.u,
        nu=reading.nu,
        lower=lower,
        upper=upper,
        unit=reading.unit,
        uncertainty_at=partial(quantities.uncertainty_at, name) if measured else None,
        least=entry["minimum"] if entry else None,
        most=entry["maximum"] if entry else None,
    )


def _instrument_problems(quantities: Quantities, parts: Sequence[Quantity]) -> list[dict[str, Any]]:
    """Why the readings behind these quantities cannot be judged."""
    found: list[dict[str, Any]] = []
    names: list[str] = []
    for part in parts:
        add(names, part.used)
    for name in names:
        entry = quantities.plan.entries[name]
        if entry["instrument"] is not None and quantities[name].value is not None:
            cells = quantities.cell(name)
            for cell in cells if isinstance(cells, list) else [cells]:
                found += [one for one in _problems(quantities, name, entry, cell) if one not in found]
    return found


def _problems(
    quantities: Quantities, name: str, entry: Mapping[str, Any], cell: Mapping[str, Any]
) -> list[dict[str, Any]]:
    chosen = cell.get("instrument")
    instrument = quantities.case["instruments"].get(chosen) if isinstance(chosen, str) else None
    if instrument is None:
        return [{"code": "unknown_instrument" if chosen else "no_instrument", "quantity": name}]
    at = cell.get("at") if isinstance(cell.get("at"), str) else None
    bad = problems(instrument, cell["value"], entry["unit"], entry["instrument"], at)
    return [{**one, "quantity": name} for one in bad]


def _answer(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    quantity = quantities[rule["entry"]]
    result = _of_entries(rule, [quantity], used)
    if quantity.value is not None:
        result |= {"reading": quantity.value, "verdict": "pass"}
        if quantity.value not in rule["is"]:
            result |= {"verdict": "fail", "reasons": [_not_accepted(rule, quantity.value)]}
    return result


def _not_accepted(rule: Mapping[str, Any], value: Any) -> dict[str, Any]:
    return {"code": "answer_not_accepted", "quantity": rule["entry"], "value": value}


def _given(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    quantity = quantities[rule["entry"]]
    result = _of_entries(rule, [quantity], used)
    if quantity.value is None:
        return result
    overdue = [one for one in _instrument_problems(quantities, [quantity]) if one["code"] == OVERDUE]
    verdict = "instrument_not_good_enough" if overdue else "pass"
    return result | {"verdict": verdict, "reasons": overdue}


def _order(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    parts = [quantities[name] for name in rule["entries"]]
    result = _of_entries(rule, parts, used)
    if any(part.value is None for part in parts):
        return result
    times = [instant(part.value) for part in parts]
    pairs = list(pairwise(times))
    if all(before < after for before, after in pairs):
        return result | {"verdict": "pass"}
    code = "same_instant" if all(before <= after for before, after in pairs) else "out_of_order"
    return result | {"verdict": "fail", "reasons": [{"code": code}]}


def _same_instrument(rule: Mapping[str, Any], quantities: Quantities, used: list[str]) -> dict[str, Any]:
    parts = [quantities[name] for name in rule["entries"]]
    result = _of_entries(rule, parts, used)
    if any(part.value is None for part in parts):
        return result
    chosen = [(name, quantities.instrument(name)) for name in rule["entries"]]
    absent = [{"code": "no_instrument", "quantity": name} for name, one in chosen if one is None]
    if absent:
        return result | {"verdict": "instrument_not_good_enough", "reasons": absent}
    if len({one["id"] for _, one in chosen if one is not None}) > 1:
        return result | {"verdict": "fail", "reasons": [{"code": "different_instruments"}]}
    return result | {"verdict": "pass"}


def _of_entries(rule: Mapping[str, Any], parts: Sequence[Quantity], used: list[str]) -> dict[str, Any]:
    """The result while nothing is judged: what is missing, and why a value cannot be used."""
    for part in parts:
        add(used, part.used)
    result = blank("not_measured") | {"missing": _missing(parts)}
    _give_reasons(result, _reasons(parts))
    return result | {"verdict": _without_value(rule, result)}


def _without_value(rule: Mapping[str, Any], result: Mapping[str, Any]) -> str:
    """A result that may follow later is pending, unless something was entered that cannot be used."""
    return "pending" if rule["pending"] and result["missing"] and not result["reasons"] else "not_measured"


def _missing(parts: Sequence[Quantity]) -> list[str]:
    missing: list[str] = []
    for part in parts:
        add(missing, part.missing)
    return missing


def _reasons(parts: Sequence[Quantity]) -> list[dict[str, Any]]:
    """Why the quantities have no value; one that does not exist here says so."""
    found = []
    for part in parts:
        if part.reason is not None:
            found.append(part.reason)
        elif part.value is None and not part.missing:
            found.append({"code": "no_choice_fits"})
    return found


def _give_reasons(result: dict[str, Any], reasons: Sequence[dict[str, Any]]) -> None:
    result["reasons"] = list(result["reasons"])
    for one in reasons:
        if one not in result["reasons"]:
            result["reasons"].append(one)


_KINDS = {
    "limit": _limit,
    "answer": _answer,
    "given": _given,
    "order": _order,
    "same_instrument": _same_instrument,
}
