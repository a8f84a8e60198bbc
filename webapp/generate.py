"""python -m webapp.generate [--check]: write what follows from the settings, the commands and the shapes.

Without an option the files are written. With --check nothing is written: a file that differs from what would
be written is shown as a difference, and the exit status is 1.
"""

import json
import sys

from checks import translation
from checks.generate import write_or_check
from webapp import description
from webapp.catalogues import instrument_kinds, unit_words
from webapp.catalogues import read as read_catalogue
from webapp.commands import reference
from webapp.language import ENGLISH, FOLDER, LANGUAGES
from webapp.settings import TABLE, Setting

WORDS = """\
// Generated from the catalogues of webapp/ and checks/ by webapp.generate: change them, then run it again.
/** @type {import("../language/phrase.js").Words} */
export const words = """

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


def words_module(language: str) -> str:
    """The words of the phone's own scripts in a language; English ones are their keys."""
    known = read_catalogue(FOLDER / language / "LC_MESSAGES" / "webapp.po")
    words: dict[str, object] = {}
    for message in known:
        if any(place.startswith("static/") for place, _line in message.locations):
            plural = not isinstance(message.id, str)
            if message.string and all(message.string):
                words[message.id[0] if plural else str(message.id)] = message.string
    say = translation.speaker(language)
    words |= {text: say(text) for text in (*sorted(instrument_kinds()), *unit_words(), "not given")}
    return WORDS + json.dumps(words, ensure_ascii=False, indent=1) + ";\n"


def texts() -> dict[str, str]:
    """What every generated file has to contain, by its path from the project's root."""
    return {
        "docs/generated/settings.md": settings_page(),
        "docs/commands.md": reference(),
        "docs/generated/openapi.json": description.text(),
        **{f"static/generated/words.{name}.js": words_module(name) for name in LANGUAGES if name != ENGLISH},
    }


def main(arguments: list[str]) -> int:
    """The command; gives the exit status."""
    return write_or_check("webapp.generate", texts, arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
