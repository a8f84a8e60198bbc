"""Declaring a formula, and what calling, evaluating and differentiating it promise."""

import math

import pytest

from checks.catalogue import FORMULAS
from checks.errors import DeclarationError
from checks.expressions import pick
from checks.formula import DECLARED, Choice, Input, Refusal, formula
from checks.source import practice
from checks.units import Quantity

THUMB = practice("made up for a test")


def declare(function, **declared):
    """Declare a formula and take it out of the catalogue again."""
    declared.setdefault("source", THUMB)
    try:
        return formula(result_unit="bar", **declared)(function)
    finally:
        DECLARED.pop(function.__name__, None)


def trial(height):
    """Twice the height."""
    return 2 * height


def test_without_a_source_it_cannot_be_declared():
    with pytest.raises(DeclarationError, match="trial has no source"):
        declare(trial, source=(), height=Input("m", "height"))


def test_declared_inputs_must_be_the_parameters_of_the_function():
    with pytest.raises(DeclarationError, match="trial declares depth and takes height"):
        declare(trial, depth=Input("m", "depth"))


def test_without_a_docstring_it_cannot_be_declared():
    def silent(height):
        return height

    with pytest.raises(DeclarationError, match="silent has no docstring"):
        declare(silent, height=Input("m", "height"))


def test_two_formulas_cannot_have_one_name():
    def static_head(height):
        """Something else."""
        return height

    known = DECLARED["static_head"]
    with pytest.raises(DeclarationError, match="two formulas named static_head"):
        formula(result_unit="bar", source=THUMB, height=Input("m", "height"))(static_head)
    assert DECLARED["static_head"] is known


def test_an_unknown_unit_or_a_missing_meaning_is_refused():
    with pytest.raises(DeclarationError, match="'cubits' is no unit"):
        Input("cubits", "height")
    with pytest.raises(DeclarationError, match="needs its meaning"):
        Input("m", " ")


def test_a_refusal_needs_a_sentence():
    with pytest.raises(DeclarationError, match="Write a sentence for 'no_such_code'"):
        Refusal("no_such_code", lambda result: result < 0)


def test_a_choice_needs_an_expression_for_every_word():
    def chosen(form):
        """By form."""
        return pick(form, {"one": 1})

    made = declare(chosen, form=Choice({"one": "", "two": ""}, "form"))
    with pytest.raises(TypeError, match="an expression for each of one, two"):
        made.evaluate({"form": "one"})


def test_bare_numbers_count_in_the_declared_unit_and_quantities_are_converted():
    head = FORMULAS["static_head"]
    assert head(height=Quantity(1000, "mm")).to("bar").magnitude == head(height=1).magnitude
    assert head(height=1).to("kPa").magnitude == pytest.approx(9.798, abs=5e-4)


def test_inputs_of_any_unit_share_the_unit_of_the_first_and_so_does_the_result():
    left = FORMULAS["washout_concentration"](
        volume=60,
        flow=4,
        time=15,
        start=Quantity(5, "mS/m"),
        inflow=Quantity(2, "uS/cm"),
    )
    expected = FORMULAS["washout_concentration"].evaluate(
        {"volume": 60, "flow": 4, "time": 15, "start": 50, "inflow": 2}
    )
    assert left.to("uS/cm").magnitude == pytest.approx(expected.value)


def test_a_series_may_be_quantities_of_several_units():
    mean = FORMULAS["series_mean"](readings=[Quantity(1, "bar"), Quantity(300, "kPa")])
    assert mean.to("bar").magnitude == pytest.approx(2)


@pytest.mark.parametrize("name", FORMULAS)
def test_neither_nothing_nor_nonsense_raises_or_leaks_infinity(name):
    declared = FORMULAS[name]
    for odd in (None, "x", math.inf, -math.inf, math.nan, True, [], {}, 1e300, -1e300, 0, -1):
        outcome = declared.evaluate(dict.fromkeys(declared.inputs, odd))
        assert (outcome.value is None) is (outcome.reason is not None)
        if isinstance(outcome.value, float):
            assert math.isfinite(outcome.value)


@pytest.mark.parametrize("name", [name for name, declared in FORMULAS.items() if declared.measured])
def test_the_edge_of_validity_belongs_to_it_and_beyond_there_is_a_reason(name):
    declared = FORMULAS[name]
    for one in declared.measured:
        given = declared.inputs[one]
        for end, outwards, closed in (
            (given.minimum, -1, True),
            (given.maximum, 1, True),
            (given.above, -1, False),
            (given.below, 1, False),
        ):
            if end is None:
                continue
            assert (given._outside(one, end) is None) is closed
            beyond = end + outwards * 1e-6 * max(1.0, abs(end))
            assert given._outside(one, beyond)["code"] == "outside_range"


def sane(declared):
    """A value inside the range of every input; the middle of it where it has two ends."""
    values = {}
    for name, given in declared.inputs.items():
        if isinstance(given, Choice):
            values[name] = next(iter(given.options))
        elif given.among:
            values[name] = given.among[0]
        else:
            low = given.lowest if given.lowest is not None else 0.0
            middle = (low + given.highest) / 2 if given.highest is not None else low + 1.0
            values[name] = [middle, middle * 1.1] if hasattr(given, "at_least") else min(middle, low + 17.3)
    return {**values, **SPECIAL.get(declared.name, {})}


