"""Published values: each row of the files beside this one, computed and compared as printed.

A row has the sentence that it states, the formula, its place in the source, the inputs with their
units, the expected value as the source prints it, and its unit. It must agree within half a step
of the last printed digit, or within `within` for the reason given in `because`.
"""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from checks.catalogue import FORMULAS
from checks.inputs import ANY, Choice
from checks.source import Source
from checks.units import Quantity, convert

FILES = sorted(Path(__file__).parent.glob("*.toml"))


def rows():
    for file in FILES:
        content = tomllib.loads(file.read_text(encoding="utf-8"))
        for row in content["rows"]:
            source = Source(
                content["work"], content["edition"], row["place"], row.get("seen", content["seen"])
            )
            yield pytest.param(source, row, id=f"{file.stem}: {row['name']}")


def given(text):
    """An input of a row: a choice word, a bare number, a list, or a number with its unit."""
    if not isinstance(text, str) or " " not in text:
        return text
    number, _, unit = text.partition(" ")
    return Quantity(float(number), unit)


def printed_step(expected):
    """Half a step of the last digit that the source prints."""
    return float(Decimal(1).scaleb(Decimal(expected).as_tuple().exponent)) / 2


@pytest.mark.parametrize(("source", "row"), list(rows()))
def test_the_printed_value_is_computed(source, row):
    formula = FORMULAS[row["formula"]]
    result = formula(**{name: given(value) for name, value in row["inputs"].items()})
    if formula.words:
        assert result == row["expected"], f"{source} says {row['expected']}, computed {result}"
        return
    unit = formula.unit if formula.unit != ANY else row["unit"]
    computed = convert(result.magnitude, unit, row["unit"])
    allowed = row.get("within", printed_step(row["expected"]) * (1 + 1e-9))
    assert "within" not in row or row["because"].strip()
    assert abs(computed - float(row["expected"])) <= allowed, (
        f"{source} prints {row['expected']} {row['unit']}, computed {computed:.8g}"
    )


def test_every_choice_in_a_row_is_a_word_of_its_formula():
    for file in FILES:
        for row in tomllib.loads(file.read_text())["rows"]:
            for name in row["inputs"]:
                assert name in FORMULAS[row["formula"]].inputs, f"{file.name}: {row['name']}"
                declared = FORMULAS[row["formula"]].inputs[name]
                assert not isinstance(declared, Choice) or str(row["inputs"][name]) in declared.options
