"""What a series of readings says."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

READINGS = [1.32, 1.28, 1.27, 1.26, 1.26]
series = st.lists(st.floats(0.01, 1e4), min_size=2, max_size=12)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def test_half_the_range_is_taken_as_a_share_of_the_mean():
    """By hand: (1.32 - 1.26) / 2 / 1.278."""
    assert value("reading_stability", readings=READINGS) == pytest.approx(0.03 / 1.278)


def test_near_zero_one_step_of_the_display_takes_the_place_of_the_mean():
    assert value("reading_stability", readings=[0.0, 0.01], resolution=0.01) == pytest.approx(0.5)


def test_what_counts_as_stable_is_a_share_or_two_steps_of_the_display():
    assert value("reading_stability_maximum", readings=READINGS, resolution=0.01) == 0.03
    assert value("reading_stability_maximum", readings=[0.1, 0.1], resolution=0.01) == pytest.approx(0.2)


@given(series, st.floats(0.1, 10))
def test_stability_does_not_depend_on_the_unit(readings, factor):
    scaled = [factor * one for one in readings]
    assert value("reading_stability", readings=scaled) == pytest.approx(
        value("reading_stability", readings=readings), rel=1e-9, abs=1e-12
    )


@given(series)
def test_the_mean_lies_between_the_extremes_and_the_newest_is_the_last(readings):
    mean = value("series_mean", readings=readings)
    assert min(readings) * (1 - 1e-12) <= mean <= max(readings) * (1 + 1e-12)
    assert value("last_reading", readings=readings) == readings[-1]


def test_the_worst_of_membranes_in_parallel_stands_out_from_their_mean():
    """By hand: the mean of 4, 5, 4 and 7 is 5."""
    assert value("series_largest_ratio", readings=[4, 5, 4, 7]) == pytest.approx(1.4)


@given(series)
def test_the_largest_is_never_below_the_mean_nor_above_the_sum(readings):
    assert 1 - 1e-12 <= value("series_largest_ratio", readings=readings) <= len(readings) * (1 + 1e-12)
    assert value("series_count", readings=readings) == len(readings)


@given(series)
def test_readings_in_the_other_order_have_the_opposite_trend(readings):
    forwards = value("reading_trend", readings=readings)
    assert value("reading_trend", readings=readings[::-1]) == pytest.approx(-forwards, rel=1e-9, abs=1e-9)


def test_minutes_pass_from_one_instant_to_the_next():
    assert value("elapsed_minutes", start=1764063000000, end=1764063090000) == 1.5


def test_a_share_of_a_value():
    assert value("scaled", value=230, factor=0.9) == pytest.approx(207)
