"""Units convert as their definitions say, and numbers are read as people type them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.units import (
    OFFERED,
    REGISTRY,
    can_convert,
    conversion_slope,
    convert,
    read_typed,
    scale,
    spellings,
    unit_named,
)

# NIST Special Publication 811 (2008), appendix B, as printed there.
NIST = [
    (1, "psi", "kPa", 6.894757),
    (1, "gpm", "L/min", 3.785412),
    (1, "bar", "kPa", 100),
    (212, "degF", "degC", 100),
    (-40, "degF", "degC", -40),
    (0, "degC", "K", 273.15),
    (1, "gallon", "L", 3.785412),
    (1, "lb", "kg", 0.4535924),
]


@pytest.mark.parametrize(("value", "unit", "to", "printed"), NIST)
def test_conversions_are_those_of_nist_special_publication_811(value, unit, to, printed):
    assert convert(value, unit, to) == pytest.approx(printed, rel=1e-6)


@pytest.mark.parametrize(("typed", "milligrams"), [("1 °dH", 17.85), ("1 °fH", 10.0), ("1 gpg", 17.12)])
def test_degrees_of_hardness_are_calcium_carbonate(typed, milligrams):
    """10 mg/L of CaO by 100.087 / 56.077; DIN 38409-6 and ASTM D1126 conversion tables (from memory)."""
    read = read_typed(typed, "mg/L", ["mg/L", "dGH", "dfH", "grain/gallon"])
    assert read.value == pytest.approx(milligrams, abs=0.005)


@pytest.mark.parametrize("unit", OFFERED)
def test_every_offered_unit_is_known_and_converts_to_itself_exactly(unit):
    assert convert(0.1, unit, unit) == 0.1
    assert scale(unit).factor > 0


@pytest.mark.parametrize(
    ("unit", "to"), [("degC", "degF"), ("bar", "psi"), ("uS/cm", "mS/m"), ("m**3/h", "L/min")]
)
@given(value=st.floats(-1e6, 1e6))
def test_there_and_back_is_the_same_value(unit, to, value):
    assert convert(convert(value, unit, to), to, unit) == pytest.approx(value, rel=1e-12, abs=1e-9)


def test_resistivity_is_the_reciprocal_of_conductivity():
    assert convert(10, "Mohm cm", "uS/cm") == 0.1
    assert convert(0.1, "mS/m", "Mohm cm") == 1
    assert conversion_slope(10, "Mohm cm", "uS/cm") == pytest.approx(-0.01)


def test_a_reciprocal_of_zero_is_refused():
    with pytest.raises(ValueError, match="0 Mohm cm has no value in uS/cm"):
        convert(0, "Mohm cm", "uS/cm")


def test_units_of_different_things_are_refused():
    assert not can_convert("bar", "m")
    with pytest.raises(ValueError, match="bar cannot be given in m"):
        convert(1, "bar", "m")


def test_an_unknown_unit_is_a_key_error_that_names_it():
    with pytest.raises(KeyError, match="furlongs_per_moon"):
        scale("furlongs_per_moon")


@given(st.floats(-300, 300), st.sampled_from(["degC", "degF", "K"]), st.sampled_from(["degC", "degF", "K"]))
def test_pint_converts_temperatures_alike(value, unit, to):
    expected = REGISTRY.Quantity(value, unit).to(to).magnitude
    assert convert(value, unit, to) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("6.5", 6.5),
        ("6,5", 6.5),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("1.234", 1.234),
        ("1 234,5", 1234.5),
        ("1\u2009234\u2009567", 1234567),
        ("1,234,567", 1234567),
        ("0,123", 0.123),
        (",5", 0.5),
        ("5.", 5),
        ("+4", 4),
        ("\u22123", -3),
        ("1e-3", 0.001),
        ("1,5E2", 150),
        ("6,5 bar", 6.5),
        ("650 kPa", 6.5),
        ("650kPa", 6.5),
    ],
)
def test_a_typed_number_is_read(text, value):
    read = read_typed(text, "bar", ["bar", "kPa"])
    assert read.value == pytest.approx(value, rel=1e-15)
    assert read.problem is None


@pytest.mark.parametrize("text", ["", " ", "\u00a0"])
def test_nothing_typed_is_not_zero_and_no_problem(text):
    assert read_typed(text, "bar", ["bar"]) == read_typed("", "bar", ["bar"])
    assert read_typed(text, "bar", ["bar"]).value is None


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("abc", "not_a_number"),
        ("1 23", "not_a_number"),
        ("1.2.3", "not_a_number"),
        ("bar", "not_a_number"),
        ("1,234", "ambiguous_number"),
        ("999,000 bar", "ambiguous_number"),
        ("5 furlongs", "unknown_unit"),
        ("5 V", "wrong_unit"),
        ("1e999", "out_of_float_range"),
        ("1e-999", "out_of_float_range"),
    ],
)
def test_what_cannot_be_read_has_a_code_and_no_value(text, code):
    read = read_typed(text, "bar", ["bar", "kPa"])
    assert read.value is None
    assert read.problem["code"] == code


def test_an_ambiguous_number_tells_both_ways_of_writing_it():
    problem = read_typed("1,234", "bar", ["bar"]).problem
    assert (problem["decimal"], problem["whole"]) == ("1.234", "1234")


def test_the_unit_beside_the_number_counts_unless_one_is_typed():
    assert read_typed("650", "bar", ["bar", "kPa"], "kPa").value == 6.5
    assert read_typed("6.5 bar", "bar", ["bar", "kPa"], "kPa").value == 6.5


@given(st.floats(-1e12, 1e12, allow_subnormal=False).filter(lambda value: abs(value) > 1e-12))
def test_any_number_is_read_back_with_either_decimal_mark(value):
    text = f"{value:.6f}"
    if math.isclose(float(text), 0):
        return
    assert read_typed(text, "1", ["1"]).value == float(text)
    with_comma = read_typed(text.replace(".", ","), "1", ["1"])
    assert with_comma.value == float(text)


def test_upper_and_lower_case_matter_only_where_they_mean_something():
    assert unit_named("BAR") == "bar"
    assert unit_named("l/min") == "L/min"
    assert (unit_named("mohm"), unit_named("Mohm"), unit_named("MOHM")) == ("mohm", "Mohm", None)


def test_no_spelling_stands_for_two_units():
    named = {}
    for unit in OFFERED.values():
        for written in (unit.name, unit.label, *unit.aliases):
            if written:
                assert named.setdefault(written, unit.name) == unit.name
    assert set(spellings()[0].values()) == set(OFFERED)
