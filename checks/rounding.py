"""Numbers as a reader meets them: so many significant digits, and on the side where they stay true.

The phone has the same in `static/generated/messages.js`, which `checks/messages.py` writes.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

EXACT = 10
"""Digits that are looked at: what binary fractions add behind them is not rounded up into a digit."""


def shortened(value: float, digits: int, rounding: str = ROUND_HALF_EVEN) -> Decimal:
    """The finite value with so many significant digits; `rounding` is one of the modes of `decimal`."""
    exact = Decimal(f"{value:.{EXACT}g}")
    place = Decimal(1).scaleb(exact.adjusted() - digits + 1)
    return exact.quantize(place, rounding=rounding)


AGREED = {
    "expanded": (2, ROUND_CEILING),
    "needed": (2, ROUND_FLOOR),
    "lower": (4, ROUND_CEILING),
    "upper": (4, ROUND_FLOOR),
}
"""How the numbers of a verdict are shown, by the name under which it has them: digits and the side.

The uncertainty that an instrument has is never shown smaller, the one that is needed never larger, an
interval never wider.
"""


def told(name: str, value: float, unit: str | None) -> float:
    """A number of a verdict as it is told; a day and what has another name stay as they are."""
    if name not in AGREED or unit == "date":
        return value
    return float(shortened(value, *AGREED[name]))
