"""How the calculator writes numbers and titles."""

from typing import Any

from checks.entries import date_of
from checks.formula import Formula
from webapp.certificate import figures

DIGITS = 6


def title(formula: Formula) -> str:
    """The first sentence of the formula's text, as a heading."""
    return formula.title.rstrip(".")


def shown_number(value: Any, unit: str) -> str:
    """A result for reading: six digits, a date as a date, a verdict as words."""
    if isinstance(value, str):
        return value.replace("_", " ")
    if unit == "date":
        return date_of(value)
    return figures.rounded(value, DIGITS)
