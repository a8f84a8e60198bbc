"""Silt, carbon and resin: edges of validity, and what must grow with what."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


def test_a_filter_plugged_beyond_the_limit_asks_for_a_shorter_interval():
    assert reason("silt_density_index", first_time=26, last_time=110) == {"code": "filter_plugged"}
    assert reason("silt_density_index", first_time=26, last_time=61, plugging_limit=0.5) == {
        "code": "filter_plugged"
    }
    assert value("silt_density_index", first_time=25, last_time=100) == pytest.approx(5)


def test_a_filter_does_not_become_faster():
    assert reason("silt_density_index", first_time=30, last_time=29) == {"code": "sdi_times_swapped"}
    assert value("silt_density_index", first_time=30, last_time=30) == 0


@given(st.floats(1, 100), st.floats(1.01, 3.9), st.floats(5, 15))
def test_a_slower_end_is_a_higher_index(first, ratio, interval):
    given_ = {"first_time": first, "interval": interval}
    assert value("silt_density_index", last_time=first * ratio, **given_) > value(
        "silt_density_index", last_time=first * (1 + ratio) / 2, **given_
    )


@given(st.floats(0.1, 1000), st.floats(0.1, 100))
def test_a_bed_is_filled_once_in_its_contact_time(volume, flow):
    minutes = value("empty_bed_contact_time", bed_volume=volume, flow=flow)
    assert minutes * flow == pytest.approx(volume)


@given(st.floats(1, 100), st.floats(0, 50), st.floats(0, 5))
def test_every_part_of_the_load_counts_once(conductivity, carbon_dioxide, silica):
    whole = value("deioniser_load", conductivity=conductivity, carbon_dioxide=carbon_dioxide, silica=silica)
    assert whole == pytest.approx(conductivity / 105 + carbon_dioxide / 44.01 + silica / 60.08)


@given(st.floats(5, 100), st.floats(5.5, 10))
def test_acid_in_the_conductivity_is_no_salt(conductivity, ph):
    given_ = {"conductivity": conductivity, "carbon_dioxide": 10}
    assert value("deioniser_load", ph=ph, **given_) < value("deioniser_load", **given_)


def test_more_acid_than_conductivity_is_a_contradiction():
    found = reason("deioniser_load", conductivity=2, carbon_dioxide=10, ph=5)
    assert found == {"code": "more_acid_than_conductivity"}


@given(st.floats(0.5, 50), st.floats(0.1, 1), st.floats(0.1, 1), st.floats(0.01, 10))
def test_the_load_of_the_whole_run_is_what_the_resin_takes(volume, capacity, utilisation, load):
    litres = value(
        "deioniser_run_volume", resin_volume=volume, capacity=capacity, utilisation=utilisation, load=load
    )
    assert litres * load / 1000 == pytest.approx(volume * capacity * utilisation)
