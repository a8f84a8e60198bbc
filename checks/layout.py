# ruff: noqa: RUF001 - the signs of mathematics are meant
"""A formula as its source writes it: presentation MathML from the unsorted expression.

Every input and every named step is left as a mark, `{name}` or `{#step}`, so that the same
template shows symbols on one line and numbers on the next, on the phone without SymPy.
"""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import Any

import sympy

from checks.errors import DeclarationError
from checks.expressions import Cases, ChoiceSymbol, Defined, Node, Root, Total
from checks.lookup import Lookup

GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "theta": "θ",
    "kappa": "κ",
    "mu": "μ",
    "nu": "ν",
    "rho": "ρ",
    "Phi": "Φ",
}
RELATIONS: dict[type[Any], str] = {
    sympy.Le: "≤",
    sympy.Lt: "<",
    sympy.Ge: "≥",
    sympy.Gt: ">",
    sympy.Eq: "=",
    sympy.Ne: "≠",
}
SUM, PRODUCT, POWER, ATOM = range(4)


def symbol(text: str) -> str:
    """A symbol like "C_0" or "kappa_25" with its subscript and Greek letter."""
    base, _, power = text.partition("^")
    name, _, low = base.partition("_")
    shown = f"<mi>{escape(GREEK.get(name, name))}</mi>"
    if low:
        kind = "mn" if low.isdigit() else "mi"
        shown = f"<msub>{shown}<{kind}>{escape(low)}</{kind}></msub>"
    return f"<msup>{shown}<mn>{power}</mn></msup>" if power else shown


def number(value: float, digits: int = 15) -> str:
    """A number, with a power of ten where it has many zeros; brackets around a negative one."""
    shown = plain_number(value, digits)
    return shown if value >= 0 else f"<mrow><mo>(</mo>{shown}<mo>)</mo></mrow>"


def plain_number(value: float, digits: int = 15) -> str:
    """A number without brackets, with a true minus sign."""
    mantissa, _, power = f"{value:.{digits}g}".replace("-", "−").partition("e")
    shown = f"<mn>{mantissa}</mn>"
    if not power:
        return shown
    exponent = str(int(power.replace("−", "-"))).replace("-", "−")
    return f"<mrow>{shown}<mo>·</mo><msup><mn>10</mn><mn>{exponent}</mn></msup></mrow>"


