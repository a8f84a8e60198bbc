"""Chlorine and heat: whole tablets, balances put back, and the edges of what counts."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

doses = st.floats(0.5, 500)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


@given(st.floats(4, 10.9), st.floats(0, 35))
def test_less_acid_leaves_less_of_what_disinfects(ph, temperature):
    share = value("hypochlorous_acid_fraction", ph=ph, temperature=temperature)
    assert 0 < share < 1
    assert value("hypochlorous_acid_fraction", ph=ph + 0.1, temperature=temperature) < share


def test_outside_0_to_35_degrees_the_constant_is_not_known():
    assert reason("hypochlorous_acid_fraction", ph=7, temperature=36)["code"] == "outside_range"


@given(doses, st.floats(1.01, 3), st.floats(5, 5000), st.floats(1, 1000), st.floats(0, 0.3))
def test_the_tablets_found_keep_both_limits_and_one_fewer_does_not(lowest, window, tablet, volume, error):
    highest = lowest * window
    given_ = {"chlorine_per_tablet": tablet, "volume": volume, "volume_uncertainty": error}
    found = FORMULAS["chlorine_tablets"].evaluate({"minimum_dose": lowest, "maximum_dose": highest, **given_})
    fewest = math.ceil(lowest * volume * (1 + error) / tablet - 1e-9)
    fits = fewest * tablet <= highest * volume * (1 - error) * (1 + 1e-6)
    if found.reason:
        assert found.reason == {"code": "no_tablet_count"}
        assert fewest * tablet > highest * volume * (1 - error) * (1 - 1e-6)
        return
    assert fits
    assert found.value == fewest
    one = {"chlorine_per_tablet": tablet, "volume": volume * (1 + error)}
    assert value("chlorine_dose", tablets=fewest, **one) >= lowest * (1 - 1e-6)
    assert value("chlorine_dose", tablets=fewest - 1, **one) < lowest


def test_a_tablet_too_large_for_the_window_has_no_number():
    found = reason("chlorine_tablets", minimum_dose=50, maximum_dose=60, chlorine_per_tablet=5000, volume=73)
    assert found == {"code": "no_tablet_count"}


@given(doses, st.floats(5, 10))
def test_of_isocyanurate_only_a_part_is_free_and_of_that_a_part_is_acid(dose, ph):
    acid = value("isocyanurate_hypochlorous_acid", dose=dose, ph=ph)
    free = value("isocyanurate_free_chlorine", dose=dose, ph=ph)
    assert 0 < acid < free < dose
    assert acid / free == pytest.approx(1 / (1 + 10 ** (ph - 7.54)), rel=1e-9)


@given(doses)
def test_more_isocyanurate_frees_more_but_a_smaller_share(dose):
    one, two = (value("isocyanurate_free_chlorine", dose=times * dose, ph=7) for times in (1, 2))
    assert one < two < 2 * one


@given(st.floats(0.1, 100), st.floats(0.1, 0.999), st.floats(1, 500))
def test_the_decay_rate_leads_from_start_to_end(start, share, time):
    rate = value("chlorine_decay_rate", start=start, end=start * share, time=time)
    assert start * math.exp(-rate * time) == pytest.approx(start * share)


@given(st.floats(0.1, 100), st.floats(0.1, 1), st.floats(1, 500))
def test_the_conservative_contact_value_is_the_smaller_one(start, share, time):
    given_ = {"start": start, "end": start * share, "time": time}
    cautious = value("contact_value", **given_)
    exact = value("contact_value", method="exponential", **given_)
    assert cautious == pytest.approx(start * share * time)
    assert cautious * (1 - 1e-12) <= exact <= start * time * (1 + 1e-12)
    if share < 0.99:
        assert exact == pytest.approx(start * (1 - share) * time / -math.log(share), rel=1e-9)


def test_chlorine_that_rises_by_itself_is_a_mistake():
    given_ = {"start": 40, "end": 41, "time": 60}
    assert reason("contact_value", **given_) == {"code": "chlorine_has_risen"}
    assert reason("chlorine_decay_rate", **given_) == {"code": "chlorine_has_risen"}


@given(st.floats(6, 8.9), st.floats(0.5, 24), st.floats(0.2, 2.9), st.floats(0.5, 3))
def test_colder_more_alkaline_and_more_logs_need_more_contact(ph, temperature, chlorine, logs):
    given_ = {"ph": ph, "temperature": temperature, "chlorine": chlorine, "inactivation_log": logs}
    needed = value("giardia_contact_value", **given_)
    assert value("giardia_contact_value", **{**given_, "ph": ph + 0.1}) > needed
    assert value("giardia_contact_value", **{**given_, "inactivation_log": logs / 2}) == pytest.approx(
        needed / 2
    )
    if not 11.5 < temperature < 12.5:
        assert value("giardia_contact_value", **{**given_, "temperature": temperature + 1}) < needed


@pytest.mark.parametrize(
    ("logs", "ph", "temperature", "chlorine", "table"),
    [
        (3, 7, 5, 1, 149), (3, 8, 5, 1, 216), (3, 6, 5, 3, 126), (3, 9, 5, 3, 389),
        (3, 7, 15, 1, 75), (3, 8, 15, 1, 108), (3, 9, 15, 3, 195),
        (3, 7, 25, 1, 37), (3, 6, 25, 3, 32), (3, 9, 25, 3, 97),
    ],
)  # fmt: skip
def test_the_regression_is_never_below_the_table_of_the_epa(logs, ph, temperature, chlorine, table):
    """EPA 815-R-20-003, table B-1; the table is rounded to whole numbers."""
    found = value(
        "giardia_contact_value", inactivation_log=logs, ph=ph, temperature=temperature, chlorine=chlorine
    )
    assert table - 0.5 <= found <= 1.17 * table


@given(st.floats(1, 1000), st.floats(0.1, 100))
def test_neutralising_follows_the_mass_of_chlorine(volume, chlorine):
    given_ = {"volume": volume, "chlorine": chlorine}
    least = value("thiosulfate_needed", basis="theoretical", **given_)
    assert least == pytest.approx(0.875 * volume * chlorine / 1000, rel=1e-3)
    assert value("thiosulfate_needed", basis="field", **given_) > 2 * least


@given(st.floats(65, 95), st.floats(1, 1e4))
def test_ten_degrees_are_ten_times_the_effect(temperature, time):
    one = value("heat_a0", temperature=temperature, time=time)
    assert value("heat_a0", temperature=temperature + 10, time=time) == pytest.approx(10 * one)


def test_below_65_degrees_heat_does_not_count():
    assert value("heat_a0", temperature=64.99, time=1e6) == 0
    assert value("heat_a0", temperature=65, time=1000) == pytest.approx(1000 * 10**-1.5)
