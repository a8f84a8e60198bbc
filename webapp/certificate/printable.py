"""Text that the certificate's fonts can set.

PDF/A allows no character without a glyph. What the embedded fonts do not hold is printed as its code
point, `[U+1F600]`; the attached record keeps the character itself.
"""

import unicodedata
from functools import cache, lru_cache
from typing import Any

import typst

PROBE = b'#text(font: ("Libertinus Serif", "DejaVu Sans Mono"), sys.inputs.at("text"))'

# They turn the reading direction of what follows and could make a name read as another one.
DIRECTION_MARKS = frozenset("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@cache
def fonts() -> typst.Fonts:
    """The fonts inside the typesetter: the same on every machine, so that renders compare equal."""
    return typst.Fonts(include_system_fonts=False)


@lru_cache(maxsize=4096)
def can_set(text: str) -> bool:
    """Whether every character of the text has a glyph."""
    try:
        typst.compile(
            PROBE,
            font_paths=fonts(),
            ignore_system_fonts=True,
            pdf_standards=["a-3b"],
            sys_inputs={"text": text},
        )
    except typst.TypstError:
        return False
    return True


def printable(text: str) -> str:
    """The text with each character that cannot be set replaced by its code point in brackets."""
    text = unicodedata.normalize("NFC", text).replace("\r\n", "\n")
    if all(" " <= character <= "~" or character == "\n" for character in text):
        return text
    shown = "".join(character if _plain(character) else _code_point(character) for character in text)
    if can_set(shown):
        return shown
    # A mark may have a glyph alone and none together with its letter.
    return "".join(_code_point(one) if unicodedata.category(one).startswith("M") else one for one in shown)


def _plain(character: str) -> bool:
    if " " <= character <= "~" or character == "\n":
        return True
    if character in DIRECTION_MARKS or unicodedata.category(character) in {"Cc", "Co", "Cs", "Cn"}:
        return False
    return can_set(character)


def _code_point(character: str) -> str:
    return f"[U+{ord(character):04X}]"


def printable_tree(value: Any) -> Any:
    """The same for every text inside lists and dicts."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, list):
        return [printable_tree(one) for one in value]
    if isinstance(value, dict):
        return {key: printable_tree(one) for key, one in value.items()}
    return value
