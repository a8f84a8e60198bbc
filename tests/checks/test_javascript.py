"""The printer knows a list of operations; anything else stops the generator."""

import gzip
from pathlib import Path

import pytest
import sympy
from sympy.printing.codeprinter import PrintMethodNotImplementedError

from checks.catalogue import FORMULAS
from checks.compiled import compile_function, share
from checks.errors import DeclarationError
from checks.expressions import completed, larger, smaller, started, total
from checks.javascript import _collect, function_text, printed

GENERATED = Path(__file__).parents[2] / "static" / "generated"
x, y = sympy.symbols("x y", real=True)

# Every plain operation that a formula may use, with arguments at which both languages must agree.
OPERATIONS = [
    x + y, x - y, x * y, x / y, -x, x + 0.1, sympy.pi * x, sympy.Rational(1, 3) * x,
    x**2, x**-3, x**1.5, x ** sympy.Rational(2, 3), sympy.sqrt(x), sympy.exp(-x),
    sympy.log(x), sympy.log(x, 10), sympy.acos(y / 2), sympy.sin(x), sympy.Abs(y), sympy.sign(y),
    larger(x, y), smaller(x, y), started(x), completed(x),
    sympy.Piecewise((x, x <= y), (y, sympy.Eq(x, 2)), (0, True)),
    sympy.Piecewise((1, (x > 0) & (y > 0)), (2, (x < 0) | (y < 0)), (3, True)),
]  # fmt: skip


@pytest.mark.parametrize("expression", OPERATIONS, ids=str)
def test_every_listed_operation_is_printed_and_computed(expression):
    text = printed(expression)
    assert "Not supported" not in text
    assert isinstance(compile_function([x, y], expression)(2.5, 1.5), int | float)


@pytest.mark.parametrize(
    "expression", [sympy.erf(x), sympy.gamma(x), sympy.Function("f")(x), sympy.besselj(0, x)]
)
def test_an_operation_without_a_method_stops_the_generator(expression):
    with pytest.raises(PrintMethodNotImplementedError, match="Unsupported by"):
        printed(expression)


def test_cases_need_a_last_one_that_always_holds():
    with pytest.raises(DeclarationError, match="a last one that always holds"):
        printed(sympy.Piecewise((x, x > 0)))


def test_no_digit_of_a_number_is_lost():
    assert printed(sympy.Float(0.1) + sympy.Float(0.2)) == "0.30000000000000004"
    assert compile_function([x], x + sympy.Float(0.014710918701638048))(0.0) == 0.014710918701638048


def test_a_branch_that_is_not_taken_is_not_computed():
    careful = sympy.Piecewise((0, sympy.Eq(x, 0)), (1 / x + sympy.exp(1 / x), True))
    assert compile_function([x], careful + x)(0.0) == 0
    taken, _ = share(careful + x)
    assert all(not part.has(1 / x) for _, part in taken)


def test_shared_parts_become_constants():
    text = function_text("trial", [x, y], [sympy.sqrt(x + y), 1 / sympy.sqrt(x + y)], export=True)
    assert text.startswith("export function trial(x, y) {\n  const x0 = Math.sqrt(x + y);")


def test_two_helpers_of_one_name_are_refused():
    found = {}
    _collect(total("twice", lambda one: 2 * one, x), found)
    with pytest.raises(DeclarationError, match="Two different helpers are named twice"):
        _collect(total("twice", lambda one: 3 * one, x), found)


def test_the_generated_modules_are_small_enough_for_a_phone():
    names = ("formulas.js", "tables.js", "units.js")
    sizes = {name: len(gzip.compress((GENERATED / name).read_bytes())) for name in names}
    assert sum(sizes.values()) < 45 * 1024, sizes


def test_every_formula_is_exported_under_its_own_name():
    text = (GENERATED / "formulas.js").read_text()
    for name in FORMULAS:
        assert f"\nexport function {name}(" in text
