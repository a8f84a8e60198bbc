"""Conductors and what a continuity reading may be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

temperatures = st.floats(-50, 150)
forms = st.sampled_from(["linear", "230"])


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(temperatures, temperatures, forms)
def test_heating_and_cooling_back_gives_the_same_resistance(cold, warm, form):
    given_ = {"temperature_form": form}
    there = value(
        "resistance_at_temperature", resistance=1, temperature=cold, target_temperature=warm, **given_
    )
    back = value(
        "resistance_at_temperature", resistance=there, temperature=warm, target_temperature=cold, **given_
    )
    assert back == pytest.approx(1, rel=1e-12)


@given(st.floats(20, 70))
def test_the_two_forms_differ_by_less_than_three_tenths_of_a_percent(temperature):
    factors = [
        value(
            "resistance_at_temperature",
            resistance=1,
            temperature=20,
            target_temperature=temperature,
            temperature_form=form,
        )
        for form in ("linear", "230")
    ]
    assert factors[0] == pytest.approx(factors[1], rel=3e-3)


@given(st.floats(0.1, 1000), temperatures, forms, st.sampled_from(["1", "2", "5"]))
def test_a_longer_conductor_has_more_resistance_in_proportion(length, temperature, form, conductor_class):
    given_ = {
        "cross_section": 2.5,
        "conductor_class": conductor_class,
        "temperature": temperature,
        "temperature_form": form,
    }
    one = value("conductor_resistance", length=length, **given_)
    assert value("conductor_resistance", length=2 * length, **given_) == pytest.approx(2 * one, rel=1e-12)


def test_the_limit_is_the_conductor_and_the_allowance():
    given_ = {"cross_section": 1.5, "length": 12, "conductor_class": 5, "temperature": 25}
    conductor = value("conductor_resistance", **given_)
    assert value("continuity_limit", allowance=0.1, **given_) == pytest.approx(conductor + 0.1)
    assert value("continuity_limit", **given_) == pytest.approx(conductor + 0.1)


def test_a_number_of_the_class_counts_like_its_word():
    given_ = {"cross_section": 1.5, "length": 12}
    assert value("conductor_resistance", conductor_class=5, **given_) == value(
        "conductor_resistance", conductor_class="5", **given_
    )


@pytest.mark.parametrize(
    ("length", "started", "completed"),
    [(5, 0.3, 0.3), (5.1, 0.4, 0.3), (12.5, 0.4, 0.4), (12.6, 0.5, 0.4), (57.5, 1.0, 1.0), (500, 1.0, 1.0)],
)
def test_a_step_of_seven_and_a_half_metres_counts_when_begun_or_when_completed(length, started, completed):
    assert value("cord_bonding_limit", length=length) == pytest.approx(started)
    assert value("cord_bonding_limit", length=length, step_rule="completed") == pytest.approx(completed)


@given(st.floats(0.1, 1000))
def test_the_permanent_limit_drops_ten_volts_at_twice_the_rating(rating):
    assert value("permanent_bonding_limit", breaker_rating=rating) * 2 * rating == pytest.approx(10)


@given(st.lists(st.floats(0.01, 1e6), min_size=1, max_size=8))
def test_resistances_in_parallel_are_less_than_the_least(resistances):
    together = value("parallel_resistance", resistances=resistances)
    assert together <= min(resistances) * (1 + 1e-12)
    assert value("parallel_resistance", resistances=[*resistances, 5.0]) < together
