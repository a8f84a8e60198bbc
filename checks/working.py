# ruff: noqa: RUF001 - the signs of mathematics are meant
"""The shown working: a formula with its symbols, the same with its numbers, its named steps."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Any
from xml.etree import ElementTree

import sympy

from checks.compiled import compile_function
from checks.expressions import Shown, shown
from checks.formula import Formula
from checks.inputs import ANY, Choice
from checks.layout import Layout, number, symbol
from checks.translation import Say, english, math_in_words
from checks.units import unit_label

_MARK = re.compile(r"\{(#?[^{}]+)\}")


@dataclass(frozen=True)
class Line:
    """One equation: MathML with symbols and with numbers, and both as plain text."""

    meaning: str
    formula: str
    numbers: str

    @property
    def formula_text(self) -> str:
        """The equation with symbols, as plain text."""
        return plain_text(self.formula)

    @property
    def numbers_text(self) -> str:
        """The equation with numbers and its result, as plain text."""
        return plain_text(self.numbers)


@dataclass(frozen=True)
class Template:
    """The layout of a formula for one set of choices; marks stand for inputs and steps."""

    steps: tuple[tuple[str, str, str, str | None], ...]
    formula: str


def choices(formula: Formula) -> list[dict[str, str]]:
    """Every combination of the formula's choices; one empty combination when it has none."""
    named = {name: list(given.options) for name, given in formula.inputs.items() if isinstance(given, Choice)}
    return [dict(zip(named, words, strict=True)) for words in product(*named.values())]


@cache
def _laid_out(formula: Formula) -> tuple[sympy.Basic, list[tuple[sympy.Symbol, str, str, sympy.Basic]]]:
    """The formula's unsorted expression and its steps."""
    laid_out = Shown(by_name=True)
    token = shown.set(laid_out)
    try:
        with sympy.evaluate(False):
            return sympy.sympify(formula.function(**formula.symbols)), laid_out.steps
    finally:
        shown.reset(token)


def template(formula: Formula, chosen: Mapping[str, str]) -> Template:
    """The formula as its source writes it, with the choices made."""
    expression, steps = _laid_out(formula)
    layout = Layout(chosen, {name: str(name) for name, *_ in steps}, formula.words)
    body = layout.text(expression)
    lines = []
    for name, meaning, unit, value in steps:
        own_page = isinstance(value, sympy.Number) or type(value).__name__ in _names()
        lines.append((str(name), meaning, unit, None if own_page else layout.text(value)))
    wanted = _needed(body, {line[0]: line[3] or "" for line in lines})
    return Template(tuple(line for line in lines if line[0] in wanted), body)


def _names() -> set[str]:
    """The formulas, which have pages of their own: as a step only their value is shown."""
    from checks.catalogue import FORMULAS

    return set(FORMULAS)


def _needed(body: str, steps: Mapping[str, str]) -> set[str]:
    """The steps that this layout mentions, directly or through another step."""
    found: set[str] = set()
    waiting = [body]
    while waiting:
        for mark in _MARK.findall(waiting.pop()):
            name = mark[1:]
            if mark.startswith("#") and name not in found:
                found.add(name)
                waiting.append(steps.get(name, ""))
    return found


def working(formula: Formula, values: Mapping[str, Any], unit: str | None = None) -> list[Line]:
    """The lines of the working for these inputs: the named steps, then the formula.

    `unit` is the unit of the ANY inputs. Raises the CheckError of the reason when there is no result.
    """
    outcome = formula.evaluate(values)
    if outcome.reason is not None:
        raise formula.error(outcome.reason)
    used = {name: values.get(name, getattr(given, "default", None)) for name, given in formula.inputs.items()}
    chosen = {name: _word(used[name]) for name, given in formula.inputs.items() if isinstance(given, Choice)}
    arranged = template(formula, chosen)
    amounts = {name: _amount(value) for name, value in used.items()}
    steps = step_values(formula, values)
    amounts |= {f"#{name}": number(steps[name], 6) for name, *_ in arranged.steps}
    names = marks(formula) | {f"#{name}": symbol(name) for name, *_ in arranged.steps}
    lines = []
    for name, meaning, step_unit, body in arranged.steps:
        lines.append(
            _line(meaning, symbol(name), body, names, amounts, steps[name], _shared(step_unit, unit))
        )
    result = outcome.value
    own = symbol(formula.symbol or formula.name.replace("_", " "))
    lines.append(
        _line(formula.title, own, arranged.formula, names, amounts, result, _shared(formula.unit, unit))
    )
    return lines


def _shared(unit: str, shared: str | None) -> str:
    return (shared or "1") if unit == ANY else unit


