"""Table files: every table has its place and how we know it; keys rise; rules are known."""

import pytest

from checks.errors import DeclarationError
from checks.lookup import FOLDER, Table, grade_limits, read, tables
from checks.source import practice
from checks.units import scale

FILES = sorted(path.stem for path in FOLDER.glob("*.toml"))
ROW = ("1", "1", (0.0, 1.0), (1.0, 2.0), practice("made up for a test"))


@pytest.mark.parametrize("file", FILES)
def test_every_file_is_named_by_source_and_edition_and_reads(file):
    content = read(file)
    assert content["source"]["work"]
    assert content["source"]["edition"]
    for table in tables(file).values():
        assert table.source.work == content["source"]["work"]
        assert scale(table.key_unit)
        assert scale(table.value_unit)


def test_keys_must_rise():
    with pytest.raises(DeclarationError, match="keys of table trial must rise"):
        Table("trial", "exact", "1", "1", (1.0, 1.0), (1.0, 2.0), ROW[4])


def test_an_unknown_rule_is_refused():
    with pytest.raises(DeclarationError, match="exact, step_down, linear, not 'nearest'"):
        Table("trial", "nearest", *ROW)


def test_a_grade_limit_says_in_which_sense_it_holds():
    senses = {(limit.grade, limit.parameter): limit.sense for limit in grade_limits()}
    assert senses["clsi_clrw", "colony_count_maximum"] == "<"
    assert senses["astm_d1193_1", "resistivity_minimum"] == ">="
    assert set(senses.values()) <= {"<=", "<", ">=", ">"}


def test_no_grade_has_two_limits_for_one_thing():
    named = [(limit.grade, limit.parameter) for limit in grade_limits()]
    assert len(named) == len(set(named))
