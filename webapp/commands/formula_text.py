"""What `firstwater formula` says to people: help, results, sources."""

from typing import Any

import click

from checks.entries import date_of
from checks.formula import ANY, Choice, Formula
from checks.inputs import Input, Series
from webapp.commands.group import print_table


def help_text(formula: Formula) -> str:
    """The docstring, then what the declaration says; `\\b` keeps click from refilling a passage."""
    rows = [input_row(name, given) for name, given in formula.inputs.items()]
    widths = [max(len(row[column]) for row in rows) for column in (0, 1)]
    inputs = "\n".join(f"  {name:<{widths[0]}}  {unit:<{widths[1]}}  {rest}" for name, unit, rest in rows)
    sources = "\n".join(f"  {source}" for source in formula.sources)
    passages = [
        formula.text,
        f"\b\nInputs:\n{inputs}",
        f"\b\nResult: {result_words(formula)}",
        f"\b\nSources:\n{sources}",
    ]
    return "\n\n".join(passages)


def input_row(name: str, given: Input | Choice) -> tuple[str, str, str]:
    """(name, unit, meaning with range, default and choices)."""
    if isinstance(given, Choice):
        words = ", ".join(
            f"{word} ({meaning})" if meaning else word for word, meaning in given.options.items()
        )
        return name, "[word]", f"{given.meaning}: {words}{default_text(given)}"
    unit = {"1": "[-]", ANY: "[any]"}.get(given.unit, f"[{given.unit}]")
    several = f"; a list of at least {given.at_least}" if isinstance(given, Series) else ""
    return name, unit, f"{given.meaning}{range_text(given)}{several}{default_text(given)}"


def range_text(given: Input) -> str:
    if given.among is not None:
        return "; one of " + ", ".join(f"{value:g}" for value in given.among)
    low = f"above {given.above:g}" if given.above is not None else ""
    low = f"from {given.minimum:g}" if given.minimum is not None else low
    high = f"below {given.below:g}" if given.below is not None else ""
    high = f"up to {given.maximum:g}" if given.maximum is not None else high
    both = " ".join(part for part in (low, high) if part)
    return f"; {both}" if both else ""


def default_text(given: Input | Choice) -> str:
    if given.default is not None:
        return f" (default {given.default if isinstance(given, Choice) else f'{given.default:g}'})"
    return " (may be left out)" if getattr(given, "optional", False) else ""


def result_words(formula: Formula) -> str:
    if formula.words:
        return "one of " + ", ".join(formula.words)
    return {"1": "a number without unit", ANY: "in the unit of the inputs"}.get(
        formula.unit, f"in {formula.unit}"
    )


def print_result(formula: Formula, result: dict[str, Any], given: set[str], shared: str | None) -> None:
    """The result, what it was computed from, and where the formula comes from."""
    click.echo(f"{formula.name} = {with_unit(result['value'], result['unit'])}")
    for warning in result["warnings"]:
        click.echo(f"No result: {warning}")
    rows = []
    for name, value in result["inputs"].items():
        unit = getattr(formula.inputs[name], "unit", None)
        shown = with_unit(value, shared if unit == ANY else unit)
        rows.append((f"  {name}", shown if name in given else f"{shown} (default)"))
    print_table(rows)
    for line in result.get("working", []):
        click.echo(f"Working: {line['meaning']}")
        for text in (line["formula"], line["numbers"]):
            if "=" in text:  # a formula used inside this one has only its symbol and its value
                click.echo(f"  {text}")
    for source in formula.sources:
        click.echo(f"Source: {source}")


def with_unit(value: Any, unit: str | None) -> str:
    if value is None:
        return "no result"
    if unit == "date":
        return date_of(value)
    if isinstance(value, list):
        return f"{', '.join(with_unit(one, None) for one in value)} {unit or ''}".strip()
    number = f"{value:.6g}" if isinstance(value, float) else str(value)
    return number if unit in (None, "1") else f"{number} {unit}"
