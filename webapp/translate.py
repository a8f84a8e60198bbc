"""python -m webapp.translate [--check]: bring the catalogues of all languages up to date with the texts.

A text that is new stands in them with an empty msgstr, one that is gone falls out, and every other keeps its
translation. With --check nothing is written: what is missing, empty or wrongly filled in is told, and the
exit status is 1. Afterwards `python -m checks.generate` and `python -m webapp.generate` write what
phones keep.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

from webapp.catalogues import CATALOGUES, Texts, faults, read, updated, write
from webapp.language import ENGLISH, LANGUAGES


def files() -> Iterator[tuple[str, Path, Texts]]:
    """Language, file and English texts of every catalogue."""
    for folder, name, texts in CATALOGUES:
        found = texts()
        for language in LANGUAGES:
            if language != ENGLISH:
                yield language, folder / language / "LC_MESSAGES" / f"{name}.po", found


def check() -> int:
    lines = [
        f"{path.name}, {language}: {line}"
        for language, path, texts in files()
        for line in faults(read(path), texts)
    ]
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    if lines:
        sys.stdout.write("To update them: python -m webapp.translate; then fill in what is empty.\n")
    return 1 if lines else 0


def main(arguments: list[str]) -> int:
    """The command; gives the exit status."""
    if arguments == ["--check"]:
        return check()
    if arguments:
        sys.stderr.write("usage: python -m webapp.translate [--check]\n")
        return 2
    for language, path, texts in files():
        write(path, updated(read(path), texts, language))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
