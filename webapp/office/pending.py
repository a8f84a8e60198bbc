"""Results that a record still waits for, with the dates that its reader needs to ask the laboratory."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from flask import g

from webapp import current
from webapp.certificate import figures
from webapp.certificate.wording import Wording
from webapp.language import _


@dataclass(frozen=True)
class PendingResult:
    """``what`` is the requirement, ``since`` the dates that were entered in its step, in words."""

    what: str
    since: tuple[str, ...]

    @property
    def line(self) -> str:
        return f"{self.what} ({', '.join(self.since) or _('no date entered')})"


def pending_results(awaited: Iterable[dict[str, Any]]) -> list[PendingResult]:
    """The results that a line of the store awaits (:mod:`webapp.store.awaited`), in words."""
    found = []
    for one in awaited:
        words = wording(one["procedure"])
        dates = [f"{words.label(name)}: {figures.day(day)}" for name, day in one["dates"].items()]
        found.append(PendingResult(words.rules.get(one["rule"], one["rule"]), tuple(dates)))
    return found


def wording(sha256: str) -> Wording:
    """The words of a procedure, put together once in a request."""
    known: dict[str, Wording] = g.setdefault("wordings", {})
    if sha256 not in known:
        known[sha256] = Wording(dict(current.store().procedures.shared(sha256) or {}))
    return known[sha256]


def lines(awaited: Iterable[dict[str, Any]]) -> list[str]:
    return [one.line for one in pending_results(awaited)]
