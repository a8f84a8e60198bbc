"""The defects of a record for a reader: how bad, what, whose, until when, and what was done about it."""

from typing import Any

from checks.messages import SEVERITIES
from webapp.certificate import figures
from webapp.certificate.wording import Wording
from webapp.language import say

WORST_FIRST = list(SEVERITIES)

Case = dict[str, Any]


def rows(case: Case, wording: Wording) -> list[dict[str, str]]:
    """One row for each defect, open ones first, the worst of them on top."""
    known = case.get("defects", {}).items()
    found = [(name, one) for name, cells in known for cell in cells for one in heads(cell)]
    found.sort(key=lambda pair: (bool(pair[1].get("closed")), rank(pair[1])))
    return [row(wording.step_title(name), one) for name, one in found]


def heads(cell: dict[str, Any]) -> list[dict[str, Any]]:
    """The defect, or each of the ways in which two people described it."""
    return list(cell.get("conflict", [cell]))


def rank(defect: dict[str, Any]) -> int:
    severity = defect.get("severity")
    return WORST_FIRST.index(severity) if severity in WORST_FIRST else -1


def severity_word(defect: dict[str, Any]) -> str:
    severity = str(defect.get("severity"))
    return say(SEVERITIES[severity]["word"]) if severity in SEVERITIES else severity


def row(step: str, defect: dict[str, Any]) -> dict[str, str]:
    return {
        "step": step,
        "severity": severity_word(defect),
        "text": str(defect.get("text", "")),
        "owner": str(defect.get("owner") or figures.NO_VALUE),
        "due": figures.day(defect.get("due")) or figures.NO_VALUE,
        "closed": str(defect.get("closed") or ""),
        "tone": "good" if defect.get("closed") else "bad" if defect.get("severity") != "minor" else "guarded",
    }


def photos(case: Case, step: str) -> list[dict[str, str]]:
    """The photos of a step's defects: hash and what they show."""
    return [
        {"sha256": one["photo"], "label": str(one.get("text", ""))}
        for cell in case.get("defects", {}).get(step, [])
        for one in heads(cell)
        if one.get("photo")
    ]
