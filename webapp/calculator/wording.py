"""How the calculator writes numbers and titles."""

from typing import Any

from checks.entries import date_of
from webapp.certificate import figures
from webapp.language import date, say

DIGITS = 6


def shown_number(value: Any, unit: str) -> str:
    """A result for reading: six digits, a date as a date, a verdict as words."""
    if isinstance(value, str):
        return say(value.replace("_", " "))
    if unit == "date":
        return date(date_of(value))
    return figures.rounded(value, DIGITS)
