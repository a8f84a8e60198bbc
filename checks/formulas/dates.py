"""Dates as whole days since 1970-01-01: when something is due again, and which date comes first."""

from __future__ import annotations

import sympy

from checks.expressions import completed, given, smaller, step, when
from checks.formula import Input, Refusal, Source, formula

ISO_8601 = Source("ISO 8601-1, Date and time", "2019", "4.2.1, the Gregorian calendar", "from memory")
FIRST, LAST = -25567, 84005  # 1900-01-01 and 2199-12-31: no plant is older, no interval is longer
TO_MARCH = 719468  # days from 0000-03-01 to 1970-01-01: a leap day is then the last day of its year
LATER = 1_000_000  # after every date that is accepted
MANY = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def date_input(meaning, symbol, optional=False):
    """A date as a number: whole days since 1970-01-01."""
    return Input("date", meaning, minimum=FIRST, maximum=LAST, counted=True, optional=optional, symbol=symbol)


@formula(
    result_unit="date",
    source=ISO_8601,
    start=date_input("date from which is counted", "D"),
    days=Input("d", "days after it", minimum=0, maximum=36525, exact=True, symbol="n"),
)
def date_after(start, days):
    """The date that is so many days after another one.

    A part of a day does not count: what is due after 30.6 days is due after 30.
    """
    return start + completed(days)


def first_of_month(months):
    """The day on which a month begins, counted in days from 0000-03-01; months from March of year 0.

    From March on the months' lengths repeat, 153 days in five; February comes last.
    """
    year = completed(months / 12)
    month = months - 12 * year
    leap_days = completed(year / 4) - completed(year / 100) + completed(year / 400)
    return 365 * year + leap_days + completed((153 * month + 2) / 5)


def month_of(day):
    """The month in which a day lies, both counted from 0000-03-01; the inverse of `first_of_month`."""
    period = completed(day / 146097)
    in_period = day - 146097 * period
    leap_days = completed(in_period / 1460) - completed(in_period / 36524) + completed(in_period / 146096)
    year = completed((in_period - leap_days) / 365)
    in_year = in_period - 365 * year - completed(year / 4) + completed(year / 100)
    return 12 * (400 * period + year) + completed((5 * in_year + 2) / 153)


@formula(
    result_unit="date",
    source=ISO_8601,
    start=date_input("date from which is counted", "D"),
    months=Input("month", "calendar months after it", minimum=0, maximum=1200, counted=True, symbol="m"),
)
def date_after_months(start, months):
    """The same day of the month so many calendar months later.

    Where that month is too short its last day counts: a month after 31 January is 28 or 29 February.
    Exact for the Gregorian calendar.
    """
    day = start + TO_MARCH
    month = month_of(day)
    in_month = step("d", "days since the first of the month", "d", day - first_of_month(month))
    begins = step("B", "first of the later month", "date", first_of_month(month + months) - TO_MARCH)
    ends = step("E", "last of the later month", "date", first_of_month(month + months + 1) - TO_MARCH - 1)
    return smaller(begins + in_month, ends)


def none_given(first, second, third, fourth, fifth, sixth, seventh, eighth):
    """The condition that there is no date at all."""
    dates = (first, second, third, fourth, fifth, sixth, seventh, eighth)
    return sympy.And(*(~given(one) for one in dates))


@formula(
    result_unit="date",
    source=ISO_8601,
    refusals=(Refusal("nothing_given", none_given),),
    **{name: date_input(f"{name} date", f"D_{place}", optional=True) for place, name in enumerate(MANY, 1)},
)
def earliest_date(first, second, third, fourth, fifth, sixth, seventh, eighth):
    """The earliest of up to eight dates. Exact by definition."""
    earliest = when(given(first), first, LATER)
    for other in (second, third, fourth, fifth, sixth, seventh, eighth):
        earliest = smaller(earliest, when(given(other), other, LATER))
    return earliest
