"""python -m webapp.generate [--check]: write the pages that follow from the settings and the commands.

Without an option the files are written. With --check nothing is written: a file that differs from what would
be written is shown as a difference, and the exit status is 1.
"""

import difflib
import sys
from pathlib import Path

from webapp.commands import reference
from webapp.settings import TABLE, Setting

ROOT = Path(__file__).parent.parent

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
    return {"docs/generated/settings.md": settings_page(), "docs/commands.md": reference()}


def difference(path: str, text: str) -> str:
    """A unified difference between the file and what it should contain; empty when equal."""
    file = ROOT / path
    present = file.read_text(encoding="utf-8") if file.exists() else ""
    lines = difflib.unified_diff(
        present.splitlines(keepends=True), text.splitlines(keepends=True), path, f"{path} (as generated)"
    )
    return "".join(lines)


def main(arguments: list[str]) -> int:
    """The command; gives the exit status."""
    if arguments not in ([], ["--check"]):
        sys.stderr.write("usage: python -m webapp.generate [--check]\n")
        return 2
    if arguments:
        changed = [found for path, text in texts().items() if (found := difference(path, text))]
        sys.stdout.write("".join(changed))
        if changed:
            sys.stdout.write("To update these files: python -m webapp.generate\n")
        return 1 if changed else 0
    for path, text in texts().items():
        (ROOT / path).write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
