"""Every source and what rests on it, for reviewers: `docs/generated/sources.md` from the declarations."""

from __future__ import annotations

from collections import Counter, defaultdict
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
    said = said_by(procedures)
    parts.insert(1, summary(Counter(source.seen for source in uses), said))
    parts.append("\n".join(["## Procedures: choices and rules\n", *rule_rows(said), ""]))
    return "\n".join(parts)


def summary(known: Mapping[str, int], said: Mapping[str, str]) -> str:
    """How much of it is from memory, and how much is no more than practice."""
    practice, memory = (
        sum(word in source.casefold() for source in said.values())
        for word in ("common practice", "from memory")
    )
    return "\n".join(
        [
            f"Formulas, tables and grades rest on {sum(known.values())} places in works, "
            f"{known[SEEN]} seen, {known[FROM_MEMORY]} from memory, {known[COMMON_PRACTICE]} practice.",
            f"Of {len(said)} choices and rules of the procedures, {memory} name something from memory "
            f"and {practice} rest on common practice, wholly or in part.",
            "",
        ]
    )


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


def said_by(procedures: Iterable[Mapping[str, Any]]) -> dict[str, str]:
    """What choices and rules of all procedures say about themselves; each once, as steps are shared."""
    said: dict[str, str] = {}
    for procedure in procedures:
        said |= {
            f"{owner}.{entry['id']}": entry["source"]
            for owner in ("plate", "site")
            for entry in procedure[owner]
        }
        said |= {
            f"{step['id']}.{rule['id']}": rule["source"]
            for step in procedure["steps"]
            for rule in step["rules"]
        }
    return {name: source for name, source in said.items() if source}


def rule_rows(said: Mapping[str, str]) -> Iterator[str]:
    yield "| choice or rule | source |"
    yield "|---|---|"
    for name, source in said.items():
        yield f"| `{name}` | {source} |"
