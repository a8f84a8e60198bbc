"""firstwater formula: list the catalogue, evaluate one formula, show its working and sources."""

from dataclasses import asdict
from typing import Any

import click

from checks.catalogue import FORMULAS
from checks.errors import CheckError, InputError, NotInTable, OutsideRange, UnknownFormula
from checks.formula import ANY, Formula
from checks.working import working as show_working
from webapp.commands.formula_inputs import offered_name, read_inputs
from webapp.commands.formula_text import help_text, print_result
from webapp.commands.group import (
    NOT_ACCEPTABLE,
    BadInput,
    CommandGroup,
    json_option,
    print_json,
    print_table,
)


class FormulaGroup(CommandGroup):
    """Every formula of the catalogue is a command of its own; the help lists only the others."""

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        return super().get_command(context, name) or (
            command_for(FORMULAS[name]) if name in FORMULAS else None
        )

    def resolve_command(self, context: click.Context, args: list[str]) -> tuple:
        if self.get_command(context, args[0]) is None and not args[0].startswith("-"):
            raise BadInput(unknown_formula(args[0]))
        return super().resolve_command(context, args)


def unknown_formula(name: str) -> str:
    """Near names, or where all of them are listed."""
    why = str(UnknownFormula(name, FORMULAS))
    return why if "Did you mean" in why else f"{why} To list them: firstwater formula list."


@click.group(
    cls=FormulaGroup,
    short_help="List, evaluate or explain a formula.",
    subcommand_metavar="list | NAME [INPUT=VALUE]...",
)
def formula() -> None:
    """List, evaluate or explain a formula of the catalogue.

    \b
    firstwater formula list
    firstwater formula static_head --help
    firstwater formula static_head height=12
    firstwater formula static_head height="40 ft" temperature=10 --working
    firstwater formula parallel_resistance resistances="1.2, 0.8 ohm" --json

    A bare number counts in the unit that the formula's help names; with a unit, any compatible one is taken.
    A formula without a result says why, and the exit status is 1.
    """


@formula.command("list")
@click.argument("words", nargs=-1)
@json_option
def list_formulas(words: tuple[str, ...], as_json: bool) -> None:
    """List the formulas whose name or meaning contains all WORDS."""
    found = [one for one in FORMULAS.values() if all(word.lower() in searched(one) for word in words)]
    if as_json:
        print_json([described(one) for one in found])
    else:
        print_table([(one.name, shown_unit(one), one.title) for one in found])


def searched(one: Formula) -> str:
    return f"{one.name} {one.text}".lower()


def shown_unit(one: Formula) -> str:
    if one.words:
        return "[word]"
    return {"1": "[-]", ANY: "[as given]"}.get(one.unit, f"[{one.unit}]")


def described(one: Formula) -> dict[str, Any]:
    """The declaration of a formula, for programs."""
    inputs = {
        name: {member: value for member, value in asdict(given).items() if value not in (None, False)}
        for name, given in one.inputs.items()
    }
    return {
        "name": one.name,
        "title": one.title,
        "unit": one.unit,
        "words": list(one.words) if one.words else None,
        "inputs": inputs,
        "sources": [asdict(source) for source in one.sources],
    }


def command_for(one: Formula) -> click.Command:
    @click.command(one.name, help=help_text(one), short_help=one.title)
    @click.argument("given", nargs=-1, metavar="[INPUT=VALUE]...")
    @json_option
    @click.option("--working", is_flag=True, help="Show the equation and the numbers put in.")
    def evaluate(given: tuple[str, ...], as_json: bool, working: bool) -> int:
        return answer(one, given, as_json, working)

    return evaluate


def answer(one: Formula, given: tuple[str, ...], as_json: bool, working: bool) -> int:
    """Evaluate and print; the exit status."""
    try:
        values, shared = one.plain(read_inputs(one, given))
    except CheckError as error:
        raise BadInput(str(error)) from None
    outcome = one.evaluate(values)
    result = {
        "name": one.name,
        "value": outcome.value,
        "unit": None if one.words else (offered_name(shared) if one.unit == ANY else one.unit),
        "inputs": used_inputs(one, values),
        "valid": outcome.value is not None,
        "warnings": [] if outcome.reason is None else [warning(one, outcome.reason)],
        "sources": [asdict(source) for source in one.sources],
    }
    if working and result["valid"]:
        result["working"] = lines_of_working(one, values, shared)
    if as_json:
        print_json(result)
    else:
        print_result(one, result, set(values), offered_name(shared))
    return 0 if result["valid"] else NOT_ACCEPTABLE


def warning(one: Formula, reason: dict[str, Any]) -> str:
    """Why there is no result; an input that is missing or no number at all is bad input instead."""
    why = one.error(reason)
    if isinstance(why, InputError) and not isinstance(why, OutsideRange | NotInTable):
        raise BadInput(str(why))
    return str(why)


def lines_of_working(one: Formula, values: dict[str, Any], shared: str | None) -> list[dict[str, str]]:
    """The named steps and the formula, each with symbols and with numbers."""
    return [
        {"meaning": line.meaning, "formula": line.formula_text, "numbers": line.numbers_text}
        for line in show_working(one, values, shared)
    ]


def used_inputs(one: Formula, values: dict[str, Any]) -> dict[str, Any]:
    """What was computed with: the values in the declared units, defaults filled in."""
    defaults = {name: getattr(given, "default", None) for name, given in one.inputs.items()}
    used = {name: values.get(name, default) for name, default in defaults.items()}
    return {name: json_number(value) for name, value in used.items() if value is not None}


def json_number(value: Any) -> Any:
    if isinstance(value, list):
        return [json_number(one) for one in value]
    return "inf" if value == float("inf") else value
