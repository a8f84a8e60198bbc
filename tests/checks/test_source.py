"""A source says where a number comes from, or it does not exist."""

import pytest

from checks.catalogue import FORMULAS
from checks.errors import DeclarationError
from checks.source import COMMON_PRACTICE, Source, practice


@pytest.mark.parametrize("blank", range(3))
def test_a_blank_part_is_refused(blank):
    parts = ["ISO 1", "2016", "clause 1", "seen"]
    parts[blank] = " "
    with pytest.raises(DeclarationError, match="A source needs its"):
        Source(*parts)


def test_how_we_know_must_be_one_of_three_words():
    with pytest.raises(DeclarationError, match="not 'surely'"):
        Source("ISO 1", "2016", "clause 1", "surely")


def test_a_rule_of_thumb_says_that_it_has_no_source():
    assert practice("a margin of 0.1 bar").seen == COMMON_PRACTICE


def test_every_formula_has_a_source():
    assert all(formula.sources for formula in FORMULAS.values())
