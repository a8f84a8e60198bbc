"""Laws that hold whatever the numbers are, of small formulas that have none among their subject's tests."""

import statistics
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

numbers = st.floats(-1e6, 1e6)
amounts = st.floats(0.01, 1e4)
temperatures = st.floats(0, 100)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(amounts, amounts, amounts)
def test_a_regulator_s_flow_grows_with_the_root_of_the_difference(kv, difference, relieving):
    def flow(factor):
        return value(
            "regulator_failed_open_flow",
            flow_coefficient_kv=kv,
            supply_pressure=relieving / 100 + factor * difference / 100,
            relieving_pressure=relieving / 100,
        )

    assert flow(4) == pytest.approx(2 * flow(1), rel=1e-6)
    assert flow(-1) in (0, None)  # the supply would be below zero


@given(st.floats(0.1, 50), st.floats(0, 50), st.floats(0, 10), st.floats(0, 10))
def test_a_longer_conductor_and_a_larger_allowance_allow_more(length, more, allowance, further):
    plain = {"cross_section": 1.5, "conductor_class": "5"}
    lower = value("continuity_limit", **plain, length=length, allowance=allowance)
    higher = value("continuity_limit", **plain, length=length + more, allowance=allowance + further)
    assert lower - 1e-12 <= higher
    assert lower >= allowance


@given(st.floats(0.1, 1000))
def test_insulation_of_extra_low_voltage_may_be_lower_and_ends_at_120_volts(voltage):
    general = value("insulation_resistance_minimum", nominal_voltage=voltage, circuit="general")
    small = FORMULAS["insulation_resistance_minimum"].evaluate(
        {"nominal_voltage": voltage, "circuit": "selv_pelv"}
    )
    assert (small.value is None) == (voltage > 120)
    assert small.value is None or small.value < general


@given(st.lists(amounts, min_size=1, max_size=9), st.floats(0.001, 1), st.floats(0.01, 0.5))
def test_what_counts_as_stable_is_never_below_the_share(readings, resolution, share):
    given_ = {"readings": readings, "share": share}
    coarse = value("reading_stability_maximum", **given_, resolution=2 * resolution)
    fine = value("reading_stability_maximum", **given_, resolution=resolution)
    assert share <= fine <= coarse


@given(numbers, numbers)
def test_minutes_backwards_are_the_same_with_the_other_sign(start, end):
    forwards = value("elapsed_minutes", start=start, end=end)
    assert value("elapsed_minutes", start=end, end=start) == -forwards


@given(numbers, st.floats(-1000, 1000), st.floats(-1000, 1000))
def test_scaling_twice_is_scaling_by_the_product(start, first, second):
    twice = value("scaled", value=value("scaled", value=start, factor=first), factor=second)
    assert twice == pytest.approx(value("scaled", value=start, factor=first * second), rel=1e-9, abs=1e-20)


@given(st.permutations([1.5, -2.25, 3.0, 400.125, 5.0, -6.5]))
def test_a_sum_does_not_ask_for_the_order(parts):
    names = ("first", "second", "third", "fourth", "fifth", "sixth")
    assert value("sum_of", **dict(zip(names, parts, strict=True))) == 400.875  # exact in binary


@given(amounts, temperatures, temperatures)
def test_a_bubble_point_comes_back_from_another_temperature(point, first, second):
    def moved(point, reference, temperature):
        given_ = {"bubble_point": point, "reference_temperature": reference, "temperature": temperature}
        return value("bubble_point_at_temperature", **given_)

    there = moved(point, first, second)
    assert moved(there, second, first) == pytest.approx(point, rel=1e-12)
    assert (there <= point * (1 + 1e-12)) == (second >= first) or there == pytest.approx(point, rel=1e-9)


@given(st.floats(0.1, 1e4), st.floats(0, 1e4), st.floats(0, 1e4))
def test_each_litre_weighs_a_kilogram(empty, water, more):
    grown = value("full_mass", empty_mass=empty, water_volume=water + more)
    assert grown - value("full_mass", empty_mass=empty, water_volume=water) == pytest.approx(more, abs=1e-9)
    assert value("full_mass", empty_mass=empty, water_volume=0) == empty


@given(st.floats(0, 100), st.floats(1, 10), temperatures, temperatures, st.floats(-2, 2))
def test_a_section_that_only_drifts_has_no_corrected_drop(leak, start, first, second, drift):
    """The end is what drift and leak make of the start, where that is a pressure."""
    end = start + drift * (second - first) - leak
    if 0 <= end <= 1000:
        given_ = {"start_pressure": start, "end_pressure": end, "drift": drift}
        found = value("corrected_pressure_drop", **given_, start_temperature=first, end_temperature=second)
        assert found == pytest.approx(leak, abs=1e-9)


@given(st.lists(st.floats(-1000, 1000), min_size=2, max_size=12))
def test_the_spread_is_that_of_the_standard_library_and_shrinks_with_the_root_of_the_count(readings):
    spread = value("series_standard_deviation", readings=readings)
    assert spread == pytest.approx(statistics.stdev(readings), rel=1e-9, abs=1e-9)
    mean = value("series_mean_uncertainty", readings=readings)
    assert mean == pytest.approx(spread / len(readings) ** 0.5, rel=1e-12, abs=1e-12)


@given(amounts)
def test_a_display_spreads_evenly_over_one_step(resolution):
    """A uniform distribution of that width has a variance of a twelfth: JCGM 100, 4.3.7 (from memory)."""
    variance = value("resolution_uncertainty", resolution=resolution) ** 2
    assert variance == pytest.approx(resolution**2 / 12, rel=1e-12)


@given(st.floats(-100, 100), st.floats(0, 0.1), st.floats(0, 0.1), st.floats(0, 10))
def test_an_instrument_is_as_uncertain_below_zero_as_above_and_no_part_makes_it_better(
    reading, of_reading, of_range, calibration
):
    plain = {"accuracy_of_reading": of_reading, "accuracy_of_range": of_range, "range": 100}
    alone = value("instrument_uncertainty", reading=reading, **plain)
    assert value("instrument_uncertainty", reading=-reading, **plain) == alone
    assert (
        value("instrument_uncertainty", reading=reading, **plain, calibration_uncertainty=calibration)
        >= alone
    )


@given(amounts, amounts, amounts)
def test_the_timed_volume_comes_back(volume, seconds, factor):
    flow = value("timed_flow", volume=volume, time=seconds)
    assert flow * seconds / 60 == pytest.approx(volume, rel=1e-12)
    assert value("timed_flow", volume=factor * volume, time=factor * seconds) == pytest.approx(
        flow, rel=1e-12
    )


@given(st.dates(date(1950, 1, 1), date(2050, 1, 1)), st.integers(0, 5000), st.integers(1, 40))
def test_what_is_left_lasts_so_many_whole_days_by_the_calendar(start, days, per_day):
    """Half a day's use more than whole days: the half does not count."""
    found = value(
        "date_after_use",
        start=(start - date(1970, 1, 1)).days,
        life=100 + (days + 0.5) * per_day,
        used=100,
        per_day=per_day,
    )
    assert date(1970, 1, 1) + timedelta(days=found) == start + timedelta(days=days)
