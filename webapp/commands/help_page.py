"""The help of every command as one Markdown page."""

from collections.abc import Iterator

import click

INTRODUCTION = """\
# The command `firstwater`

This page is made from the commands themselves: `python -m webapp.generate` writes it.

Every command prints for people; those with `--json` print for programs as well.
What is wrong with the input is one line on standard error that names the field.

| exit status | meaning |
|---|---|
| 0 | done, or judged acceptable |
| 1 | judged not acceptable, or not valid |
| 2 | bad input |

Commands that work on the server's data read the same [settings](generated/settings.md) as the server.
"""
WIDTH = 100


def help_page(group: click.Group) -> str:
    passages = [f"## `{path}`\n\n```text\n{text}\n```\n" for path, text in help_texts(group)]
    return "\n".join([INTRODUCTION, *passages])


def help_texts(group: click.Group, path: str = "firstwater") -> Iterator[tuple[str, str]]:
    """(`firstwater user add`, help text) of the group and of everything below it."""
    context = click.Context(group, info_name=path, terminal_width=WIDTH, max_content_width=WIDTH)
    yield path, group.get_help(context)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if isinstance(command, click.Group):
            yield from help_texts(command, f"{path} {name}")
        elif command is not None:
            below = click.Context(
                command, info_name=f"{path} {name}", terminal_width=WIDTH, max_content_width=WIDTH
            )
            yield f"{path} {name}", command.get_help(below)
