"""A formula: written once as a Python function over SymPy symbols, used four ways.

    @formula(
        result_unit="bar", symbol="p", source=Source(...),
        height=Input("m", "height of the water column", symbol="h"),
    )
    def static_head(height):
        '''Pressure of a standing water column.'''

A formula without a source, or with inputs other than its function's parameters, cannot be
declared: the import fails.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import cleandoc, signature
from typing import Any

import sympy

from checks import errors
from checks.compiled import compile_function
from checks.errors import DeclarationError
from checks.expressions import Defined, Node, OptionalSymbol, Shown, Slope, computed, step
from checks.inputs import ANY, AnyInput, Choice, Input, Reason, Series
from checks.messages import SENTENCES, sentence
from checks.once import made_once
from checks.source import Source
from checks.units import Quantity, convert

DECLARED: dict[str, Formula] = {}
_FAILURES = (ArithmeticError, ValueError)


@dataclass(frozen=True)
class Outcome:
    """A value, or the reason why there is none; never both, never neither."""

    value: Any
    reason: Reason | None


@dataclass(frozen=True)
class Refusal:
    """A condition under which a formula has no result.

    `condition` takes some of the formula's inputs, or `result`, and gives a SymPy condition.
    What a person reads is the sentence of the code in `checks/messages.toml`.
    """

    code: str
    condition: Callable[..., Any]

    def __post_init__(self) -> None:
        if self.code not in SENTENCES:
            raise DeclarationError(f"Write a sentence for {self.code!r} into checks/messages.toml.")


class Formula:
    """One entry of the catalogue; made by the decorator `formula`."""

    def __init__(
        self,
        function: Callable[..., Any],
        inputs: dict[str, AnyInput],
        result_unit: str | tuple[str, ...],
        sources: tuple[Source, ...],
        symbol: str | None,
        refusals: tuple[Refusal, ...],
    ) -> None:
        self.function = function
        self.name = function.__name__
        self.inputs = inputs
        self.words = result_unit if isinstance(result_unit, tuple) else None
        self.unit = result_unit if isinstance(result_unit, str) else "1"
        self.sources = sources
        self.symbol = symbol
        self.refusals = refusals
        self.text = cleandoc(function.__doc__ or "")
        self._check()

    def _check(self) -> None:
        if not self.sources:
            raise DeclarationError(f"{self.name} has no source; write where it comes from.")
        if not self.text:
            raise DeclarationError(f"{self.name} has no docstring; say what it gives and when not.")
        parameters = list(signature(self.function).parameters)
        if parameters != list(self.inputs):
            raise DeclarationError(
                f"{self.name} declares {', '.join(self.inputs)} and takes {', '.join(parameters)}; "
                "make them the same, in the same order."
            )

    @property
    def title(self) -> str:
        """The first sentence of the docstring."""
        return " ".join(self.text.split("\n\n")[0].split())

    @made_once
    def symbols(self) -> dict[str, sympy.Symbol]:
        """The symbols that the function is called with, by input."""
        return {name: given.make_symbol(name) for name, given in self.inputs.items()}

    @made_once
    def parameters(self) -> list[sympy.Symbol]:
        """The arguments of the compiled functions: the inputs, then a flag per optional input."""
        flags = [symbol.flag for symbol in self.symbols.values() if isinstance(symbol, OptionalSymbol)]
        return [*self.symbols.values(), *flags]

    @made_once
    def expression(self) -> sympy.Expr:
        """The formula as SymPy computes with it."""
        return computed(lambda: self.function(**self.symbols))

    @made_once
    def steps(self) -> list[tuple[sympy.Symbol, str, str, sympy.Expr]]:
        """The named intermediate values: symbol, meaning, unit, expression of the inputs."""
        collected = Shown(by_name=False)
        computed(lambda: self.function(**self.symbols), collected)
        return collected.steps

    @made_once
    def measured(self) -> list[str]:
        """The inputs that can carry an uncertainty."""
        if self.words:
            return []
        return [name for name, given in self.inputs.items() if isinstance(given, Input) and given.uncertain]

    @made_once
    def partials(self) -> list[sympy.Expr]:
        """Derivatives by the measured inputs; by a shift of all readings for a series."""
        with sympy.evaluate(True):
            return [self.expression.diff(self.symbols[name]) for name in self.measured]

    @made_once
    def conditions(self) -> list[tuple[str, bool, sympy.Basic]]:
        """The refusals: code, whether it looks at the result, condition."""
        result = sympy.Symbol("result", real=True)
        found = []
        for refusal in self.refusals:
            wanted = signature(refusal.condition).parameters
            arguments = {name: result if name == "result" else self.symbols[name] for name in wanted}
            condition = computed(lambda: refusal.condition(**arguments))  # noqa: B023 - called at once
            found.append((refusal.code, "result" in wanted, condition))
        return found

    @made_once
    def _compute(self) -> Callable[..., float]:
        return compile_function(self.parameters, self.expression)

    @made_once
    def _compute_partials(self) -> Callable[..., list[float]]:
        return compile_function(self.parameters, self.partials)

    @made_once
    def _compute_each_partial(self) -> list[Callable[..., float]]:
        """One by one, for the places where one of them does not exist."""
        return [compile_function(self.parameters, partial) for partial in self.partials]

    @made_once
    def _refuse(self) -> list[tuple[str, bool, Callable[..., bool]]]:
        result = sympy.Symbol("result", real=True)
        return [
            (code, after, compile_function([*self.parameters, *([result] if after else [])], condition))
            for code, after, condition in self.conditions
        ]

    def on(self, **arguments: Any) -> sympy.Expr:
        """This formula inside another one; the working shows its value as a step."""
        values = [arguments.get(name, getattr(given, "default", None)) for name, given in self.inputs.items()]
        return step(self.symbol or self.name, self.title, self.unit, self._node(*values))

    @made_once
    def _node(self) -> type[Defined]:
        members = {
            "parameters": tuple(self.symbols.values()),
            "body": self.expression,
            "spelling": self.name,
            "label": self.name,
            "numeric": staticmethod(self._compute),
            "prologue": classmethod(lambda cls: None),
            "partials": lambda node: tuple(slope(*node.args) for slope in self._slope_nodes),
        }
        return type(self.name, (Defined,), members)

    @made_once
    def _slope_nodes(self) -> list[Callable[..., sympy.Expr]]:
        """The derivatives by each input as calls of the compiled partials; 0 for what has none."""
        found: list[Callable[..., sympy.Expr]] = []
        for name in self.inputs:
            place = self.measured.index(name) if name in self.measured else None
            found.append(_no_slope if place is None else self._slope_node(place))
        return found

    def _slope_node(self, place: int) -> type[Node]:
        members = {
            "numeric": staticmethod(lambda *arguments: self._compute_partials(*arguments)[place]),
            "spelling": f"{self.name}_slopes",
            "place": place,
        }
        return type(f"{self.name}_slope_{place}", (Slope,), members)

    def compile(self) -> None:
        """Make now what the first evaluation would make."""
        _ = self._compute, self._refuse, self.measured and self._compute_partials

    def evaluate(self, values: Mapping[str, Any]) -> Outcome:
        """Compute with bare numbers in the declared units; never raises for what was entered."""
        arguments, reason = self.read(values)
        return self._evaluate(arguments) if reason is None else Outcome(None, reason)

    def _evaluate(self, arguments: list[Any]) -> Outcome:
        reason = self._refused(arguments, after=False)
        if reason is not None:
            return Outcome(None, reason)
        try:
            value = float(self._compute(*arguments))
        except _FAILURES:
            value = math.nan
        if not math.isfinite(value):
            return Outcome(None, {"code": "no_finite_result"})
        reason = self._refused([*arguments, value], after=True)
        if reason is not None:
            return Outcome(None, reason)
        return Outcome(self.words[int(value)] if self.words else value, None)

    def read(self, values: Mapping[str, Any]) -> tuple[list[Any], Reason | None]:
        """The arguments of the compiled functions, or the first reason against one of them."""
        if not values.keys() <= self.inputs.keys():
            name = next(name for name in values if name not in self.inputs)
            return [], {"code": "unknown_input", "input": name, "inputs": list(self.inputs)}
        arguments, flags = [], []
        for name, read, is_optional in self._readers:
            value = values.get(name)
            argument, reason = read(name, value)
            if reason is not None:
                return [], reason
            arguments.append(argument)
            if is_optional:
                flags.append(0 if value is None else 1)
        return arguments + flags, None

    @made_once
    def _readers(self) -> list[tuple[str, Callable[[str, Any], tuple[Any, Reason | None]], bool]]:
        """How each input is read, and whether it may be left out."""
        return [
            (name, given.read, isinstance(given, Input) and given.optional)
            for name, given in self.inputs.items()
        ]

    def _refused(self, arguments: list[Any], after: bool) -> Reason | None:
        for code, looks_at_result, condition in self._refuse:
            if looks_at_result != after:
                continue
            try:
                if condition(*arguments):
                    return {"code": code}
            except _FAILURES:
                return {"code": "no_finite_result"}
        return None

    def sensitivities(self, values: Mapping[str, Any]) -> dict[str, float | None]:
        """Derivatives by the measured inputs; empty when there is no result, None where there is none."""
        arguments, reason = self.read(values)
        if reason is not None or self._evaluate(arguments).value is None:
            return {}
        try:
            slopes = self._compute_partials(*arguments)
        except _FAILURES:
            slopes = [_or_nan(slope, arguments) for slope in self._compute_each_partial]
        return {
            name: float(value) if math.isfinite(value) else None
            for name, value in zip(self.measured, slopes, strict=True)
        }

    def __call__(self, **values: Any) -> Any:
        """Compute with Pint quantities (bare numbers count in the declared unit).

        Gives a Pint quantity, or the word of a verdict. Raises a CheckError: InputError for an
        input that cannot be used, NoResult when the answer does not exist.
        """
        plain, shared = self.plain(values)
        outcome = self.evaluate(plain)
        if outcome.reason is not None:
            raise self.error(outcome.reason)
        if self.words:
            return outcome.value
        unit = (shared or "1") if self.unit == ANY else self.unit
        return Quantity(outcome.value, "dimensionless" if unit == "1" else unit)

    def plain(self, values: Mapping[str, Any]) -> tuple[dict[str, Any], str | None]:
        """Bare numbers in the declared units, and the unit that the ANY inputs share."""
        shared: str | None = None
        plain: dict[str, Any] = {}
        for name, value in values.items():
            given = self.inputs.get(name)
            magnitude, unit = _taken_apart(value)
            if given is None or isinstance(given, Choice) or unit is None:
                plain[name] = magnitude
                continue
            if given.unit == ANY:
                shared = shared or unit
            plain[name] = _converted(name, magnitude, unit, shared if given.unit == ANY else given.unit)
        return plain, shared

    def error(self, reason: Reason) -> errors.CheckError:
        """The error whose sentence explains a reason of `evaluate`."""
        details = {key: value for key, value in reason.items() if key not in ("code", "input")}
        given = self.inputs.get(reason.get("input", ""))
        if given is not None:
            details["meaning"] = given.meaning
            details["unit"] = getattr(given, "unit", None)
        for kind in _INPUT_ERRORS:
            if kind.code == reason["code"]:
                return kind(reason["input"], **details)
        return errors.NoResult(reason["code"], sentence(reason))


_INPUT_ERRORS: tuple[type[errors.InputError], ...] = (
    errors.UnknownInput,
    errors.MissingInput,
    errors.NotANumber,
    errors.NotWhole,
    errors.TooFewReadings,
    errors.NotInTable,
    errors.UnknownChoice,
    errors.OutsideRange,
)


def _or_nan(function: Callable[..., float], arguments: list[Any]) -> float:
    try:
        return function(*arguments)
    except _FAILURES:
        return math.nan


def _no_slope(*_: Any) -> sympy.Expr:
    return sympy.Integer(0)


def _taken_apart(value: Any) -> tuple[Any, str | None]:
    """A quantity's magnitude and unit; None as unit for a bare value."""
    if isinstance(value, Quantity):
        magnitude = value.magnitude
        return (list(magnitude) if hasattr(magnitude, "__len__") else magnitude), str(value.units)
    if isinstance(value, list | tuple) and value and all(isinstance(one, Quantity) for one in value):
        unit = str(value[0].units)
        return [one.to(unit).magnitude for one in value], unit
    return value, None


