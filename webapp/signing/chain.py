"""Each record of a unit cites the one accepted before it."""

from collections.abc import Iterable, Mapping
from typing import Any

from webapp.signing.findings import Finding


def link(content: Mapping[str, Any], last: str | None, known: Iterable[str]) -> list[Finding]:
    """Whether a record continues the chain of its unit.

    ``last`` is the identity of the unit's last accepted record, ``known`` those of all its accepted records.
    """
    previous = content["previous"]
    if previous == last:
        return []
    if previous is None or previous in set(known):
        return [Finding("chain_fork", "Another record of this unit was accepted meanwhile.", "previous")]
    return [Finding("chain_broken", "The record before this one is not known.", "previous")]


def walk(records: Mapping[str, Mapping[str, Any]]) -> tuple[list[str], list[Finding]]:
    """The records of one unit in the order of their chain, and what is wrong with it.

    ``records`` maps identities to contents. Records that were returned are no part of the chain.
    """
    findings: list[Finding] = []
    after: dict[str | None, str] = {}
    for sha256, content in records.items():
        previous = content["previous"]
        if previous in after:
            findings.append(Finding("chain_fork", f"Two records follow {previous or 'nothing'}.", sha256))
        elif previous is not None and previous not in records:
            findings.append(Finding("chain_broken", f"The record {previous} before it is missing.", sha256))
        after.setdefault(previous, sha256)
    order, at = [], after.get(None)
    while at is not None:
        order.append(at)
        at = after.get(at)
    return order, findings
