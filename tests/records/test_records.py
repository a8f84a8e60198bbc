"""Whole invented visits, judged: what was computed by hand, and what was read and agreed to.

`python -m tests.records.test_records --update` writes the judged part of the files anew; read the difference.
"""

import json
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from checks.engine import judge
from checks.judge import normalise
from checks.procedure import load
from webapp.store.baselines import START, gone_on

FILES = sorted(Path(__file__).parent.glob("*.json"))
NUMBERS = ("reading", "expanded", "lower", "upper", "accept_lower", "accept_upper", "probability")


def read(path: Path) -> dict[str, Any]:
    return json.loads(path.read_text(encoding="utf-8"))


@cache
def judged(path: Path) -> dict[str, Any]:
    document = read(path)
    procedure = load(document["procedure"])
    return judge(procedure, normalise(document["case"], procedure))


def reviewed(judgement: dict[str, Any]) -> dict[str, Any]:
    """The part of a judgement that a person can read through: verdicts, limits to six digits, reasons."""
    rules = {
        name: {"verdict": rule["verdict"]}
        | {number: six(rule[number]) for number in NUMBERS if isinstance(rule[number], int | float)}
        | ({"missing": rule["missing"]} if rule["missing"] else {})
        | ({"reasons": [reason["code"] for reason in rule["reasons"]]} if rule["reasons"] else {})
        for name, rule in judgement["rules"].items()
        if rule["verdict"] != "not_applicable" and judgement["steps"][name.split(".")[0]]["applies"]
    }
    wanted = ("verdict", "state", "held_by", "unmet", "missing", "defects")
    steps = {
        name: {part: step[part] for part in wanted if step[part]}
        if step["applies"]
        else {"verdict": step["verdict"]}
        for name, step in judgement["steps"].items()
    }
    return {"record": judgement["record"], "steps": steps, "rules": rules}


def six(number: float) -> float:
    return float(f"{number:.6g}")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_was_computed_by_hand(path):
    judgement = judged(path)
    for place, expected in read(path)["by_hand"].items():
        part, name, number = place.split("/")
        wanted = pytest.approx(expected["value"], abs=expected["within"])
        assert judgement[part][name][number] == wanted, place


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_was_read_and_agreed_to(path):
    found = json.loads(json.dumps(reviewed(judged(path))))
    hint = "Read the difference; then: python -m tests.records.test_records --update"
    assert found == read(path)["judged"], hint


def test_there_are_records_that_pass_some_with_conditions_and_one_that_fails():
    verdicts = {path.stem: read(path)["judged"]["record"]["verdict"] for path in FILES}
    assert verdicts == {
        "all-well": "pass",
        "marginal": "conditional_pass",
        "requalification": "pass",
        "service": "conditional_pass",
        "unsafe": "fail",
    }


def test_a_record_where_everything_is_fitted_does_every_step():
    steps = read(Path(__file__).with_name("all-well.json"))["judged"]["steps"].values()
    assert {(step["verdict"], step["state"]) for step in steps} == {("pass", "done")}


def test_the_acceptance_stays_the_reference_but_for_what_a_later_visit_says_is_new():
    """Cartridges were changed at the service and the requalification, the ultrafilter at the latter alone."""
    state, anew = START, {}
    for visit in ("all-well", "service", "requalification"):
        path = FILES[0].with_name(f"{visit}.json")
        content = {"judgement": judged(path), "signed_at": "2026-11-25T12:00:00.000Z"}
        state = gone_on(state, visit, content, load(read(path)["procedure"]))
        anew[visit] = {name: cell["record"] for name, cell in state["values"].items() if "record" in cell}
    assert (state["record"], state["last"]["record"]) == ("all-well", "requalification")
    assert state["values"]["membrane_flow"]["value"] == pytest.approx(2.009, abs=5e-4), "not the 12 % less"
    assert anew == {
        "all-well": {},
        "service": {"pretreatment_pressure_drop": "service"},
        "requalification": {
            "pretreatment_pressure_drop": "requalification",
            "ultrafilter_pressure_drop": "requalification",
        },
    }


def update() -> None:
    """Write what is judged now into the files."""
    for path in FILES:
        document = read(path) | {"judged": reviewed(judged(path))}
        path.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    if sys.argv[1:] != ["--update"]:
        sys.exit("usage: python -m tests.records.test_records --update")
    update()
