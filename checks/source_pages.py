"""Every source and what rests on it, for reviewers: `docs/generated/sources.md` from the declarations."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from checks.formula import Formula
from checks.javascript import tables_used
from checks.lookup import grade_limits
from checks.source import COMMON_PRACTICE, FROM_MEMORY, SEEN, Source

HEAD = """\
<!-- Generated from checks/ by checks.generate: change that, then run `python -m checks.generate`. -->

# Every source, and what rests on it

[How to read this page](../sources.md)
"""
CHAPTERS = {
    FROM_MEMORY: "From memory: to be compared with the work",
    COMMON_PRACTICE: "Common practice, no source",
    SEEN: "Seen",
}

Uses = Mapping[Source, list[str]]


def source_page(formulas: Iterable[Formula], procedures: Iterable[Mapping[str, Any]]) -> str:
    """The text of the page: formulas, tables and grades by how their source is known, then the procedures."""
    uses = uses_of(list(formulas))
    parts = [HEAD]
    for known, title in CHAPTERS.items():
        rows = [
            row(source, names) for source, names in sorted(uses.items(), key=by_work) if source.seen == known
        ]
        if rows:
            parts.append(
                "\n".join(
                    [f"## {title}\n", "| work | edition | place | used by |", "|---|---|---|---|", *rows, ""]
                )
            )
    for procedure in procedures:
        parts.append("\n".join([f"## Procedure: {procedure['title']}\n", *procedure_rows(procedure), ""]))
    return "\n".join(parts)


def uses_of(formulas: list[Formula]) -> Uses:
    uses: dict[Source, list[str]] = defaultdict(list)
    for formula in formulas:
        for source in formula.sources:
            uses[source].append(formula.name)
    for table in tables_used(formulas):
        uses[table.source].append(f"table {table.name}")
    for limit in grade_limits():
        uses[limit.source].append(f"{limit.grade}, {limit.parameter.replace('_', ' ')}")
    return uses


def by_work(use: tuple[Source, list[str]]) -> tuple[str, str, str]:
    source, _ = use
    return source.work.casefold(), source.edition, source.place


def row(source: Source, names: list[str]) -> str:
    return f"| {source.work} | {source.edition} | {source.place} | {', '.join(dict.fromkeys(names))} |"


def procedure_rows(procedure: Mapping[str, Any]) -> Iterator[str]:
    """What the site's choices and the rules say about themselves."""
    yield "| choice or rule | source |"
    yield "|---|---|"
    for owner in ("plate", "site"):
        for entry in procedure[owner]:
            if entry["source"]:
                yield f"| `{owner}.{entry['id']}` | {entry['source']} |"
    for step in procedure["steps"]:
        for rule in step["rules"]:
            if rule["source"]:
                yield f"| `{step['id']}.{rule['id']}` | {rule['source']} |"
