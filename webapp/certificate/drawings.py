"""Signatures drawn on the glass, as lines for a page: the office's and the certificate's."""

from typing import Any

from webapp.certificate import figures
from webapp.signing.shapes import Strokes

SHEET = Strokes()


def drawing(label: str, cell: dict[str, Any]) -> dict[str, Any]:
    """Who signed what, and the lines: ``strokes`` as points, ``paths`` as SVG writes them."""
    strokes = [points(stroke) for stroke in cell.get("strokes") or []]
    return {
        "label": label,
        "name": cell["value"],
        "role": cell.get("role") or "",
        "means": cell.get("means") or "",
        "when": figures.utc_time(cell["at"]) if cell.get("at") else "",
        "strokes": strokes,
        "paths": [path(stroke) for stroke in strokes],
        "wide": SHEET.wide,
        "high": SHEET.high,
    }


def points(stroke: list[int]) -> list[list[int]]:
    """The places of a stroke without their times."""
    return [stroke[place : place + 2] for place in range(0, len(stroke), 3)]


def path(stroke: list[list[int]]) -> str:
    """A line through all points; one alone is a dot."""
    return "M" + "L".join(f"{x} {y}" for x, y in stroke) + ("h0" if len(stroke) == 1 else "")
