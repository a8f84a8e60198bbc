"""Results that a record still waits for, with the dates that its reader needs to ask the laboratory."""

from dataclasses import dataclass
from typing import Any

from checks.fold import fold
from webapp import current
from webapp.certificate import figures
from webapp.certificate.wording import Wording
from webapp.language import _
from webapp.store import Record


@dataclass(frozen=True)
class PendingResult:
    """``what`` is the requirement, ``since`` the dates that were entered in its step, in words."""

    what: str
    since: tuple[str, ...]

    @property
    def line(self) -> str:
        return f"{self.what} ({', '.join(self.since) or _('no date entered')})"


def pending_results(record: Record) -> list[PendingResult]:
    """The requirements of a record that count and have no result yet, in the order of the procedure."""
    content = record.content()
    kept = current.store().procedures.get(content["procedure"]["hash"])
    wording = Wording(kept.content())
    procedure = wording.procedure
    entries = fold(procedure, content["events"])["entries"]
    judged = content["judgement"]["rules"]
    return [
        PendingResult(rule["label"], tuple(dates(step, entries, wording)))
        for step in procedure["steps"]
        for rule in step["rules"]
        if judged.get(f"{step['id']}.{rule['id']}", {}).get("verdict") == "pending"
        if rule["weight"] != "information"
    ]


def dates(step: dict[str, Any], entries: dict[str, Any], wording: Wording) -> list[str]:
    """The dates of a step: for a laboratory's result, when the sample was taken."""
    named = {
        entry["label"]: f"{step['id']}.{entry['id']}" for entry in step["entries"] if entry["kind"] == "date"
    }
    found = {label: wording.content(name, entries.get(name)) for label, name in named.items()}
    return [f"{label}: {day}" for label, day in found.items() if day != figures.NO_VALUE]