def _line(
    meaning: str,
    own: str,
    body: str | None,
    names: Mapping[str, str],
    amounts: Mapping[str, str],
    result: Any,
    unit: str,
) -> Line:
    shown_result = number(result, 6) if isinstance(result, float) else f"<mtext>{result}</mtext>"
    label = unit_label(unit)
    if label:
        shown_result += f"<mtext> {label}</mtext>"
    if body is None:
        return Line(meaning, math(own), math(f"{own}<mo>=</mo>{shown_result}"))
    formula = f"{own}<mo>=</mo>{filled(body, names)}"
    return Line(
        meaning, math(formula), math(f"{own}<mo>=</mo>{filled(body, amounts)}<mo>=</mo>{shown_result}")
    )


def marks(formula: Formula) -> dict[str, str]:
    """The symbol of every input as MathML."""
    return {name: symbol(given.symbol or name.replace("_", " ")) for name, given in formula.inputs.items()}


def filled(body: str, marked: Mapping[str, str]) -> str:
    """A template with something in place of every mark."""
    return _MARK.sub(lambda found: marked.get(found[1], found[1]), body)


def math(body: str) -> str:
    """A whole MathML element."""
    return f'<math xmlns="http://www.w3.org/1998/Math/MathML" display="block"><mrow>{body}</mrow></math>'


def _word(value: Any) -> str:
    return value if isinstance(value, str) else f"{value:g}"


def _amount(value: Any) -> str:
    if value is None:
        return "<mtext>not given</mtext>"
    if isinstance(value, list | tuple):
        inner = "<mo>,</mo>".join(_amount(one) for one in value)
        return f"<mrow><mo>[</mo>{inner}<mo>]</mo></mrow>"
    if value in ("inf", float("inf")):
        return "<mi>∞</mi>"
    return f"<mtext>{value}</mtext>" if isinstance(value, str) else number(float(value))


def step_values(formula: Formula, values: Mapping[str, Any]) -> dict[str, float]:
    """The value of each named step, by its symbol."""
    arguments, reason = formula.read(values)
    if reason is not None:
        raise formula.error(reason)
    return {name: float(function(*arguments)) for name, function in _step_functions(formula).items()}


@cache
def _step_functions(formula: Formula) -> dict[str, Any]:
    return {str(name): compile_function(formula.parameters, value) for name, _, _, value in formula.steps}


def plain_text(mathml: str) -> str:
    """MathML as one line of text: fractions with a slash, powers with ^."""
    return " ".join(_text(ElementTree.fromstring(mathml)).split())  # noqa: S314 - our own MathML


def _text(element: ElementTree.Element) -> str:
    kind = element.tag.rpartition("}")[2]
    parts = [_text(child) for child in element]
    if kind == "mfrac":
        return f"{_whole(parts[0])} / {_whole(parts[1])}"
    if kind == "msup":
        return f"{parts[0]}^{_whole(parts[1])}"
    if kind == "msub":
        return f"{parts[0]}_{parts[1]}"
    if kind == "msqrt":
        return f"√({''.join(parts).strip()})"
    if kind == "mtr":
        return f"{parts[0]} {parts[1]}; "
    if kind == "mo":
        return _SPACED.get(element.text or "", element.text or "")
    return (element.text or "") + "".join(parts)


_SPACED = {
    "+": " + ",
    "−": " − ",
    "=": " = ",
    "≤": " ≤ ",
    "<": " < ",
    "≥": " ≥ ",
    ">": " > ",
    "·": " · ",
    ",": ", ",
}


def _whole(text: str) -> str:
    """In brackets unless it is one thing."""
    text = text.strip()
    return text if re.fullmatch(r"[\w.∞]+|\([^()]*\)", text) else f"({text})"


def templates_json(formulas: Iterable[Formula], say: Say = english) -> str:
    """The text of `static/generated/working.json`: name -> title, unit, symbols, sources, layouts."""
    made = {formula.name: _entry(formula, say) for formula in formulas}
    return (
        json.dumps(made, ensure_ascii=False, indent=None, separators=(",", ":")).replace('},"', '},\n"')
        + "\n"
    )


def _entry(formula: Formula, say: Say) -> dict[str, Any]:
    forms = {}
    for chosen in choices(formula):
        arranged = template(formula, chosen)
        forms["|".join(chosen.values())] = {
            "formula": math_in_words(arranged.formula, say),
            "steps": [
                {
                    "mark": f"#{name}",
                    "symbol": symbol(name),
                    "meaning": say(meaning),
                    "unit": "" if unit == ANY else unit,
                    "formula": body and math_in_words(body, say),
                }
                for name, meaning, unit, body in arranged.steps
            ],
        }
    return {
        "title": say(formula.text).splitlines()[0],
        "unit": formula.unit,
        "symbol": symbol(formula.symbol or formula.name.replace("_", " ")),
        "inputs": {
            name: {"symbol": shown_as, "meaning": say(formula.inputs[name].meaning)}
            for name, shown_as in marks(formula).items()
        },
        "choices": [name for name, given in formula.inputs.items() if isinstance(given, Choice)],
        "sources": [str(source) for source in formula.sources],
        "forms": forms,
    }
