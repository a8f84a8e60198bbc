"""Dates as day numbers, held against the calendar of Python's standard library."""

from calendar import monthrange
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

EPOCH = date(1970, 1, 1)
dates = st.dates(date(1900, 1, 1), date(2199, 12, 31))


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def number(day):
    return (day - EPOCH).days


def months_later(day, months):
    """By Python's calendar: the same day, or the last of a month that is too short."""
    year, month = divmod(12 * day.year + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


@given(dates, st.integers(0, 1200))
def test_months_later_is_the_day_that_the_calendar_says(day, months):
    assert value("date_after_months", start=number(day), months=months) == number(months_later(day, months))


@pytest.mark.parametrize("year", [1900, 1999, 2000, 2023, 2024, 2096, 2100])
def test_a_month_after_the_last_days_of_january_is_the_end_of_february(year):
    last = number(date(year, 3, 1)) - 1
    for day in (29, 30, 31):
        assert value("date_after_months", start=number(date(year, 1, day)), months=1) == last


@given(dates, st.floats(0, 3000))
def test_a_part_of_a_day_does_not_count(day, days):
    expected = day + timedelta(int(days + 1e-9))
    assert value("date_after", start=number(day), days=days) == number(expected)


@given(st.lists(st.integers(-25567, 84005), min_size=1, max_size=8))
def test_the_earliest_of_the_dates_that_are_there(days):
    names = ("eighth", "third", "first", "second", "fifth", "fourth", "seventh", "sixth")
    assert value("earliest_date", **dict(zip(names, days, strict=False))) == min(days)


@pytest.mark.parametrize(
    ("name", "inputs", "code"),
    [
        ("earliest_date", {}, "nothing_given"),
        ("date_after_months", {"start": 0.5, "months": 1}, "not_whole"),
        ("date_after_months", {"start": 0, "months": 1.5}, "not_whole"),
        ("date_after", {"start": 90000, "days": 1}, "outside_range"),
    ],
)
def test_what_is_no_date_or_no_interval_is_refused(name, inputs, code):
    assert FORMULAS[name].evaluate(inputs).reason["code"] == code
