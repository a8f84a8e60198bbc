"""The words a formula may use beside SymPy's own: each is one node in both languages.

A formula's function is called with symbols, so it cannot branch with `if`; it says
`pick(basis, hard=..., ps=...)` for a choice and `when(condition, this, otherwise)` for a case.
"""

from __future__ import annotations

from collections.abc import Callable
from contextvars import ContextVar
from dataclasses import dataclass, field
from inspect import signature
from typing import Any

import sympy

from checks import nodes
from checks.compiled import compile_function


class Node(sympy.Function):
    """An operation with a numeric meaning in `nodes.py` and the same one in `nodes.js`.

    `numeric` is the Python meaning; `spelling` is its name in JavaScript; `partials` gives the
    derivatives by argument, None for an argument without one.
    """

    is_real = True
    numeric: Callable[..., Any]
    spelling: str
    label: str | None = None

    @classmethod
    def eval(cls, *arguments: sympy.Expr) -> None:
        """Never simplified: what a formula says is what both languages compute."""
        return

    def fdiff(self, argindex: int = 1) -> sympy.Expr:
        """Derivative by one argument."""
        return sympy.sympify(self.partials()[argindex - 1])

    def partials(self) -> tuple[Any, ...]:
        """Derivatives by each argument; constant where not overridden."""
        return (0,) * len(self.args)

    @classmethod
    def prologue(cls) -> sympy.Expr | None:
        """The expression of a helper function that the printed call needs."""
        return None


class larger(Node):  # noqa: N801 - reads as a function in formulas
    """The larger of two."""

    numeric, spelling, label = staticmethod(nodes.larger), "larger", "max"

    def partials(self) -> tuple[Any, ...]:
        first = sympy.Piecewise((1, self.args[0] >= self.args[1]), (0, True))
        return first, 1 - first


class smaller(Node):  # noqa: N801
    """The smaller of two."""

    numeric, spelling, label = staticmethod(nodes.smaller), "smaller", "min"

    def partials(self) -> tuple[Any, ...]:
        first = sympy.Piecewise((1, self.args[0] <= self.args[1]), (0, True))
        return first, 1 - first


class started(Node):  # noqa: N801
    """Steps begun."""

    numeric, spelling, label = staticmethod(nodes.started), "started", "round up"


class completed(Node):  # noqa: N801
    """Steps completed."""

    numeric, spelling, label = staticmethod(nodes.completed), "completed", "round down"


class count(Node):  # noqa: N801
    """How many readings."""

    numeric, spelling, label = staticmethod(nodes.count), "count", "number of"


class last(Node):  # noqa: N801
    """The newest reading."""

    numeric, spelling, label = staticmethod(nodes.last), "last", "last of"

    def partials(self) -> tuple[Any, ...]:
        return (1,)


class tail(Node):  # noqa: N801
    """The newest few readings; a series again."""

    numeric, spelling, label = staticmethod(nodes.tail), "tail", "newest"

    def partials(self) -> tuple[Any, ...]:
        return 1, 0


class greatest(Node):  # noqa: N801
    """The greatest reading."""

    numeric, spelling, label = staticmethod(nodes.greatest), "greatest", "max"

    def partials(self) -> tuple[Any, ...]:
        return (1,)


class least(Node):  # noqa: N801
    """The least reading."""

    numeric, spelling, label = staticmethod(nodes.least), "least", "min"

    def partials(self) -> tuple[Any, ...]:
        return (1,)


class slope(Node):  # noqa: N801
    """Least-squares slope per reading; a shift of all readings does not move it."""

    numeric, spelling, label = staticmethod(nodes.slope), "slope", "slope of"


class squares(Node):  # noqa: N801
    """Sum of squared deviations from the mean; a shift of all readings does not change it."""

    numeric, spelling, label = staticmethod(nodes.squares), "squares", "squared deviations of"


class student_density(Node):  # noqa: N801
    """Density of Student's distribution."""

    numeric, spelling, label = staticmethod(nodes.student_density), "studentDensity", "t"


