"""Numbers, limits and times as a reader meets them: rounded once, here, and never against the verdict."""

from datetime import UTC, datetime, timedelta, timezone
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN
from math import isfinite

from checks.entries import date_of
from checks.rounding import shortened
from checks.units import names_a_unit, unit_label, unit_named
from webapp.language import _, date, decimal, long_day, say, second

DIGITS = 4
MINUS = "\N{MINUS SIGN}"
NO_VALUE = "\N{EN DASH}"
DATE = "date"


def rounded(value: float, digits: int = DIGITS, rounding: str = ROUND_HALF_EVEN) -> str:
    """The value with so many significant digits, without an exponent where a reader can do without one."""
    if not isfinite(value):
        return NO_VALUE
    if value == 0:
        return "0"
    short = shortened(value, digits, rounding).normalize()
    if -5 <= short.adjusted() <= 9:
        return decimal(f"{short:f}".replace("-", MINUS))
    return decimal(f"{short:E}".replace("-", MINUS))


def symbol(unit: str | None) -> str:
    """How a unit is written; nothing for a plain number."""
    if not unit or unit in {"1", "dimensionless"}:
        return ""
    if unit == DATE:
        return DATE
    known = unit_named(unit)
    return say(unit_label(known)) if known else unit


def with_unit(text: str, symbol: str) -> str:
    """A number and its unit, kept on one line."""
    return f"{text}\u00a0{symbol}" if symbol and text else text


def as_typed(typed: str, symbol: str) -> str:
    """What somebody typed, with its unit unless they typed that, too."""
    return typed.strip() if names_a_unit(typed) else with_unit(typed.strip(), symbol)


def amount(value: float, symbol: str, rounding: str = ROUND_HALF_EVEN) -> str:
    """A computed value with its unit, rounded; a date as a date."""
    if symbol == DATE:
        return date(date_of(value))
    return with_unit(rounded(value, rounding=rounding), symbol)


def interval(lower: float | None, upper: float | None, symbol: str) -> str:
    """An interval in words. Ends are rounded into it, so that no shown end contradicts a verdict."""
    low = "" if lower is None else amount(lower, symbol, ROUND_CEILING)
    high = "" if upper is None else amount(upper, symbol, ROUND_FLOOR)
    if lower is not None and upper is not None:
        if lower == upper:
            return _("exactly {amount}", amount=amount(upper, symbol))
        if lower > upper:
            return _("none: from {low} down to {high}", low=low, high=high)
        first = amount(lower, symbol if symbol == DATE else "", ROUND_CEILING)
        return _("{low} to {high}", low=first, high=high)
    if high:
        return _("at most {high}", high=high)
    return _("at least {low}", low=low) if low else ""


def expanded_uncertainty(expanded: float | None, symbol: str) -> str:
    """U with two significant digits, rounded up: an uncertainty is never shown smaller."""
    if not expanded:
        return ""
    return f"U = {with_unit(rounded(expanded, 2, ROUND_CEILING), symbol)}"


def read_instant(text: str) -> datetime:
    """An instant of a record (UTC, ends in Z)."""
    return datetime.fromisoformat(text).astimezone(UTC)


def local_time(text: str, offset: int = 0) -> str:
    """An instant on the clock of the place where it was written, with its zone."""
    moment = read_instant(text).astimezone(timezone(timedelta(minutes=offset)))
    sign = MINUS if offset < 0 else "+"
    hours, minutes = divmod(abs(offset), 60)
    zone = f"UTC{sign}{hours:02}:{minutes:02}"
    time = f"{moment:%H:%M}"
    return _("{day}, {time} ({zone})", day=long_day(moment), time=time, zone=zone)


def utc_time(text: str) -> str:
    """The same instant in UTC, to the second."""
    return f"{second(written(text))} UTC"


def clock_time(text: str) -> str:
    """An instant in UTC, short enough for a column."""
    return f"{second(written(text))}Z"


def written(text: str) -> str:
    return f"{read_instant(text):%Y-%m-%d %H:%M:%S}"


def day(text: str | None) -> str:
    """A date written YYYY-MM-DD, or an instant, as a day in words."""
    if not text:
        return ""
    return long_day(datetime.fromisoformat(text))
