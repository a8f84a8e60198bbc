# ruff: noqa: RUF001 - the signs of mathematics are meant
"""The shown working looks like the source's equation, with symbols first and numbers after."""

import re
from xml.etree import ElementTree

import pytest

from checks.catalogue import FORMULAS
from checks.errors import MissingInput, NoResult
from checks.working import choices, plain_text, step_values, template, working


def texts(name, unit=None, **values):
    return [(line.formula_text, line.numbers_text) for line in working(FORMULAS[name], values, unit)]


def test_terms_stand_in_the_order_of_the_source():
    (line,) = texts("washout_concentration", volume=60, flow=4, time=15, start=50, inflow=0.2, unit="uS/cm")
    assert line == (
        "C = C_in + (C_0 − C_in) · e^(− (Q · t) / V)",
        "C = 0.2 + (50 − 0.2) · e^(− (4 · 15) / 60) = 18.5204 µS/cm",
    )


def test_named_steps_come_first_with_their_own_value():
    lines = texts(
        "relief_set_pressure_maximum",
        maximum_pressure=3,
        basis="hard",
        valve_family="en_1491",
        back_pressure=0.5,
    )
    assert lines[-2:] == [
        ("A = p − p_h − p_b", "A = 3 − 0 − 0.5 = 2.5 bar"),
        ("P_max = A / 1.2", "P_max = 2.5 / 1.2 = 2.08333 bar"),
    ]


def test_only_the_chosen_form_is_shown():
    linear = texts("resistance_at_temperature", resistance=1, temperature=20, target_temperature=70)
    hot = texts(
        "resistance_at_temperature",
        resistance=1,
        temperature=20,
        target_temperature=70,
        temperature_form="230",
    )
    assert "0.00393" in linear[0][0]
    assert "0.00393" not in hot[0][0]
    assert hot[0][1].endswith("= 1.2 Ω")


def test_a_negative_number_stands_in_brackets():
    (line,) = texts("elapsed_minutes", start=-60000, end=0)
    assert line[1] == "elapsed minutes = (0 − (−60000)) / 60000 = 1 min"


def test_a_list_shows_its_readings():
    assert "[1, 2, 3.5]" in texts("series_mean", readings=[1, 2, 3.5])[0][1]


def test_a_verdict_shows_its_word():
    assert texts("guarded_verdict", reading=9.5, expanded_uncertainty=1, upper=10)[-1][1].endswith(
        "= conditional_pass"
    )


def test_without_a_result_the_reason_is_raised():
    with pytest.raises(NoResult, match="The limit is never reached"):
        working(FORMULAS["washout_volumes"], {"start": 50, "limit": 1, "inflow": 2})
    with pytest.raises(MissingInput, match="Give a value for height"):
        step_values(FORMULAS["static_head"], {})


@pytest.mark.parametrize("name", FORMULAS)
def test_every_layout_is_well_formed_and_marks_only_what_there_is(name):
    formula = FORMULAS[name]
    for chosen in choices(formula):
        arranged = template(formula, chosen)
        bodies = [arranged.formula, *(body for *_, body in arranged.steps if body)]
        known = set(formula.inputs) | {f"#{step}" for step, *_ in arranged.steps}
        for body in bodies:
            assert set(re.findall(r"\{(#?[^{}]+)\}", body)) <= known
            ElementTree.fromstring(f"<math>{body}</math>")


def test_text_puts_brackets_where_a_fraction_or_a_power_needs_them():
    assert plain_text(
        "<math><mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mi>c</mi></mfrac></math>"
    ) == ("(a + b) / c")
    assert plain_text("<math><msup><mi>e</mi><mrow><mo>−</mo><mi>x</mi></mrow></msup></math>") == "e^(− x)"
