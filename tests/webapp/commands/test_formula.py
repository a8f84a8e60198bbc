"""firstwater formula: what is evaluated, what is refused, and how."""

import json

import pytest

from checks.catalogue import FORMULAS
from tests.checks.formulas.test_validity_edges import accepted


def evaluated(firstwater, *arguments):
    ended = firstwater("formula", *arguments, "--json")
    assert ended.err == ""
    return ended.status, json.loads(ended.out)


def test_every_formula_is_listed_with_unit_and_meaning(firstwater):
    lines = firstwater("formula", "list").out.splitlines()
    assert [line.split()[0] for line in lines] == list(FORMULAS)
    assert "static_head" in firstwater("formula", "list", "standing", "water").out


def test_the_list_for_programs_carries_inputs_and_sources(firstwater):
    listed = {one["name"]: one for one in json.loads(firstwater("formula", "list", "--json").out)}
    head = listed["static_head"]
    assert head["unit"] == "bar"
    assert head["inputs"]["temperature"]["default"] == 15
    assert head["sources"][0]["work"]


@pytest.mark.parametrize("name", FORMULAS)
def test_every_formula_says_what_it_takes(firstwater, name):
    ended = firstwater("formula", name, "--help")
    assert ended.status == 0
    assert all(given in ended.out for given in FORMULAS[name].inputs)
    assert "Sources:" in ended.out


def test_the_object_for_programs_has_the_agreed_members(firstwater):
    status, answer = evaluated(firstwater, "parallel_resistance", "resistances=1.2, 0.8")
    assert status == 0
    assert set(answer) == {"name", "value", "unit", "inputs", "valid", "warnings", "sources"}
    assert answer["value"] == pytest.approx(0.48)  # 1.2 x 0.8 / (1.2 + 0.8)
    assert answer["inputs"] == {"resistances": [1.2, 0.8]}
    assert (answer["valid"], answer["warnings"]) == (True, [])


# 40 ft are 12.192 m exactly (the foot of 1959 is 0.3048 m); 59 degF are 15 degC.
@pytest.mark.parametrize("height", ["40 ft", "12192mm", "12.192", "12.192 m", "1219.2 cm"])
def test_any_compatible_unit_is_taken(firstwater, height):
    _, answer = evaluated(firstwater, "static_head", f"height={height}", "temperature=59 °F")
    assert answer["inputs"] == {"height": pytest.approx(12.192), "temperature": pytest.approx(15)}


def test_a_decimal_comma_is_read(firstwater):
    _, answer = evaluated(firstwater, "static_head", "height=1,5")
    assert answer["inputs"]["height"] == 1.5


def test_a_number_that_can_be_read_in_two_ways_is_refused(firstwater):
    ended = firstwater("formula", "static_head", "height=1,500")
    assert ended.status == 2
    assert "height: “1,500” can be read in two ways" in ended.err


@pytest.mark.parametrize(
    "text",
    [
        "0.5 0.6 0.7 ohm",
        "0.5, 0.6, 0.7 ohm",
        "0,5; 0,6; 0,7 ohm",
        "[0.5, 0.6, 0.7]",
    ],
)
def test_a_list_is_read_however_it_is_separated(firstwater, text):
    _, answer = evaluated(firstwater, "parallel_resistance", f"resistances={text}")
    assert answer["value"] == pytest.approx(1 / (1 / 0.5 + 1 / 0.6 + 1 / 0.7))


def test_the_readings_of_a_list_may_have_units_of_their_own(firstwater):
    _, answer = evaluated(firstwater, "parallel_resistance", "resistances=1200 mohm, 0.8 ohm")
    assert (answer["value"], answer["unit"]) == (pytest.approx(480), "mohm")


def test_a_list_may_be_given_one_by_one(firstwater):
    _, answer = evaluated(firstwater, "parallel_resistance", "resistances=1.2", "resistances=0.8")
    assert answer["value"] == pytest.approx(0.48)


def test_quantities_of_one_kind_share_the_unit_they_are_given_in(firstwater):
    given = ["volume=10", "flow=2", "time=5", "start=1 mS/cm", "inflow=0"]
    _, answer = evaluated(firstwater, "washout_concentration", *given)
    assert answer["unit"] == "mS/cm"
    assert answer["value"] == pytest.approx(0.36787944117144233)  # 1/e: one volume has passed


def test_outside_the_range_there_is_no_result_and_the_range_is_named(firstwater):
    status, answer = evaluated(firstwater, "static_head", "height=12", "temperature=120")
    assert status == 1
    assert (answer["value"], answer["valid"]) == (None, False)
    assert "from 0 up to 100" in answer["warnings"][0] or "from 0 to 100" in answer["warnings"][0]


