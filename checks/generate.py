"""python -m checks.generate [--check]: write what the formulas, tables and sentences are for others.

Without an option the files are written. With --check nothing is written: a file that differs
from what would be written is shown as a difference, and the exit status is 1.
"""

from __future__ import annotations

import difflib
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from checks import identity, messages, procedure, translation
from checks.catalogue import FORMULAS
from checks.javascript import formulas_module, tables_module
from checks.order_page import order_page
from checks.pages import formula_pages
from checks.source_pages import source_page
from checks.units import units_module
from checks.working import templates_json

ROOT = Path(__file__).parent.parent
HEAD = (
    "// @ts-nocheck\n"
    "// Generated from {source} by checks.generate: change that, then run `python -m checks.generate`."
)


def texts() -> dict[str, str]:
    """What every generated file has to contain, by its path from the project's root."""
    listed = list(FORMULAS.values())
    procedures = [procedure.load(name) for name in procedure.names()]
    hashed = identity.formulas_hash(listed)
    return {
        "checks/formulas_hash.py": identity.module(hashed),
        "static/generated/formulas.js": formulas_module(
            listed, HEAD.format(source="checks/formulas"), hashed
        ),
        "static/generated/tables.js": tables_module(listed, HEAD.format(source="checks/tables")),
        "static/generated/units.js": units_module(HEAD.format(source="checks/units.py")),
        "static/generated/messages.js": messages.javascript(),
        "static/generated/working.json": templates_json(listed),
        **{path: text for language in translation.languages() for path, text in translations(language)},
        "docs/generated/formulas.md": formula_pages(listed),
        "docs/generated/sources.md": source_page(listed, procedures),
        "docs/generated/order.md": order_page(procedures),
    }


def translations(language: str) -> Iterator[tuple[str, str]]:
    """What a phone keeps instead of the English words of formulas and messages."""
    say = translation.speaker(language)
    yield f"static/generated/messages.{language}.js", messages.javascript_tables(say)
    yield f"static/generated/working.{language}.json", templates_json(FORMULAS.values(), say)


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
    return write_or_check("checks.generate", texts, arguments)


def write_or_check(module: str, texts: Callable[[], dict[str, str]], arguments: list[str]) -> int:
    """Write the files, or compare them with what they should be: the command of every generator.

    `module` is what `python -m` runs, `texts` gives each file's content by its path from the root. Gives the
    exit status: 0, 1 when a file differs, 2 for an unknown option.
    """
    if arguments not in ([], ["--check"]):
        sys.stderr.write(f"usage: python -m {module} [--check]\n")
        return 2
    if arguments:
        changed = [found for path, text in texts().items() if (found := difference(path, text))]
        sys.stdout.write("".join(changed))
        if changed:
            sys.stdout.write(f"To update these files: python -m {module}\n")
        return 1 if changed else 0
    for path, text in texts().items():
        (ROOT / path).parent.mkdir(parents=True, exist_ok=True)
        (ROOT / path).write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
