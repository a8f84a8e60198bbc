"""The texts of this package in other languages, for showing only.

What is hashed, signed and judged stays as it is written: English. A catalogue is a gettext file whose msgid
is the English text; it is read when somebody first asks for its language.
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

Say = Callable[[str], str]
"""A text in the reader's language; the English one where there is no other."""

FOLDER = Path(__file__).parent / "translations"
ENGLISH = "en"

SHOWN = frozenset(
    {
        *("title", "label", "hint", "meaning", "why", "because", "group", "lines", "causes_above"),
        *("causes_below", "source"),
    }
)
"""What a person reads in the plain data of a procedure; titles in a source stay as published."""

WORDS = (
    "and",
    "if",
    "is given",
    "not given",
    "or",
    "otherwise",
    "table value at",
    "where",
)
"""The words that a formula's layout sets between its signs (:mod:`checks.layout`)."""

_MTEXT = re.compile("<mtext>( ?)([^<]*?)( ?)</mtext>")


def languages() -> list[str]:
    """The languages other than English that there is a catalogue for."""
    return sorted(path.parents[1].name for path in FOLDER.glob("*/LC_MESSAGES/checks.po"))


def english(text: str) -> str:
    return text


def speaker(language: str) -> Say:
    """What gives the texts of this package in a language."""
    if language == ENGLISH:
        return english
    return catalogue(FOLDER / language / "LC_MESSAGES" / "checks.po").gettext


@cache
def catalogue(path: Path) -> gettext.NullTranslations:
    """A gettext file, read once. It is compiled in memory, so that there is no compiled file to go stale."""
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    compiled = io.BytesIO()
    with path.open("rb") as file:
        write_mo(compiled, read_po(file))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


def translated(part: Any, say: Say, *, is_text: bool = False) -> Any:
    """A copy of a procedure's plain data (or of a part of it) whose texts are those that ``say`` gives."""
    if isinstance(part, Mapping):
        return {name: translated(value, say, is_text=name in SHOWN) for name, value in part.items()}
    if isinstance(part, list):
        return [translated(one, say, is_text=is_text) for one in part]
    return say(part) if is_text and isinstance(part, str) and part else part


def shown_texts(part: Any, place: str = "") -> Iterator[tuple[str, str]]:
    """Each text of a procedure that a person reads, with where it stands."""
    if isinstance(part, Mapping):
        inside = f"{place}/{part['id']}" if "id" in part else place
        for name, value in part.items():
            yield from shown_texts(value, f"{inside} {name}" if name in SHOWN else inside)
    elif isinstance(part, list):
        for one in part:
            yield from shown_texts(one, place)
    elif isinstance(part, str) and part and place.rpartition(" ")[2] in SHOWN:
        yield place, part


def math_in_words(mathml: str, say: Say) -> str:
    """MathML with the words between its signs in the reader's language."""
    if say is english:
        return mathml
    return _MTEXT.sub(
        lambda found: f"<mtext>{found[1]}{say(found[2]) if found[2] else ''}{found[3]}</mtext>", mathml
    )
