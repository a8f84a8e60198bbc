"""From a SymPy expression to a fast Python function.

`share` decides what is computed once; the JavaScript printer uses the same decision, so that
both languages add and multiply in the same order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import sympy
from sympy.printing.pycode import PythonCodePrinter


def share(expressions: Any) -> tuple[list[tuple[sympy.Symbol, sympy.Expr]], Any]:
    """Take shared subexpressions out, but never out of a case.

    A branch that is not taken must not be computed: it may divide by zero.
    """
    single = isinstance(expressions, sympy.Basic)
    listed = [expressions] if single else list(expressions)
    cases = {case: sympy.Dummy() for case in _outermost_cases(listed)}
    masked = [expression.xreplace(cases) for expression in listed]
    taken, reduced = sympy.cse(masked)
    unmask = {dummy: case for case, dummy in cases.items()}
    taken = [(name, expression.xreplace(unmask)) for name, expression in taken]
    reduced = [expression.xreplace(unmask) for expression in reduced]
    return taken, reduced[0] if single else reduced


def _outermost_cases(expressions: Sequence[sympy.Expr]) -> list[sympy.Piecewise]:
    found: list[sympy.Piecewise] = []
    for expression in expressions:
        walk = sympy.preorder_traversal(expression)
        for part in walk:
            if isinstance(part, sympy.Piecewise):
                walk.skip()
                if part not in found:
                    found.append(part)
    return found


class EveryDigit(PythonCodePrinter):
    """SymPy's Python printer, which writes only 15 digits of a number, with all that it has."""

    def _print_Float(self, number: sympy.Float) -> str:  # noqa: N802 - SymPy finds it by this name
        return repr(float(number))


def compile_function(arguments: Sequence[sympy.Symbol], expression: Any) -> Callable[..., Any]:
    """A Python function of bare numbers, in the order of the arguments."""
    parts = [expression] if isinstance(expression, sympy.Basic) else expression
    operations = {
        type(node).__name__: type(node).numeric
        for part in parts
        for node in part.atoms(sympy.Function)
        if hasattr(type(node), "numeric")
    }
    printer = EveryDigit(
        {
            "fully_qualified_modules": False,
            "inline": True,
            "allow_unknown_functions": True,
            "user_functions": {name: name for name in operations},
        }
    )
    modules = [operations, "math"]
    return sympy.lambdify(arguments, expression, modules=modules, printer=printer, cse=share)
