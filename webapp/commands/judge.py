"""firstwater judge: a file of entries -> quantities, limits, verdicts."""

import sys
from pathlib import Path
from typing import Any

import click

from checks import procedure as procedures
from checks.catalogue import FORMULAS
from checks.engine import judge as judge_case
from checks.judge import CaseError, normalise
from checks.procedure import procedure_hash
from checks.standing import worst
from webapp.commands.group import NOT_ACCEPTABLE, BadInput, json_option, near, print_json
from webapp.commands.judge_text import print_judgement
from webapp.signing.canonical import NotCanonical, parse

DEFAULT_PROCEDURE = "commissioning"
ACCEPTABLE = {"pass", "conditional_pass"}


@click.command(short_help="Judge a file of entries.")
@click.argument("file", metavar="FILE")
@click.option("--step", "steps", multiple=True, metavar="STEP", help="Only this step; may be repeated.")
@json_option
def judge(file: str, steps: tuple[str, ...], as_json: bool) -> int:
    """Judge the entries in FILE (JSON; - for standard input): quantities, limits, verdicts, with sources.

    The shape of the file is "Case and judgement" in docs/api.md; a value may be a bare number in the entry's
    unit, a text like "2.5 bar" or a choice word:

    \b
    {"plate": {"maximum_pressure": "6 bar"},
     "instruments": {"gauge": {"kind": "pressure_gauge", "unit": "bar", "range_maximum": 10, ...}},
     "entries": {"relief.opening_pressure": "5.8 bar", ...}}

    The exit status is 0 when the record, or the named steps, pass (under conditions, too); it is 1 when not,
    also while values are missing.
    """
    document = read_document(file)
    procedure = chosen_procedure(document)
    judgement = judged(document, procedure, file)
    verdict = verdict_of(judgement, procedure, steps)
    if as_json:
        print_json(answer(judgement, procedure, verdict))
    else:
        print_judgement(judgement, procedure, steps)
    return 0 if verdict in ACCEPTABLE else NOT_ACCEPTABLE


def read_document(file: str) -> Any:
    try:
        return parse(sys.stdin.read() if file == "-" else Path(file).read_bytes())
    except OSError as error:
        raise BadInput(f"{file}: cannot be read ({error.strerror}).") from None
    except (NotCanonical, UnicodeDecodeError) as error:
        raise BadInput(f"{file}: {error}") from None


def chosen_procedure(document: Any) -> dict[str, Any]:
    named = document.get("procedure") if isinstance(document, dict) else None
    name = named.get("id") if isinstance(named, dict) else (named or DEFAULT_PROCEDURE)
    if name not in procedures.names():
        raise BadInput(f"procedure: there is no procedure {name!r}{near(str(name), procedures.names())}")
    return procedures.load(name)


def judged(document: Any, procedure: dict[str, Any], file: str) -> dict[str, Any]:
    try:
        return judge_case(procedure, normalise(document, procedure))
    except CaseError as error:
        raise BadInput(f"{file}: {error}") from None


def verdict_of(judgement: dict[str, Any], procedure: dict[str, Any], steps: tuple[str, ...]) -> str:
    """The record's verdict, or the worst of the named steps'."""
    for step in steps:
        if step not in judgement["steps"]:
            names = [one["id"] for one in procedure["steps"]]
            raise BadInput(f"--step: there is no step {step!r}{near(step, names)}")
    if not steps:
        return judgement["record"]["verdict"]
    return worst(
        verdict for step in steps if (verdict := judgement["steps"][step]["verdict"]) != "not_applicable"
    )


def answer(judgement: dict[str, Any], procedure: dict[str, Any], verdict: str) -> dict[str, Any]:
    """The judgement (docs/api.md), the verdict asked for, and the sources of everything."""
    named = {"id": procedure["id"], "version": procedure["version"], "hash": procedure_hash(procedure)}
    used = {one["formula"] for one in judgement["quantities"].values() if one["formula"]}
    formulas = {name: [str(source) for source in FORMULAS[name].sources] for name in sorted(used)}
    sources = {"rules": rule_sources(procedure), "formulas": formulas}
    return {"procedure": named, "verdict": verdict, **judgement, "sources": sources}


def rule_sources(procedure: dict[str, Any]) -> dict[str, str]:
    return {
        f"{step['id']}.{one['id']}": one["source"] for step in procedure["steps"] for one in step["rules"]
    }