class Layout:
    """Lays one expression out, with the given choices made."""

    def __init__(
        self,
        chosen: Mapping[str, str],
        steps: Mapping[sympy.Symbol, str],
        words: tuple[str, ...] | None = None,
    ) -> None:
        self.chosen = chosen
        self.words = words
        self.marks: dict[sympy.Symbol, str] = {name: f"{{#{mark}}}" for name, mark in steps.items()}

    def inside(self, expression: sympy.Basic, binding: int) -> str:
        """The expression, in brackets when it binds less than its surroundings."""
        text, own = self.bound(expression)
        return text if own >= binding else f"<mrow><mo>(</mo>{text}<mo>)</mo></mrow>"

    def text(self, expression: sympy.Basic) -> str:
        """The expression without brackets around it."""
        return self.inside(expression, SUM)

    def bound(self, expression: sympy.Basic) -> tuple[str, int]:
        """MathML and how strongly it binds."""
        for kind in type(expression).__mro__:
            method = getattr(self, f"_{kind.__name__.lower()}", None)
            if method is not None:
                return method(expression)
        raise DeclarationError(f"No layout for {type(expression).__name__} in {expression}")

    def _symbol(self, name: sympy.Symbol) -> tuple[str, int]:
        return self.marks.get(name, f"{{{name}}}"), ATOM

    def _number(self, value: sympy.Number) -> tuple[str, int]:
        if isinstance(value, sympy.Rational) and not isinstance(value, sympy.Integer):
            return f"<mfrac>{plain_number(value.p)}<mn>{value.q}</mn></mfrac>", POWER
        return number(float(value)), ATOM

    def _pi(self, _: Any) -> tuple[str, int]:
        return "<mi>π</mi>", ATOM

    def _add(self, expression: sympy.Add) -> tuple[str, int]:
        parts = []
        for place, term in enumerate(_flat(expression, sympy.Add)):
            negative, positive = _sign(term)
            sign = "<mo>−</mo>" if negative else "<mo>+</mo>" if place else ""
            parts.append(sign + self.inside(positive, PRODUCT if negative else SUM))
        return f"<mrow>{''.join(parts)}</mrow>", SUM

    def _mul(self, expression: sympy.Mul) -> tuple[str, int]:
        negative, positive = _sign(expression)
        if negative:
            return f"<mrow><mo>−</mo>{self.inside(positive, PRODUCT)}</mrow>", SUM
        above, below = [], []
        for factor in _flat(expression, sympy.Mul):
            if isinstance(factor, sympy.Pow) and factor.exp == -1:
                below.append(factor.base)
            elif factor != 1:
                above.append(factor)
        if not below:
            return self._product(above), PRODUCT
        top = self._product(above) if above else "<mn>1</mn>"
        return f"<mfrac><mrow>{top}</mrow><mrow>{self._product(below)}</mrow></mfrac>", POWER

    def _product(self, factors: list[sympy.Basic]) -> str:
        if len(factors) == 1:
            return self.text(factors[0])
        return f"<mrow>{'<mo>·</mo>'.join(self.inside(factor, PRODUCT) for factor in factors)}</mrow>"

    def _pow(self, expression: sympy.Pow) -> tuple[str, int]:
        base, power = expression.args
        if power == -1:
            return f"<mfrac><mn>1</mn><mrow>{self.text(base)}</mrow></mfrac>", POWER
        if power == sympy.Rational(1, 2):
            return f"<msqrt>{self.text(base)}</msqrt>", ATOM
        is_number = isinstance(power, sympy.Integer | sympy.Float)
        shown = plain_number(float(power)) if is_number else self.text(power)
        return f"<msup>{self.inside(base, ATOM)}<mrow>{shown}</mrow></msup>", POWER

    def _exp(self, expression: sympy.exp) -> tuple[str, int]:
        return f"<msup><mi>e</mi><mrow>{self.text(expression.args[0])}</mrow></msup>", POWER

    def _log(self, expression: sympy.log) -> tuple[str, int]:
        name = "lg" if len(expression.args) > 1 else "ln"
        return self._call(name, [self.text(expression.args[0])])

    def _acos(self, expression: sympy.acos) -> tuple[str, int]:
        return self._call("arccos", [self.text(expression.args[0])])

    def _sin(self, expression: sympy.sin) -> tuple[str, int]:
        return self._call("sin", [self.text(expression.args[0])])

    def _abs(self, expression: sympy.Abs) -> tuple[str, int]:
        return f"<mrow><mo>|</mo>{self.text(expression.args[0])}<mo>|</mo></mrow>", ATOM

    def _call(self, name: str, arguments: list[str]) -> tuple[str, int]:
        inner = "<mo>,</mo>".join(arguments)
        return f"<mrow><mi>{escape(GREEK.get(name, name))}</mi><mo>(</mo>{inner}<mo>)</mo></mrow>", ATOM

    def _node(self, node: Node) -> tuple[str, int]:
        arguments = _flat(node, type(node)) if node.label in ("max", "min") else node.args
        return self._call(node.label or type(node).__name__, [self.text(part) for part in arguments])

    def _lookup(self, node: Lookup) -> tuple[str, int]:
        return f"<mrow><mtext>table value at </mtext>{self.text(node.args[0])}</mrow>", SUM

    def _total(self, node: Total) -> tuple[str, int]:
        for parameter, series in zip(node.parameters, node.args, strict=True):
            self.marks[parameter] = self.text(series)
        return f"<mrow><mo>∑</mo>{self.inside(node.body, PRODUCT)}</mrow>", PRODUCT

    def _root(self, node: Root) -> tuple[str, int]:
        for parameter, given in zip(node.parameters, node.args[2:], strict=True):
            self.marks[parameter] = self.inside(given, ATOM)
        self.marks[node.unknown] = "<mi>x</mi>"
        return (
            f"<mrow><mi>x</mi><mtext> where </mtext>{self.text(node.body)}<mo>=</mo><mn>0</mn></mrow>",
            SUM,
        )

    def _defined(self, node: Defined) -> tuple[str, int]:
        return self._node(node)

    def _cases(self, cases: Cases) -> tuple[str, int]:
        made = self._made(cases)
        if made is not None:
            return self.bound(made)
        rows = []
        while isinstance(cases, Cases) and self._made(cases) is None:
            this, condition, cases = cases.args
            rows.append((self._case(this), f"<mtext>if </mtext>{self._condition(condition)}"))
        rows.append((self._case(cases), "<mtext>otherwise</mtext>"))
        return _table(rows), ATOM

    def _case(self, this: sympy.Basic) -> str:
        """One case; where the result is a word, the word instead of its number."""
        made = (self._made(this) or this) if isinstance(this, Cases) else this
        if self.words and isinstance(made, sympy.Integer):
            return f"<mtext>{self.words[int(made)].replace('_', ' ')}</mtext>"
        return self.text(made)

    def _made(self, cases: Cases) -> sympy.Basic | None:
        """The case of the word that was chosen; None for cases that depend on numbers."""
        for this, condition in zip(cases.args[::2], cases.args[1::2], strict=False):
            if not (isinstance(condition, sympy.Eq) and isinstance(condition.lhs, ChoiceSymbol)):
                return None
            options = condition.lhs.options
            if options.index(self.chosen[condition.lhs.name]) == condition.rhs:
                return this
        return None

    def _condition(self, condition: sympy.Basic) -> str:
        if isinstance(condition, sympy.Ne) and str(condition.lhs).endswith("_given"):
            return f"{{{str(condition.lhs).removesuffix('_given')}}}<mtext> is given</mtext>"
        if isinstance(condition, sympy.And | sympy.Or):
            word = "<mtext> and </mtext>" if isinstance(condition, sympy.And) else "<mtext> or </mtext>"
            return word.join(self._condition(part) for part in condition.args)
        sign = escape(RELATIONS[type(condition)])
        left, right = condition.args
        return f"{self.text(left)}<mo>{sign}</mo>{self.text(right)}"


