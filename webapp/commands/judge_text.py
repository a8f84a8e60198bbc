"""A judgement for people: step by step, each number with its formula, each verdict with its source."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

import click

from checks.catalogue import FORMULAS
from checks.messages import STATES, VERDICTS, sentence
from checks.units import unit_label

Judgement = Mapping[str, Any]
Step = Mapping[str, Any]


def print_judgement(judgement: Judgement, procedure: Mapping[str, Any], only: Collection[str]) -> None:
    for step in procedure["steps"]:
        if (only and step["id"] not in only) or not judgement["steps"][step["id"]]["applies"]:
            continue
        for line in step_lines(judgement, step):
            click.echo(line)
        click.echo()
    if not only:
        record = judgement["record"]
        click.echo(
            f"Record: {VERDICTS[record['verdict']]['word']}, {STATES[record['state']]['word'].lower()}"
        )


def step_lines(judgement: Judgement, step: Step) -> Iterator[str]:
    result = judgement["steps"][step["id"]]
    yield f"{step['title']} ({step['id']}): {VERDICTS[result['verdict']]['word']}"
    for name in dict.fromkeys(f"{step['id']}.{one['id']}" for one in step["derived"]):
        yield from quantity_lines(name, judgement["quantities"][name])
    for rule in step["rules"]:
        yield from rule_lines(rule, judgement["rules"][f"{step['id']}.{rule['id']}"])
    if result["missing"]:
        yield f"  Missing: {', '.join(result['missing'])}"


def quantity_lines(name: str, quantity: Mapping[str, Any]) -> Iterator[str]:
    """A derived quantity that has a value, or a reason against one."""
    if quantity["value"] is None and quantity["reason"] is None:
        return
    if quantity["value"] is None:
        yield f"  {name}: no result. {sentence(quantity['reason'])}"
        return
    formula = quantity["formula"]
    inputs = ", ".join(f"{key}={plain(value)}" for key, value in quantity["inputs"].items())
    made = f" = {formula}({inputs})" if formula else ""
    yield f"  {name} = {amount(quantity['value'], quantity['unit'], quantity['u'])}{made}"
    for source in FORMULAS[formula].sources if formula else ():
        yield f"      Source: {source}"


def rule_lines(rule: Mapping[str, Any], result: Mapping[str, Any]) -> Iterator[str]:
    """A rule that was judged; what is not measured yet is listed as missing instead."""
    if result["verdict"] in {"not_applicable", "not_measured"} and not result["reasons"]:
        return
    word = VERDICTS[result["verdict"]]["word"]
    if rule["weight"] == "information":
        word += " (for information)"
    yield f"  {rule['label']}: {word}{comparison(result)}"
    for reason in result["reasons"]:
        yield f"      {sentence(reason)}"
    if rule["source"]:
        yield f"      Source: {rule['source']}"


def comparison(result: Mapping[str, Any]) -> str:
    """What was compared with what: reading, limits, and the ends moved in by the uncertainty."""
    unit = result["unit"]
    if result["reading"] is None:
        return ""
    read = amount(result["reading"], unit, result["u"])
    ends = interval(result["lower"], result["upper"], unit)
    accepted = interval(result["accept_lower"], result["accept_upper"], unit)
    return f"; {read}, limit {ends}" + (f", accepted {accepted}" if accepted not in ("", ends) else "")


def interval(lower: float | None, upper: float | None, unit: str | None) -> str:
    parts = [] if lower is None else [f"from {amount(lower, unit)}"]
    parts += [] if upper is None else [f"up to {amount(upper, unit)}"]
    return " ".join(parts)


def amount(value: Any, unit: str | None, u: float | None = None) -> str:
    label = unit_label(unit) if unit else ""
    spread = f" ± {2 * u:.2g}" if u else ""
    return f"{plain(value)}{spread} {label}".strip()


def plain(value: Any) -> str:
    if isinstance(value, list):
        return "[" + ", ".join(plain(one) for one in value) + "]"
    return f"{value:.6g}" if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
