"""Steps of the parts, judged alone: what is entered goes in by its own name, verdicts come out."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from checks.engine import judge
from checks.judge import normalise
from checks.procedure.compose import compose, parts
from checks.procedure.load import build
from checks.procedure.model import plain


@cache
def procedure_of(*steps: str) -> dict[str, Any]:
    """A procedure of nothing but these steps."""
    stages = [{"id": "all", "title": "All", "steps": list(steps)}]
    table = {"id": "trial", "version": 1, "title": "Trial", "stages": stages}
    return plain(build(compose(table, "trial.toml", parts()), "trial"))


def instrument(kind: str, unit: str, maximum: float, **properties: Any) -> dict[str, Any]:
    """An invented instrument with next to no error, unless the properties give it one."""
    known = {"id": kind, "kind": kind, "unit": unit, "range_minimum": 0, "range_maximum": maximum}
    return known | {"resolution": 1e-9, "calibration_due": "2027-03-01"} | properties


def judged(
    *steps: str,
    plate: Mapping[str, Any] | None = None,
    site: Mapping[str, Any] | None = None,
    baseline: Mapping[str, Any] | None = None,
    instruments: tuple[Mapping[str, Any], ...] = (),
    **entries: Any,
) -> dict[str, Any]:
    """The judgement; an entry is named alone when there is one step, else as STEP__NAME."""
    named = {
        name.replace("__", ".") if "__" in name else f"{steps[0]}.{name}": value
        for name, value in entries.items()
    }
    case = {
        "plate": dict(plate or {}),
        "site": dict(site or {}),
        "baseline": dict(baseline or {}),
        "instruments": [dict(one) for one in instruments],
        "entries": named,
    }
    procedure = procedure_of(*steps)
    return judge(procedure, normalise(case, procedure))


def verdicts(step: str, *others: str, **given: Any) -> dict[str, str]:
    """The verdict of each rule of the step by its own name, without those that do not apply.

    The others are steps whose quantities it refers to.
    """
    named = ((name.split("."), rule) for name, rule in judged(step, *others, **given)["rules"].items())
    return {
        own: rule["verdict"]
        for (owner, own), rule in named
        if owner == step and rule["verdict"] != "not_applicable"
    }
