"""The command `firstwater`.

Exit status: 0 done or acceptable; 1 judged not acceptable, or not valid; 2 bad input, named in one line.
"""

import click

from webapp.commands.group import CommandGroup

PLACES = {
    "serve": "webapp.commands.serve:serve",
    "formula": "webapp.commands.formula:formula",
    "judge": "webapp.commands.judge:judge",
    "verify": "webapp.commands.verify:verify",
    "export": "webapp.commands.export:export",
    "user": "webapp.commands.people:user",
    "device": "webapp.commands.people:device",
    "backup": "webapp.commands.keep:backup",
    "restore": "webapp.commands.keep:restore",
    "check": "webapp.commands.keep:check",
    "rebuild": "webapp.commands.keep:rebuild",
}


@click.group(cls=CommandGroup, places=PLACES, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="firstwater", prog_name="firstwater")
def main() -> None:
    """The commissioning record of a purified-water unit.

    Exit status: 0 done or acceptable; 1 judged not acceptable, or not valid; 2 bad input, named in one line.
    """


def reference() -> str:
    """`docs/commands.md`: the help of every command, as Markdown."""
    from webapp.commands.help_page import help_page

    return help_page(main)