def test_a_result_that_does_not_exist_says_why(firstwater):
    status, answer = evaluated(firstwater, "washout_volumes", "start=100", "limit=5", "inflow=8")
    assert status == 1
    assert (answer["value"], answer["valid"]) == (None, False)
    assert answer["warnings"] == [
        "The limit is never reached: the water that flows in is not below it. "
        "Look for a cleaner inflow first."
    ]


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["static_haed"], "There is no formula named 'static_haed'. Did you mean static_head?"),
        (["static_head", "hight=3"], "There is no input named 'hight'. Did you mean height?"),
        (["zzz"], "There is no formula named 'zzz'. To list them: firstwater formula list."),
        (["date_after", "start=2023-02-29", "days=1"], "start: This is not a date. Write it as 2026-11-25."),
        (["static_head"], "Give a value for height"),
        (["static_head", "height=3 bar"], "height is given in bar; give it in m."),
        (
            ["static_head", "height=3 elbow"],
            "height is given in 'elbow', which is no known unit; give it in m.",
        ),
        (["static_head", "height=tall"], "height must be a number, like 6.5; it was 'tall'."),
        (["static_head", "height"], "'height' is no input; write input=value, like height=1."),
        (["static_head", "height=1", "height=2"], "height is given twice; give it once."),
        (
            ["conductor_resistance", "cross_section=1.5", "length=1", "conductor_class=3"],
            "conductor_class cannot be '3'. Choose one of: 1, 2, 5.",
        ),
    ],
)
def test_bad_input_is_one_line_that_names_it(firstwater, arguments, sentence):
    ended = firstwater("formula", *arguments)
    assert (ended.status, ended.out) == (2, "")
    assert sentence in ended.err
    assert ended.err.count("\n") == 1


def arguments_for(formula, values):
    """The inputs as they are typed: with their unit where they have one, lists between semicolons."""
    for name, value in values.items():
        unit = getattr(formula.inputs[name], "unit", "1")
        texts = [str(one) for one in (value if isinstance(value, list) else [value])]
        plain = unit in ("1", "any", "date") or "inf" in texts
        yield f"{name}={'; '.join(text if plain else f'{text} {unit}' for text in texts)}"


def test_every_formula_answers_in_the_agreed_form(firstwater):
    """Each with accepted inputs: the value that the engine has, or null with the reason in words."""
    answered = 0
    for name, formula in FORMULAS.items():
        values = accepted(formula)
        status, answer = evaluated(firstwater, name, *arguments_for(formula, values))
        outcome = formula.evaluate(values)
        assert set(answer) == {"name", "value", "unit", "inputs", "valid", "warnings", "sources"}
        assert (answer["name"], status) == (name, 0 if answer["valid"] else 1)
        assert answer["valid"] == (answer["value"] is not None) == (answer["warnings"] == [])
        assert answer["valid"] == (outcome.value is not None), (name, values, answer)
        assert answer["sources"][0].keys() == {"work", "edition", "place", "seen"}
        if isinstance(outcome.value, float):
            assert answer["value"] == pytest.approx(outcome.value, rel=1e-9, abs=1e-12), (name, values)
        answered += answer["valid"]
    assert answered > len(FORMULAS) / 2


@pytest.mark.parametrize("coefficient", ["0.02 1/K", "0,02 /K", "0.02", "2e-2 1/K"])
def test_a_unit_may_begin_with_a_digit(firstwater, coefficient):
    given = ["conductivity=100", "temperature=20", f"coefficient={coefficient}"]
    _, answer = evaluated(firstwater, "uncompensated_conductivity", *given)
    assert answer["inputs"]["coefficient"] == pytest.approx(0.02)


def test_a_date_is_given_as_a_date(firstwater):
    """2024 is a leap year; a program gets whole days since 1970-01-01."""
    out = firstwater("formula", "date_after", "start=2024-02-28", "days=2").out
    assert out.startswith("date_after = 2024-03-01")
    _, answer = evaluated(firstwater, "date_after", "start=1970-01-31", "days=1")
    assert (answer["value"], answer["unit"]) == (31, "date")


def test_people_read_result_inputs_defaults_and_source(firstwater):
    out = firstwater("formula", "static_head", "height=12").out
    assert out.startswith("static_head = ")
    assert "15 degC (default)" in out
    assert "Source: " in out


@pytest.mark.parametrize(("given", "kelvin"), [("2", 2), ("2 K", 2), ("2 °C", 2), ("9 degF", 5)])
def test_a_temperature_difference_may_be_given_in_degrees(firstwater, given, kelvin):
    section = ["volume=2", "pressure_drop=0.5", "duration=10", "absolute_pressure=7", "outer_diameter=15"]
    tube = [
        "wall=1",
        "youngs_modulus=200",
        "poisson_ratio=0.3",
        "expansion_coefficient=1.6e-5",
        "temperature=15",
    ]
    _, answer = evaluated(firstwater, "leak_rate", *section, *tube, f"temperature_change={given}")
    assert answer["inputs"]["temperature_change"] == pytest.approx(kelvin)


def test_the_working_shows_symbols_and_numbers(firstwater):
    out = firstwater("formula", "flow_velocity", "flow=6", "bore=10", "--working").out
    assert "Working: " in out
    assert " 6 " in out.split("Working: ")[1]
    assert out.splitlines()[0].split(" = ")[1].split()[0] in out.split("Working: ")[1]


def test_the_working_for_programs(firstwater):
    _, answer = evaluated(firstwater, "flow_velocity", "flow=6", "bore=10", "--working")
    assert {"meaning", "formula", "numbers"} == set(answer["working"][0])
