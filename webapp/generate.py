"""python -m webapp.generate [--check]: write what follows from the settings, the commands and the shapes.

Without an option the files are written. With --check nothing is written: a file that differs from what would
be written is shown as a difference, and the exit status is 1.
"""

import sys

from checks.generate import write_or_check
from webapp import description
from webapp.commands import reference
from webapp.settings import TABLE, Setting

SETTINGS = """\
# Settings

This page is made from the table in `webapp/settings.py`: `python -m webapp.generate` writes it.

Settings are environment variables, read once when the server or a command starts.
A variable that begins with `FIRSTWATER_` and is not listed here stops the start.

| variable | default | meaning |
|---|---|---|
"""


def settings_page() -> str:
    return SETTINGS + "".join(f"| `{one.variable}` | {default_of(one)} | {one.help} |\n" for one in TABLE)


def default_of(setting: Setting) -> str:
    return f"`{setting.default}`" if setting.default else "empty"


def texts() -> dict[str, str]:
    """What every generated file has to contain, by its path from the project's root."""
    return {
        "docs/generated/settings.md": settings_page(),
        "docs/commands.md": reference(),
        "docs/generated/openapi.json": description.text(),
    }


def main(arguments: list[str]) -> int:
    """The command; gives the exit status."""
    return write_or_check("webapp.generate", texts, arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
