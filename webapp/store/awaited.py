"""The results that a record still waits for, with the dates that its reader needs to ask the laboratory."""

from collections.abc import Mapping
from typing import Any

from checks.fold import fold


def awaited_results(content: Mapping[str, Any], procedure: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The requirements that count and have no result yet, in the order of the procedure.

    Each is ``{"procedure": hash, "rule": name, "dates": {name: day}}``: the dates that were entered in its
    step, among them when the sample was taken. What they are called is for the page to say.
    """
    judged = content["judgement"]["rules"]
    awaited = [
        (step, f"{step['id']}.{rule['id']}")
        for step in procedure["steps"]
        for rule in step["rules"]
        if judged.get(f"{step['id']}.{rule['id']}", {}).get("verdict") == "pending"
        if rule["weight"] != "information"
    ]
    entries = fold(procedure, content["events"])["entries"] if awaited else {}
    named = content["procedure"]["hash"]
    return [{"procedure": named, "rule": rule, "dates": dates(step, entries)} for step, rule in awaited]


def dates(step: Mapping[str, Any], entries: Mapping[str, Any]) -> dict[str, str]:
    names = [f"{step['id']}.{entry['id']}" for entry in step["entries"] if entry["kind"] == "date"]
    found = {name: entries.get(name, {}).get("value") for name in names}
    return {name: day for name, day in found.items() if day is not None}
