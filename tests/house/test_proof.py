"""Every formula is proved in three ways: by something from outside, at its edges, and by a law it obeys."""

import ast
import tomllib
from functools import cache
from pathlib import Path

import pytest

from checks.catalogue import FORMULAS
from tests.oracles.deviations import COMPARISONS

TESTS = Path(__file__).parents[1]
REFERENCE = TESTS / "reference"
SUBJECTS = TESTS / "checks" / "formulas"
ORACLES = TESTS / "oracles"
LOOPS = (ast.For, ast.comprehension, ast.While)


@cache
def module(path):
    return ast.parse(path.read_text(encoding="utf-8"))


def texts_in(node):
    """Every text that stands in a piece of code."""
    return {
        one.value for one in ast.walk(node) if isinstance(one, ast.Constant) and isinstance(one.value, str)
    }


def functions(*folders):
    for folder in folders:
        for path in sorted(folder.glob("*.py")):
            yield from (one for one in module(path).body if isinstance(one, ast.FunctionDef))


@cache
def with_published_values():
    """The formulas with a row in tests/reference; its file names work and edition, the row the place."""
    found = set()
    for path in REFERENCE.glob("*.toml"):
        content = tomllib.loads(path.read_text(encoding="utf-8"))
        assert all(content[part].strip() for part in ("work", "edition", "seen")), path.name
        found |= {row["formula"] for row in content["rows"] if row["place"].strip()}
    return found


def with_libraries():
    """The formulas that tests/oracles compares with a library written by others, over a range.

    `test_deviations.py` runs over this very table, so that nothing is named without being compared.
    """
    return {comparison.formula for comparison in COMPARISONS}


@cache
def with_laws():
    """The formulas named in a test that runs over many inputs: drawn, listed, or in a loop."""
    found = set()
    for function in functions(SUBJECTS, ORACLES):
        decorators = " ".join(ast.unparse(one) for one in function.decorator_list)
        over_many = "given(" in decorators or "parametrize(" in decorators
        if over_many or any(isinstance(one, LOOPS) for one in ast.walk(function)):
            found |= texts_in(function)
    tables = [node for path in SUBJECTS.glob("*.py") for node in module(path).body if is_table(node)]
    return (found | {text for node in tables for text in texts_in(node)}) & set(FORMULAS)


def is_table(node):
    """A table of cases at the top of a test module, which its tests run over."""
    return isinstance(node, ast.Assign) and isinstance(node.value, ast.List | ast.Tuple | ast.Dict)


@pytest.mark.parametrize("name", FORMULAS)
def test_every_formula_is_held_against_something_outside(name):
    assert name in with_published_values() | with_libraries(), (
        f"{name} rests on nothing from outside. Add a row to a file of tests/reference with the work, "
        "edition and place that print a value, or a comparison with a library to a table of tests/oracles."
    )


def test_every_comparison_is_carried_out():
    """The test of tests/oracles takes the table as it is, and its bound can be missed."""
    carried_out = next(
        one for one in functions(ORACLES) if one.name == "test_no_deviation_is_larger_than_its_bound"
    )
    assert "pytest.mark.parametrize('comparison', COMPARISONS" in ast.unparse(carried_out.decorator_list[0])
    assert all(comparison.points for comparison in COMPARISONS)


@pytest.mark.parametrize("comparison", COMPARISONS, ids=lambda one: f"{one.formula}: {one.over}")
def test_no_comparison_asks_the_formula_that_it_compares(comparison, monkeypatch):
    monkeypatch.delitem(FORMULAS, comparison.formula)
    for point in (comparison.points[0], comparison.points[-1]):
        comparison.expected(point)


@pytest.mark.parametrize("name", FORMULAS)
def test_every_formula_has_a_law(name):
    assert name in with_laws(), (
        f"No test runs {name} over many inputs. Add one to tests/checks/formulas: what stays the same, grows "
        "or comes back when its inputs change, whatever the numbers are."
    )


def test_the_ends_of_every_formula_s_ranges_are_tried():
    tried = [one for one in functions(SUBJECTS) if one.name.startswith("test_beyond_an_end_")]
    tried += [one for one in functions(SUBJECTS) if one.name.startswith("test_up_to_an_end_")]
    decorators = {ast.unparse(decorator) for one in tried for decorator in one.decorator_list}
    assert len(tried) == 2
    assert decorators == {"pytest.mark.parametrize('name', FORMULAS)"}, (
        "tests/checks/formulas/test_validity_edges.py tries the ends of all formulas of the catalogue."
    )


@pytest.mark.parametrize("name", [name for name, one in FORMULAS.items() if one.refusals])
def test_every_refusal_of_a_formula_is_reached(name):
    own = set().union(*(texts_in(module(path)) for path in SUBJECTS.glob("*.py")))
    untried = [refusal.code for refusal in FORMULAS[name].refusals if refusal.code not in own]
    assert not untried, (
        f"{name} refuses with {', '.join(untried)}, which no test of tests/checks/formulas names. Add one on "
        "either side of the condition."
    )
