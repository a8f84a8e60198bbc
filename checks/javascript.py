# ruff: noqa: N802, N815 - SymPy finds a printer's methods by the names of its classes
"""From the catalogue to ES module text: printer, shared subexpressions, doc comments."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

import sympy
from sympy.printing.jscode import JavascriptCodePrinter

from checks.compiled import share
from checks.errors import DeclarationError
from checks.expressions import Defined, Node, Root, Slope, Total
from checks.formula import Formula
from checks.inputs import AnyInput, Choice, Series
from checks.lookup import Lookup, Table

NAMES = {"lambda": "lambda_", "function": "function_", "in": "in_", "default": "default_", "class": "class_"}


class Printer(JavascriptCodePrinter):
    """SymPy's JavaScript printer, with our nodes and with every digit of a number.

    An operation without a method here or there stops the generator: SymPy raises.
    """

    def _print_Float(self, number: sympy.Float) -> str:
        return repr(float(number))

    def _print_Symbol(self, symbol: sympy.Symbol) -> str:
        return NAMES.get(symbol.name, str(symbol.name))

    _print_ChoiceSymbol = _print_OptionalSymbol = _print_Symbol

    def _print_Infinity(self, _: Any) -> str:
        return "Infinity"

    def _print_Piecewise(self, cases: sympy.Piecewise) -> str:
        *branches, (otherwise, always) = cases.args
        if always != sympy.true:
            raise DeclarationError("Cases need a last one that always holds.")
        text = "".join(f"({self._print(when)}) ? ({self._print(this)}) : " for this, when in branches)
        return f"({text}({self._print(otherwise)}))"

    def _print_Function(self, node: sympy.Function) -> str:
        if not isinstance(node, Node):
            return str(super()._print_Function(node))
        arguments = [self._print(argument) for argument in node.args]
        name = type(node).__name__
        if isinstance(node, Lookup):
            return f"{node.spelling}(tables.{node.table.name}, {arguments[0]})"
        if isinstance(node, Slope):
            return f"{node.spelling}({', '.join(arguments)})[{node.place}]"
        if isinstance(node, Total):
            return f"total({name}, {', '.join(arguments)})"
        if isinstance(node, Root):
            inner = ", ".join(["x", *arguments[2:]])
            return f"root(x => {name}({inner}), {arguments[0]}, {arguments[1]})"
        return f"{node.spelling}({', '.join(arguments)})"


def printed(expression: sympy.Basic) -> str:
    """One JavaScript expression."""
    text: str = Printer({"allow_unknown_functions": False}).doprint(expression)
    if "Not supported" in text:
        raise DeclarationError(f"No JavaScript for: {text}")
    return text


def function_text(name: str, parameters: Sequence[sympy.Symbol], expression: Any, export: bool) -> str:
    """A function whose shared subexpressions are constants; a list of expressions gives an array."""
    taken, reduced = share(expression)
    lines = [f"  const {symbol} = {printed(part)};" for symbol, part in taken]
    single = isinstance(reduced, sympy.Basic)
    result = printed(reduced) if single else f"[{', '.join(printed(part) for part in reduced)}]"
    names = ", ".join(printed(symbol) for symbol in parameters)
    head = f"{'export ' if export else ''}function {name}({names}) {{"
    return "\n".join([head, *lines, f"  return {result};", "}"])


def formulas_module(formulas: Iterable[Formula], head: str, identity: str) -> str:
    """The text of `static/generated/formulas.js`; records cite `identity`, that of these formulas."""
    listed = list(formulas)
    nodes = _nodes(listed)
    parts = [head, _imports(nodes)]
    parts += [_helper(kind) for kind in nodes if kind.prologue() is not None]
    parts += [_formula(formula) for formula in listed]
    entries = ",\n".join(_descriptor(formula) for formula in listed)
    parts.append(f"export const formulas = catalogue({{\n{entries},\n}});")
    parts.append(f'/** What a record cites as its `formulas`. */\nexport const FORMULAS_HASH = "{identity}";')
    return "\n\n".join(parts) + "\n"


def definitions(formulas: Iterable[Formula]) -> dict[str, list[str]]:
    """What decides about the results of each formula and helper, by name: no text for people is in it."""
    listed = list(formulas)
    found = {kind.__name__: [_helper(kind)] for kind in _nodes(listed) if kind.prologue() is not None}
    return found | {one.name: [*_functions(one), _descriptor(one, with_steps=False)] for one in listed}


def _nodes(formulas: Sequence[Formula]) -> list[type[Node]]:
    """Every kind of node that the expressions, their partials and the helpers use, by name."""
    found: dict[str, type[Node]] = {}
    for formula in formulas:
        conditions = [condition for _, _, condition in formula.conditions]
        steps = [value for *_, value in formula.steps]
        for expression in [formula.expression, *formula.partials, *conditions, *steps]:
            _collect(expression, found)
    return [found[name] for name in sorted(found)]


def _collect(expression: sympy.Basic, found: dict[str, type[Node]]) -> None:
    for node in expression.atoms(sympy.Function):
        kind = type(node)
        if not isinstance(node, Node):
            continue
        body = kind.prologue()
        known = found.get(kind.__name__)
        if known is not None and known.prologue() != body:
            raise DeclarationError(f"Two different helpers are named {kind.__name__}; rename one.")
        found[kind.__name__] = kind
        if known is None and body is not None:
            _collect(body, found)


def _imports(nodes: Sequence[type[Node]]) -> str:
    own = {kind.spelling for kind in nodes if not issubclass(kind, Defined | Slope)}
    lines = [f'import {{ {", ".join(["catalogue", *sorted(own)])} }} from "../judging/nodes.js";']
    if any(issubclass(kind, Lookup) for kind in nodes):
        lines.append('import { tables } from "./tables.js";')
    return "\n".join(lines)


def _helper(kind: type[Node]) -> str:
    parameters = list(getattr(kind, "parameters", ()))
    if issubclass(kind, Root):
        parameters.insert(0, kind.unknown)
    return function_text(kind.__name__, parameters, kind.prologue(), export=False)


def _formula(formula: Formula) -> str:
    # One line: a phone on a weak signal loads this; meaning and sources are in docs/generated/formulas.md.
    return f"/** {formula.text.splitlines()[0]} */\n" + "\n\n".join(_functions(formula))


def _functions(formula: Formula) -> list[str]:
    """The function of a formula and, where readings enter, that of its partial derivatives."""
    parts = [function_text(formula.name, formula.parameters, formula.expression, export=True)]
    if formula.measured:
        parts.append(
            function_text(f"{formula.name}_slopes", formula.parameters, formula.partials, export=False)
        )
    return parts


def _descriptor(formula: Formula, with_steps: bool = True) -> str:
    inputs = ", ".join(f"{json.dumps(name)}: {_input(given)}" for name, given in formula.inputs.items())
    entries = [f"unit: {json.dumps(formula.unit)}", f"inputs: {{{inputs}}}", f"compute: {formula.name}"]
    if formula.measured:
        entries.append(f"measured: {json.dumps(formula.measured)}, slopes: {formula.name}_slopes")
    if formula.words:
        entries.append(f"words: {json.dumps(list(formula.words))}")
    if formula.conditions:
        entries.append(f"refusals: [{', '.join(_refusal(formula, *found) for found in formula.conditions)}]")
    if formula.steps and with_steps:
        entries.append(f"steps: {_steps(formula)}")
    return f"  {formula.name}: {{{', '.join(entries)}}}"


def _refusal(formula: Formula, code: str, after: bool, condition: sympy.Basic) -> str:
    names = [printed(symbol) for symbol in formula.parameters] + (["result"] if after else [])
    return f"[{json.dumps(code)}, {json.dumps(after)}, ({', '.join(names)}) => {printed(condition)}]"


def _steps(formula: Formula) -> str:
    names = ", ".join(printed(symbol) for symbol in formula.parameters)
    values = ", ".join(
        f"{json.dumps(str(symbol))}: {printed(value)}" for symbol, _, _, value in formula.steps
    )
    return f"({names}) => ({{{values}}})"


def _input(given: AnyInput) -> str:
    if isinstance(given, Choice):
        entries: dict[str, Any] = {"options": list(given.options)}
        if given.default is not None:
            entries["default"] = given.default
        return json.dumps(entries)
    entries = {"unit": given.unit}
    for name in ("minimum", "maximum", "above", "below", "default", "among"):
        if getattr(given, name) is not None:
            entries[name] = getattr(given, name)
    for name in ("optional", "counted", "infinite"):
        if getattr(given, name):
            entries[name] = True
    if isinstance(given, Series):
        entries["at_least"] = given.at_least
        if given.repeats:
            entries["repeats"] = True
    return json.dumps(entries)


def tables_module(formulas: Iterable[Formula], head: str) -> str:
    """The text of `static/generated/tables.js`: the tables that the formulas look up."""
    entries = []
    for table in tables_used(formulas):
        keys, values = _numbers(table.keys), _numbers(table.values)
        entries.append(f"  // {table.source}\n  {table.name}: {{keys: [{keys}], values: [{values}]}}")
    return f"{head}\n\nexport const tables = {{\n" + "".join(f"{entry},\n" for entry in entries) + "};\n"


def tables_used(formulas: Iterable[Formula]) -> list[Table]:
    """The tables that the formulas look up, by name."""
    kinds = [kind for kind in _nodes(list(formulas)) if issubclass(kind, Lookup)]
    found: dict[str, Table] = {kind.table.name: kind.table for kind in kinds}
    return [found[name] for name in sorted(found)]


def _numbers(values: Iterable[float]) -> str:
    return ", ".join("Infinity" if value == float("inf") else f"{value!r}" for value in values)
