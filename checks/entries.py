"""What was entered -> a value that can be used, or the reason why not; and instants as they are compared.

Free of domain words; `static/judging/entries.js` is the twin.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from typing import Any

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
DATE = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", re.ASCII)
INSTANT = re.compile(
    r"(\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d)(:[0-5]\d)?(\.\d{1,3})?Z",
    re.ASCII,
)


def read_entry(entry: Mapping[str, Any], cell: Any) -> tuple[Any, dict[str, Any] | None]:
    """The value of what was entered, or None with the reason; None without a reason when nothing was."""
    if cell is None or cell == []:
        return None, None
    if entry["kind"] == "series":
        values = []
        for one in cell if isinstance(cell, list) else [cell]:
            value, reason = _read_one(entry, one)
            if value is None:
                return None, reason or {"code": "not_a_number", "typed": ""}
            values.append(value)
        return values, None
    return _read_one(entry, cell)


def _read_one(entry: Mapping[str, Any], cell: Any) -> tuple[Any, dict[str, Any] | None]:
    if "conflict" in cell:
        return None, {"code": "conflict"}
    value = cell.get("value")
    if value is None or value == "":
        typed = cell.get("typed")
        unread = isinstance(typed, str) and typed != ""
        return None, ({"code": "not_a_number", "typed": typed} if unread else None)
    if entry["kind"] == "drawing" and not (cell.get("strokes") or cell.get("stated") is True):
        return None, None  # a name alone is no signature
    reason = _READERS[entry["kind"]](entry, value)
    return (None, reason) if reason else (value, None)


def _number(entry: Mapping[str, Any], value: Any) -> dict[str, Any] | None:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        return {"code": "not_a_number", "typed": value if isinstance(value, str) else None}
    low, high = entry["minimum"], entry["maximum"]
    if (low is not None and value < low) or (high is not None and value > high):
        return {
            "code": "outside_possible",
            "value": value,
            "minimum": low,
            "maximum": high,
            "unit": entry["unit"],
        }
    return None


def _choice(entry: Mapping[str, Any], value: Any) -> dict[str, Any] | None:
    options = [option["value"] for option in entry["options"]] or ["yes", "no"]
    return None if value in options else {"code": "unknown_choice", "value": value, "options": options}


def _written(code: str, pattern: re.Pattern[str]) -> Any:
    def read(entry: Mapping[str, Any], value: Any) -> dict[str, Any] | None:
        return (
            None if isinstance(value, str) and pattern.fullmatch(value) and _is_day(value) else {"code": code}
        )

    return read


def _is_day(text: str) -> bool:
    year, month, day = int(text[:4]), int(text[5:7]), int(text[8:10])
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    longest = 30 if month in (4, 6, 9, 11) else 31
    return year > 0 and day <= ((29 if leap else 28) if month == 2 else longest)


def instant(text: str) -> str:
    """An instant to the millisecond, so that texts compare as times do."""
    found = INSTANT.fullmatch(text)
    minute, second, fraction = found.groups() if found else (text, None, None)
    return f"{minute}{second or ':00'}{(fraction or '.').ljust(4, '0')}Z"


def milliseconds(text: str) -> int:
    """An instant as milliseconds since 1970."""
    return (datetime.fromisoformat(instant(text)) - EPOCH) // timedelta(milliseconds=1)


def days(text: str) -> int:
    """A date as whole days since 1970-01-01; a ValueError for a text that is none."""
    return (date.fromisoformat(text) - EPOCH.date()).days


def date_of(number: float) -> str:
    """The date of so many days since 1970-01-01, the inverse of `days`."""
    return (EPOCH.date() + timedelta(days=round(number))).isoformat()


def fits(condition: Mapping[str, Any], value: Any) -> bool:
    """Whether a value, None without one, is what a condition of a `when` asks for."""
    return value is not None if condition["given"] else value in condition["is"]


def _text(entry: Mapping[str, Any], value: Any) -> dict[str, Any] | None:
    return (
        None if isinstance(value, str) else {"code": "wrong_shape", "field": entry["id"], "wanted": "a text"}
    )


_READERS = {
    "reading": _number,
    "series": _number,
    "choice": _choice,
    "yes_no": _choice,
    "text": _text,
    "photo": _text,
    "drawing": _text,
    "date": _written("not_a_date", DATE),
    "instant": _written("not_an_instant", INSTANT),
}
