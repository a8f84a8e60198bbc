"""In which order the steps of each procedure stand, and why: `docs/generated/order.md`, for reviewers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

HEAD = """\
<!-- Generated from checks/procedure/ by checks.generate: change that, then run it again. -->

# The order of the steps, and why

What fixes this order, and what a hold is: [the procedure](../procedure.md#what-fixes-the-order)
"""

Procedure = Mapping[str, Any]


def order_page(procedures: Iterable[Procedure]) -> str:
    """The text of the page: a table for each procedure, in the order of its stages."""
    return "\n".join([HEAD, *map(chapter, procedures)])


def chapter(procedure: Procedure) -> str:
    steps = {step["id"]: step for step in procedure["steps"]}
    lines = [
        f"## {procedure['title']}, version {procedure['version']}\n",
        "| no | stage | step | comes after | hold | because |",
        "|---|---|---|---|---|---|",
    ]
    number = 0
    for stage in procedure["stages"]:
        for name in stage["steps"]:
            number += 1
            lines += rows(number, stage["title"], steps[name], steps)
    return "\n".join([*lines, ""])


def rows(number: int, stage: str, step: Mapping[str, Any], steps: Mapping[str, Any]) -> Iterator[str]:
    """One row for each prerequisite; number, stage and step stand in the first alone."""
    needs = step["needs"] or [None]
    for index, need in enumerate(needs):
        named = f"{number} | {stage} | {step['title']}" if index == 0 else " |  | "
        after = steps[need["step"]]["title"] if need else ""
        hold = "yes" if need and need["hold"] else ""
        yield f"| {named} | {after} | {hold} | {need['because'] if need else ''} |"