def _converted(name: str, magnitude: Any, unit: str, wanted: str | None) -> Any:
    if wanted is None:
        return magnitude
    try:
        if isinstance(magnitude, list):
            return [convert(one, unit, wanted) for one in magnitude]
        return convert(magnitude, unit, wanted)
    except (KeyError, ValueError) as error:
        raise errors.WrongUnit(name, unit=unit, wanted=wanted) from error


def formula(
    *,
    result_unit: str | tuple[str, ...],
    source: Source | tuple[Source, ...],
    symbol: str | None = None,
    refusals: tuple[Refusal, ...] = (),
    **inputs: AnyInput,
) -> Callable[[Callable[..., Any]], Formula]:
    """Declare a formula: the unit of its result (or the words it chooses from), source, inputs."""

    def declare(function: Callable[..., Any]) -> Formula:
        sources = source if isinstance(source, tuple) else (source,)
        made = Formula(function, inputs, result_unit, sources, symbol, refusals)
        if made.name in DECLARED:
            raise DeclarationError(f"There are two formulas named {made.name}; rename one.")
        DECLARED[made.name] = made
        return made

    return declare


__all__ = [
    "ANY",
    "DECLARED",
    "Choice",
    "Formula",
    "Input",
    "Outcome",
    "Refusal",
    "Series",
    "Source",
    "formula",
]
