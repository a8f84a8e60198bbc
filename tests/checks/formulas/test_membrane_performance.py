"""Comparing a membrane with its reference: the reference compared with itself is itself."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

temperatures = st.floats(1, 45)
forms = st.sampled_from(["two_range", "single", "power"])
pressures = st.floats(0.5, 50)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


@given(temperatures, forms)
def test_a_colder_membrane_passes_less_and_is_one_at_25_degrees(temperature, form):
    factor = value("membrane_temperature_factor", temperature=temperature, form=form)
    assert (factor < 1) is (temperature < 25)
    assert value("membrane_temperature_factor", temperature=25, form=form) == 1


@given(temperatures, forms, pressures, st.floats(0.1, 1e4))
def test_under_the_conditions_of_the_reference_nothing_is_changed(temperature, form, pressure, flow):
    same = value(
        "normalised_permeate_flow",
        flow=flow,
        driving_pressure=pressure,
        temperature=temperature,
        reference_driving_pressure=pressure,
        reference_temperature=temperature,
        form=form,
    )
    assert same == pytest.approx(flow)


@given(temperatures, forms, pressures, pressures, st.floats(0.1, 1e4))
def test_what_is_expected_of_a_rating_is_normalised_back_to_it(temperature, form, rated, driving, flow):
    expected = value(
        "expected_permeate_flow",
        rated_flow=flow,
        rated_driving_pressure=rated,
        driving_pressure=driving,
        temperature=temperature,
        form=form,
    )
    back = value(
        "normalised_permeate_flow",
        flow=expected,
        driving_pressure=driving,
        temperature=temperature,
        reference_driving_pressure=rated,
        reference_temperature=25,
        form=form,
    )
    assert back == pytest.approx(flow)


@given(temperatures, st.floats(0.01, 0.9), st.floats(0, 0.2), st.floats(0.1, 1e4), forms)
def test_salt_passage_under_the_conditions_of_the_reference_stays(temperature, recovery, passage, flow, form):
    same = value(
        "normalised_salt_passage",
        salt_passage=passage,
        flow=flow,
        temperature=temperature,
        recovery=recovery,
        reference_flow=flow,
        reference_temperature=temperature,
        reference_recovery=recovery,
        form=form,
    )
    assert same == pytest.approx(passage)


@given(pressures, st.floats(0, 0.4), st.floats(0, 0.05), st.floats(0, 800), temperatures)
def test_driving_pressure_is_what_the_other_pressures_leave(feed, drop, permeate, solids, temperature):
    given_ = {"feed_pressure": feed + 2, "pressure_drop": drop, "permeate_pressure": permeate}
    left = value(
        "net_driving_pressure", feed_dissolved_solids=solids, recovery=0, temperature=temperature, **given_
    )
    osmotic = value("osmotic_pressure", dissolved_solids=solids, temperature=temperature)
    assert left == pytest.approx(feed + 2 - drop / 2 - permeate - osmotic)


def test_a_pressure_that_cannot_overcome_the_osmotic_one_drives_nothing():
    outcome = FORMULAS["net_driving_pressure"].evaluate(
        {
            "feed_pressure": 1.0,
            "pressure_drop": 0.2,
            "permeate_pressure": 0.5,
            "feed_dissolved_solids": 2000,
            "recovery": 0.3,
            "temperature": 12,
        }
    )
    assert outcome.reason == {"code": "no_driving_pressure"}


@given(st.floats(0, 10000), temperatures)
def test_osmotic_pressure_rises_with_salt_and_warmth(solids, temperature):
    for form in ("d4516", "natural_water"):
        given_ = {"dissolved_solids": solids, "temperature": temperature, "form": form}
        more = {**given_, "dissolved_solids": solids + 10}
        assert value("osmotic_pressure", **more) > value("osmotic_pressure", **given_)
        warmer = {**given_, "temperature": temperature + 1}
        assert value("osmotic_pressure", **warmer) >= value("osmotic_pressure", **given_)


@given(st.floats(0.01, 5), st.floats(1, 100), st.floats(1, 100), st.floats(1, 2))
def test_a_pressure_drop_is_normalised_there_and_back(drop, flow, reference, exponent):
    there = value(
        "normalised_pressure_drop",
        pressure_drop=drop,
        mean_flow=flow,
        reference_mean_flow=min(reference, 4 * flow),
        exponent=exponent,
    )
    back = value(
        "normalised_pressure_drop",
        pressure_drop=min(there, 50),
        mean_flow=min(reference, 4 * flow),
        reference_mean_flow=flow,
        exponent=exponent,
    )
    assert back == pytest.approx(drop)