def _table(rows: list[tuple[str, str]]) -> str:
    cells = "".join(f"<mtr><mtd>{this}</mtd><mtd>{condition}</mtd></mtr>" for this, condition in rows)
    return f"<mrow><mo>{{</mo><mtable>{cells}</mtable></mrow>".replace("<mo>{</mo>", "<mo>⎧</mo>")


def _flat(expression: sympy.Basic, kind: type[Any]) -> list[sympy.Basic]:
    """The terms of nested sums, or the factors of nested products, in the order of writing."""
    found: list[sympy.Basic] = []
    for part in expression.args:
        found += _flat(part, kind) if isinstance(part, kind) and _sign(part)[0] is False else [part]
    return found


def _sign(term: sympy.Basic) -> tuple[bool, sympy.Basic]:
    """Whether a term is written with a minus, and the term without it."""
    if isinstance(term, sympy.Number) and term < 0:
        return True, -term
    if isinstance(term, sympy.Mul):
        first, *rest = term.args
        if isinstance(first, sympy.Number) and first < 0:
            factors = rest if first == -1 else [-first, *rest]
            return True, factors[0] if len(factors) == 1 else sympy.Mul(*factors, evaluate=False)
        negative, positive = _sign(first)
        if negative:
            return True, sympy.Mul(positive, *rest, evaluate=False)
    return False, term