class student(Node):  # noqa: N801
    """Share of Student's distribution below a value; the degrees are counted and have no derivative."""

    numeric, spelling, label = staticmethod(nodes.student), "student", "T"

    def partials(self) -> tuple[Any, ...]:
        return student_density(*self.args), 0


class poisson_density(Node):  # noqa: N801
    """Probability of exactly so many events."""

    numeric, spelling, label = staticmethod(nodes.poisson_density), "poissonDensity", "P"


class poisson(Node):  # noqa: N801
    """Probability of at most so many events; the number is counted and has no derivative."""

    numeric, spelling, label = staticmethod(nodes.poisson), "poisson", "P"

    def partials(self) -> tuple[Any, ...]:
        return 0, -poisson_density(*self.args)


class Total(Node):
    """Sum of an expression over one or several series; made by `total`."""

    spelling = "total"
    label = "sum"
    parameters: tuple[sympy.Symbol, ...]
    body: sympy.Expr

    def partials(self) -> tuple[Any, ...]:
        return tuple(
            _total(f"{type(self).__name__}_{name}", self.parameters, self.body.diff(name))(*self.args)
            for name in self.parameters
        )

    @classmethod
    def prologue(cls) -> sympy.Expr:
        return cls.body


def total(name: str, body: Callable[..., Any], *series: sympy.Expr) -> sympy.Expr:
    """Sum of `body` over the readings of the series; `name` names it in the generated code."""
    parameters = tuple(sympy.Symbol(parameter, real=True) for parameter in signature(body).parameters)
    return _total(name, parameters, sympy.sympify(body(*parameters)))(*series)


def _total(name: str, parameters: tuple[sympy.Symbol, ...], body: sympy.Expr) -> type[Total]:
    one = compile_function(parameters, body)

    def numeric(*series: nodes.Series) -> float:
        return nodes.total(one, *series)

    return type(name, (Total,), {"parameters": parameters, "body": body, "numeric": staticmethod(numeric)})


class Defined(Node):
    """A named expression, printed once and called by name; made by `defined`."""

    parameters: tuple[sympy.Symbol, ...]
    body: sympy.Expr

    def partials(self) -> tuple[Any, ...]:
        given = dict(zip(self.parameters, self.args, strict=True))
        return tuple(self.derivative(name).xreplace(given) for name in self.parameters)

    @classmethod
    def derivative(cls, name: sympy.Symbol) -> sympy.Expr:
        """Derivative of the body; overridden where a closed form is better."""
        return cls.body.diff(name)

    @classmethod
    def prologue(cls) -> sympy.Expr:
        return cls.body


def defined(name: str, label: str, body: Callable[..., Any], derivative: Any = None) -> type[Defined]:
    """A function of numbers that several formulas call; `derivative(symbol)` replaces differentiation."""
    parameters = tuple(sympy.Symbol(parameter, real=True) for parameter in signature(body).parameters)
    expression = sympy.sympify(body(*parameters))
    members: dict[str, Any] = {
        "parameters": parameters,
        "body": expression,
        "spelling": name,
        "label": label,
        "numeric": staticmethod(compile_function(parameters, expression)),
    }
    if derivative is not None:
        members["derivative"] = classmethod(lambda cls, symbol: sympy.sympify(derivative(symbol)))
    return type(name, (Defined,), members)


class Slope(Node):
    """One of the partial derivatives of another formula."""

    place: int


class Root(Node):
    """Where an expression of `x` and the parameters is zero between two ends; made by `root`."""

    spelling = "root"
    label = "root"
    unknown: sympy.Symbol
    parameters: tuple[sympy.Symbol, ...]
    body: sympy.Expr

    def partials(self) -> tuple[Any, ...]:
        here = {self.unknown: self, **dict(zip(self.parameters, self.args[2:], strict=True))}
        steep = self.body.diff(self.unknown).xreplace(here)
        return 0, 0, *(-self.body.diff(name).xreplace(here) / steep for name in self.parameters)

    @classmethod
    def prologue(cls) -> sympy.Expr:
        return cls.body


