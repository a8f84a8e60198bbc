"""Overflow, timed flow, solutions and wear: put back, or against what the language knows."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

DAY = date(2026, 11, 25)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def test_an_overflow_passes_what_torricelli_says():
    speed = math.sqrt(2 * 9.80665 * 0.030)
    expected = 0.6 * math.pi / 4 * 0.020**2 * speed * 1000 * 60
    assert value("overflow_capacity", bore=20, head=30) == pytest.approx(expected)


@given(st.floats(1, 500), st.floats(1, 2000))
def test_twice_the_bore_passes_four_times_as_much(bore, head):
    one, two = (value("overflow_capacity", bore=times * bore, head=head) for times in (1, 2))
    assert two == pytest.approx(4 * one)


def test_a_flow_is_a_volume_by_its_time():
    assert value("timed_flow", volume=2, time=30) == pytest.approx(4)
    assert FORMULAS["timed_flow"].evaluate({"volume": 2, "time": 0}).reason["code"] == "outside_range"


@given(st.floats(1, 1000), st.floats(1, 1000), st.floats(1, 150))
def test_the_volume_of_solution_gives_the_dose_that_was_asked_for(dose, volume, strength):
    added = value("solution_volume", dose=dose, volume=volume, strength=strength)
    assert value("solution_dose", added=added, strength=strength, volume=volume) == pytest.approx(dose)


def test_a_lamp_of_9000_hours_that_always_burns_lasts_375_days():
    start = (DAY - date(1970, 1, 1)).days
    due = value("date_after_use", start=start, life=9000, used=0, per_day=24)
    assert date(1970, 1, 1) + timedelta(days=due) == DAY + timedelta(days=375)


def test_a_part_of_a_day_does_not_count():
    assert value("date_after_use", start=0, life=100, used=1, per_day=24) == 4


def test_what_is_used_up_has_no_date_left():
    found = FORMULAS["date_after_use"].evaluate({"start": 0, "life": 100, "used": 101, "per_day": 24})
    assert found.reason == {"code": "life_used_up"}
