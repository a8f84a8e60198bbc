"""How the pages write what the procedure names."""

from checks.messages import VERDICTS
from checks.units import unit_label as written_unit
from webapp.language import say


def unit_label(name: str) -> str:
    """The sign of a unit as a page shows it: ``uS/cm`` becomes µS/cm; nothing for a bare number."""
    return say(written_unit(name))


def verdict_word(name: str) -> str:
    """The word of a verdict, the same as on the phone."""
    return say(VERDICTS[name]["word"]) if name in VERDICTS else name