def root(name: str, body: Callable[..., Any], lower: Any, upper: Any, **parameters: Any) -> sympy.Expr:
    """The root of `body(x, **parameters)` between `lower` and `upper`, by halving."""
    unknown, *names = (sympy.Symbol(parameter, real=True) for parameter in signature(body).parameters)
    expression = sympy.sympify(body(unknown, *names))
    function = compile_function([unknown, *names], expression)

    def numeric(low: float, high: float, *values: float) -> float:
        return nodes.root(lambda x: function(x, *values), low, high)

    members = {
        "unknown": unknown,
        "parameters": tuple(names),
        "body": expression,
        "numeric": staticmethod(numeric),
    }
    return type(name, (Root,), members)(lower, upper, *(parameters[str(symbol)] for symbol in names))


class ChoiceSymbol(sympy.Symbol):
    """The symbol of a choice: a whole number that stands for one of the words."""

    options: tuple[str, ...]

    def __new__(cls, name: str, options: tuple[str, ...]) -> ChoiceSymbol:
        # Past SymPy's cache of symbols: two formulas may give one name to different words.
        symbol: ChoiceSymbol = sympy.Symbol.__xnew__(cls, name, integer=True, nonnegative=True)
        symbol.options = options
        return symbol

    def _hashable_content(self) -> tuple[Any, ...]:
        return *super()._hashable_content(), self.options


class Cases(sympy.Function):
    """Cases as the source shows them; only for display, never computed."""


@dataclass
class Shown:
    """The named intermediate values met while a formula is laid out for reading or stepped through."""

    by_name: bool
    steps: list[tuple[sympy.Symbol, str, str, sympy.Expr]] = field(default_factory=list)


shown: ContextVar[Shown | None] = ContextVar("shown", default=None)


def computed(make: Callable[[], Any], collected: Shown | None = None) -> sympy.Expr:
    """What a formula's function gives when it is computed with, even while another one is laid out."""
    token = shown.set(collected)
    try:
        with sympy.evaluate(True):
            return sympy.sympify(make())
    finally:
        shown.reset(token)


def laid_out_by_name() -> Shown | None:
    """The layout that is being made, or None while a formula is computed with."""
    current = shown.get()
    return current if current is not None and current.by_name else None


def pick(choice: ChoiceSymbol, options: dict[str, Any]) -> sympy.Expr:
    """The expression that belongs to the chosen word; every word needs one."""
    if set(options) != set(choice.options):
        raise TypeError(f"{choice} needs an expression for each of {', '.join(choice.options)}")
    codes = {word: choice.options.index(word) for word in options}
    branches = [(sympy.sympify(value), sympy.Eq(choice, codes[word])) for word, value in options.items()]
    if laid_out_by_name():
        return Cases(*(part for pair in branches for part in pair))
    return sympy.Piecewise(*branches[:-1], (branches[-1][0], True))


def when(condition: Any, this: Any, otherwise: Any) -> sympy.Expr:
    """One expression where the condition holds, else the other, which is then the only one computed."""
    if laid_out_by_name():
        return Cases(this, condition, otherwise)
    return sympy.Piecewise((sympy.sympify(this), condition), (sympy.sympify(otherwise), True))


def step(symbol: str, meaning: str, unit: str, value: Any) -> sympy.Expr:
    """Name an intermediate value: the working shows it on a line of its own."""
    laid_out = shown.get()
    if laid_out is None:
        return sympy.sympify(value)
    name = sympy.Symbol(symbol)
    if not any(name == known for known, *_ in laid_out.steps):
        laid_out.steps.append((name, meaning, unit, sympy.sympify(value)))
    return name if laid_out.by_name else sympy.sympify(value)


class OptionalSymbol(sympy.Symbol):
    """The symbol of an input that may be left out; `flag` is 1 when it was given."""

    flag: sympy.Symbol

    def __new__(cls, name: str) -> OptionalSymbol:
        symbol = super().__new__(cls, name, real=True)
        symbol.flag = sympy.Symbol(f"{name}_given", integer=True)
        return symbol


def given(symbol: OptionalSymbol) -> sympy.Expr:
    """The condition that an optional input was given."""
    return sympy.Ne(symbol.flag, 0)
