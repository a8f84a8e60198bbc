"""The behaviour that all commands share: loaded when used, one clear line for what is wrong."""

import difflib
import json
import sys
from collections.abc import Iterable, Sequence
from importlib import import_module
from typing import Any, NoReturn

import click

NOT_ACCEPTABLE = 1
BAD_INPUT = 2


class BadInput(click.ClickException):
    """What was given cannot be used; the sentence names the field and says what to write instead."""

    exit_code = BAD_INPUT


class CommandGroup(click.Group):
    """A group whose commands are imported when they are asked for, so that each starts quickly.

    `places` maps a command's name to `module:attribute`.
    """

    def __init__(self, *args: Any, places: dict[str, str] | None = None, **extra: Any) -> None:
        super().__init__(*args, **extra)
        self.places = places or {}

    def list_commands(self, context: click.Context) -> list[str]:
        return [*self.places, *super().list_commands(context)]

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        if name not in self.places:
            return super().get_command(context, name)
        module, attribute = self.places[name].split(":")
        return getattr(import_module(module), attribute)

    def resolve_command(self, context: click.Context, args: list[str]) -> tuple:
        name = args[0]
        if self.get_command(context, name) is None and not name.startswith("-"):
            raise BadInput(f"There is no command {name!r}{near(name, self.list_commands(context))}")
        return super().resolve_command(context, args)

    def main(self, *args: Any, **extra: Any) -> NoReturn:
        """Run, and end the process: a refusal is one line on standard error, never a traceback."""
        extra["standalone_mode"] = False
        try:
            status = super().main(*args, **extra)
        except click.exceptions.NoArgsIsHelpError as error:
            click.echo(error.format_message(), err=True)
            sys.exit(BAD_INPUT)
        except click.ClickException as error:
            click.echo(f"firstwater: {one_line(error.format_message())}", err=True)
            sys.exit(error.exit_code)
        except (click.Abort, KeyboardInterrupt):
            click.echo("firstwater: stopped", err=True)
            sys.exit(130)
        sys.exit(status if isinstance(status, int) else 0)


def one_line(text: str) -> str:
    return " ".join(text.split())


def near(word: str, known: Iterable[str]) -> str:
    """The end of a sentence about an unknown name: what may have been meant, or what there is."""
    known = list(known)
    close = difflib.get_close_matches(word, known, n=3, cutoff=0.5)
    if close:
        return f". Did you mean {' or '.join(close)}?"
    if len(known) <= 12:
        return f". There is: {', '.join(known)}." if known else "."
    return "."


def print_json(content: object) -> None:
    click.echo(json.dumps(content, ensure_ascii=False, indent=2, allow_nan=False))


def print_table(rows: Sequence[tuple[str, ...]], heading: tuple[str, ...] | None = None) -> None:
    """Columns as wide as their widest cell; the last one is left as it is."""
    table = [heading, *rows] if heading else rows
    widths = [max(len(row[column]) for row in table) for column in range(len(table[0]) - 1)] if table else []
    for row in table:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=False)]
        click.echo("  ".join([*cells, row[-1]]).rstrip())


json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON for programs.")
