"""Every code that the engine can give has a sentence that says what to do, without a technical name in it."""

import re
from pathlib import Path

import pytest

from checks import errors, messages
from checks.catalogue import FORMULAS
from checks.messages import SENTENCES, STATES, VERDICTS, sentence

CHECKS = Path(messages.__file__).parent
SOURCES = [
    path.read_text(encoding="utf-8") for path in [*CHECKS.glob("*.py"), *CHECKS.glob("procedure/*.py")]
]
CODES = {code for text in SOURCES for code in re.findall(r'"code": "([a-z_0-9]+)"', text)}


def test_every_code_in_the_sources_has_a_sentence():
    assert len(CODES) > 25
    assert {code for code in CODES if code not in SENTENCES} == set()


def test_every_refusal_of_a_formula_has_a_sentence():
    assert {refusal.code for formula in FORMULAS.values() for refusal in formula.refusals} <= set(SENTENCES)


def test_every_verdict_and_state_of_the_contract_has_a_word_and_a_meaning():
    assert set(VERDICTS) == {
        "pass",
        "conditional_pass",
        "conditional_fail",
        "fail",
        "not_measured",
        "pending",
        "not_applicable",
        "instrument_not_good_enough",
        "no_valid_setting",
    }
    assert set(STATES) == {
        "held",
        "waiting",
        "open",
        "done",
        "recheck",
        "not_done",
        "not_applicable",
        "incomplete",
        "complete",
    }
    assert all(one["word"] and one["meaning"].endswith(".") for one in [*VERDICTS.values(), *STATES.values()])


@pytest.mark.parametrize("code", SENTENCES)
def test_sentences_are_whole_and_calm(code):
    for text in SENTENCES[code]:
        assert text[0].isupper() or text[0] in "“{"
        assert text.endswith((".", "{reason}", "{because}", "?"))
        assert "!" not in text
        assert not re.search(r"\b(please|sorry|invalid|error|illegal)\b", text, re.IGNORECASE)


def test_the_first_sentence_whose_details_are_all_known_is_taken():
    assert "from 0 to 5" in sentence("outside_range", input="x", value=7, minimum=0, maximum=5)
    assert "holds up to 5" in sentence("outside_range", input="x", value=7, minimum=None, maximum=5)
    assert "holds from 0." in sentence("outside_range", input="x", value=-7, minimum=0, maximum=1e15)
    assert (
        sentence("outside_range") == "The formula does not hold for this value. Check the value and its unit."
    )


def test_a_reason_can_be_given_whole():
    assert sentence({"code": "calibration_overdue", "name": "Gauge", "due": "2026-01-01"}).startswith(
        "The calibration of Gauge ran out"
    )


def test_numbers_are_shown_with_six_digits_and_lists_with_commas():
    assert "cannot be 3.14159" in sentence("not_in_table", input="x", value=3.14159265, options=[1, 2.50])
    assert "1, 2.5" in sentence("not_in_table", input="x", value=3.14159265, options=[1, 2.50])


def test_kinds_are_words_and_plain_numbers_have_no_unit():
    details = {"name": "Gauge 7", "kind": "pressure_gauge", "wanted": "voltage_tester"}
    assert (
        sentence("wrong_instrument", **details) == "Gauge 7 is a pressure gauge; this needs a voltage tester."
    )
    told = sentence("outside_possible", value=11, minimum=0, maximum=10, unit="1")
    assert told.startswith("11 cannot be: it lies outside 0 to 10.")


def test_units_are_written_as_on_the_pages():
    told = sentence("outside_possible", value=101, minimum=0, maximum=100, unit="degC")
    assert told.startswith("101 °C cannot be: it lies outside 0 to 100 °C.")
    assert "Use one of: Ω, mΩ." in sentence("wrong_unit", unit="mW/cm**2", units=["ohm", "mohm"])


def test_an_uncertainty_that_is_needed_is_never_told_larger_and_one_that_is_there_never_smaller():
    """By hand, two digits: 0.41176 up is 0.42, and half of 0.3 - 0.1 is 0.1, which binary numbers miss."""
    told = sentence("window_too_narrow", expanded=0.41176, needed=(0.3 - 0.1) / 2, unit="bar")
    assert "±0.42 bar" in told
    assert "±0.1 bar" in told
    assert "±0.059 bar" in sentence("window_too_narrow", expanded=1, needed=0.0599, unit="bar")
    assert "±10 bar" in sentence("no_reading_can_pass", expanded=9.901, unit="bar")


def test_an_interval_without_a_value_is_told_without_one_however_near_its_ends_lie():
    """By hand: 2.10001 up is 2.101, 2.1 down is 2.1; days are whole and stay so."""
    told = sentence("lower_above_upper", lower=2.10001, upper=2.1, unit="bar")
    assert "2.101 bar is above the highest, 2.1 bar" in told
    days = sentence("lower_above_upper", lower=20781, upper=20780, unit="date")
    assert "20781" in days


def test_a_code_without_a_sentence_says_itself():
    assert sentence("something_new") == "something new"


def test_the_generated_module_is_that_of_the_list():
    generated = Path(messages.__file__).parents[1] / "static" / "generated" / "messages.js"
    assert generated.read_text(encoding="utf-8") == messages.javascript(), "Run: python -m checks.generate"


def test_errors_of_the_package_have_codes_of_their_own():
    kinds = [
        kind
        for kind in vars(errors).values()
        if isinstance(kind, type) and issubclass(kind, errors.CheckError)
    ]
    assert len({kind.code for kind in kinds}) >= len(kinds) - 1
