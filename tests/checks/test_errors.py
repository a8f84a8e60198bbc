"""Every refusal has a class, a stable code and a sentence that says what to do."""

import pickle

import pytest

from checks import errors
from checks.catalogue import FORMULAS, find
from checks.units import Quantity


def test_an_unknown_formula_offers_near_names():
    with pytest.raises(
        errors.UnknownFormula, match=r"no formula named 'static_haed'\. Did you mean static_head"
    ):
        find("static_haed")


@pytest.mark.parametrize(
    ("values", "kind", "sentence"),
    [
        (
            {"heigth": 1},
            errors.UnknownInput,
            r"no input named 'heigth'\. The inputs are: height, temperature\.",
        ),
        (
            {},
            errors.MissingInput,
            r"Give a value for height \(height of the upper point above the lower one\)\.",
        ),
        ({"height": "tall"}, errors.NotANumber, r"height must be a number, like 6\.5; it was 'tall'\."),
        ({"height": Quantity(2, "s")}, errors.WrongUnit, r"height is given in second; give it in m\."),
        (
            {"height": 2e3},
            errors.OutsideRange,
            r"height is 2000 m; the formula holds from -1000 up to 1000 m\.",
        ),
    ],
)
def test_a_call_names_the_input_and_says_what_to_give(values, kind, sentence):
    with pytest.raises(kind, match=sentence):
        FORMULAS["static_head"](**values)


def test_a_range_that_excludes_its_end_says_above():
    with pytest.raises(
        errors.OutsideRange, match=r"flow is 0 L/min; the formula holds above 0 up to 1e\+15 L/min"
    ):
        FORMULAS["flow_velocity"](flow=0, bore=10)


def test_a_counted_number_must_be_whole():
    with pytest.raises(errors.NotWhole, match=r"count is counted, so give a whole number; it was 2\.5\."):
        FORMULAS["colony_count"](count=2.5, volume=1)


def test_a_size_outside_the_table_lists_the_sizes():
    with pytest.raises(
        errors.NotInTable, match=r"cross_section cannot be 3\. The table has: 0\.5, 0\.75, 1, 1\.5"
    ):
        FORMULAS["conductor_resistance"](cross_section=3, length=1, conductor_class=1)


def test_a_series_that_is_too_short_says_how_many_are_needed():
    with pytest.raises(errors.TooFewReadings, match=r"readings needs at least 2 readings; there are 1\."):
        FORMULAS["reading_trend"](readings=[1.0])


def test_a_word_outside_the_choice_lists_the_words():
    with pytest.raises(errors.UnknownChoice, match=r"side cannot be 'left'\. Choose one of: upper, lower\."):
        FORMULAS["acceptance_limit"](limit=1, side="left")


def test_an_answer_that_does_not_exist_carries_the_code_and_the_sentence_of_the_list():
    with pytest.raises(errors.NoResult, match="The limit is never reached") as caught:
        FORMULAS["washout_volumes"](start=50, limit=1, inflow=1)
    assert caught.value.code == "never_reached"


def test_every_class_of_the_tree_has_a_code_of_its_own():
    kinds = [
        kind
        for kind in vars(errors).values()
        if isinstance(kind, type) and issubclass(kind, errors.CheckError)
    ]
    codes = [kind.code for kind in kinds if kind is not errors.NoResult]
    assert len(codes) == len(set(codes))


def test_an_error_survives_pickling():
    error = errors.UnknownInput("heigth", inputs=["height"])
    again = pickle.loads(pickle.dumps(error))
    assert again.input == "heigth"