WATER = {"ph": 7.7, "temperature": 15.0, "calcium": 60.0, "alkalinity": 140.0, "dissolved_solids": 332.0}
BALANCE = {"feed_conductivity": 620.0, "permeate_conductivity": 14.0, "concentrate_conductivity": 870.0}
DECAY = {"start": 50.0, "end": 40.0, "time": 60.0}
SECTION = {"outer_diameter": 18.0, "wall": 1.0, "youngs_modulus": 193.0, "temperature": 20.0}
COUNTED = {"count": 5, "volume": 10.0}
SPECIAL = {
    "coverage_factor": {"degrees_of_freedom": 7.8},
    "acceptance_limit": {"limit": 10.0, "accuracy_of_reading": 0.02, "accuracy_absolute": 0.1},
    "colony_count": COUNTED,
    "colony_count_lower": COUNTED,
    "colony_count_upper": COUNTED,
    "conductivity_at_25": {"conductivity": 1.0, "temperature": 17.3},
    "resistivity_at_25": {"resistivity": 1.0, "temperature": 17.3},
    "washout_volumes": {"start": 50.0, "limit": 2.0, "inflow": 0.5},
    "washout_time": {"start": 50.0, "limit": 2.0, "inflow": 0.5},
    "relief_set_pressure_maximum": {"maximum_pressure": 6.0, "valve_height": 1.0, "back_pressure": 0.2},
    "relief_set_pressure_minimum": {"rest_pressure": 1.6},
    "regulator_failed_open_flow": {"supply_pressure": 6.0, "relieving_pressure": 2.75},
    "conformance_probability": {"reading": 1.0, "lower": 0.0, "upper": 2.0},
    "standard_uncertainty": {"reading": 10.0, "accuracy_of_reading": 0.02, "resolution": 0.1},
    "cord_bonding_limit": {"length": 9.0},
    "natural_conductivity_at_25": {"temperature": 12.4},
    "effective_degrees_of_freedom": {"uncertainties": [0.2, 0.3], "degrees": [4.0, 9.0]},
    "volume_to_demonstrate": {"limit": 10.0, "count": 3},
    "free_carbon_dioxide": {"alkalinity": 140.0, "ph": 7.7, "temperature": 15.0, "conductivity": 500.0},
    "langelier_index": WATER,
    "concentrate_langelier_index": {**WATER, "recovery": 0.5},
    "maximum_recovery": {**WATER, "index_limit": 1.0},
    "salt_passage": {"recovery": 0.3},
    "salt_rejection": {"recovery": 0.3},
    "recovery_from_conductivity": BALANCE,
    "concentrate_conductivity": {"feed_conductivity": 620.0, "recovery": 0.3},
    "salt_balance_error": BALANCE,
    "mean_feed_concentration_factor": {"recovery": 0.3},
    "membrane_temperature_factor": {"temperature": 12.0},
    "net_driving_pressure": {
        "feed_pressure": 9.0,
        "pressure_drop": 0.3,
        "permeate_pressure": 0.5,
        "recovery": 0.3,
    },
    "normalised_salt_passage": {"recovery": 0.3, "reference_recovery": 0.28},
    "silt_density_index": {"first_time": 26.0, "last_time": 37.5},
    "deioniser_load": {"conductivity": 14.0, "carbon_dioxide": 18.0, "ph": 5.6},
    "annular_uv_fluence": {"transmittance_10mm": 0.9, "inner_radius": 1.2, "outer_radius": 2.7},
    "scaled_uv_fluence": {"certified_flow": 3.0, "flow": 4.0},
    "chlorine_decay_rate": DECAY,
    "contact_value": DECAY,
    "giardia_contact_value": {"temperature": 10.0},
    "heat_a0": {"temperature": 82.0},
    "friction_factor": {"reynolds_number": 2e4, "relative_roughness": 1e-4},
    "pipe_pressure_loss": {"flow": 12.0, "bore": 16.2, "roughness": 0.0015, "temperature": 22.0},
    "gravity_drain_capacity": {"diameter": 50.0, "slope": 0.02, "depth_ratio": 0.5},
    "supply_pressure_at_flow": {
        "static_pressure": 4.6,
        "dynamic_pressure": 3.4,
        "test_flow": 8.0,
        "flow": 9.0,
    },
    "air_gap_minimum": {"inlet_bore": 12.7},
    "date_after_use": {"start": 20000.0, "life": 100.0, "used": 40.0, "per_day": 7.0},
    "smaller_of": {"first": 3.0, "second": 4.0},
    "larger_of": {"first": 3.0, "second": 4.0},
    "water_hammer_pressure": SECTION,
    "thermal_pressure_drift": SECTION,
    "leak_rate": {**SECTION, "pressure_drop": 0.2, "temperature_change": -0.03, "air_volume": 5.0},
}


@pytest.mark.parametrize("name", [name for name, declared in FORMULAS.items() if declared.measured])
def test_sensitivities_are_the_slopes_that_small_changes_show(name):
    declared = FORMULAS[name]
    values = sane(declared)
    slopes = declared.sensitivities(values)
    assert list(slopes) == declared.measured
    for one in declared.measured:
        step = 1e-5 * max(abs(first(values[one])), 1e-3)
        ahead, behind = (declared.evaluate({**values, one: shifted(values[one], by)}) for by in (step, -step))
        assert ahead.reason is None, (one, ahead)
        assert behind.reason is None, (one, behind)
        change = (ahead.value - behind.value) / (2 * step)
        assert slopes[one] == pytest.approx(change, rel=1e-4, abs=1e-8 * abs(ahead.value) / step), one


def first(value):
    return value[0] if isinstance(value, list) else value


def shifted(value, by):
    return [one + by for one in value] if isinstance(value, list) else value + by


def test_two_formulas_may_give_one_name_to_different_words():
    first_, second = (
        Choice(dict.fromkeys(words, "a word"), "kind").make_symbol("kind") for words in ("ab", "cde")
    )
    assert (first_.options, second.options) == (("a", "b"), ("c", "d", "e"))
    assert first_ != second
    assert first_ == Choice(dict.fromkeys("ab", "a word"), "kind").make_symbol("kind")
