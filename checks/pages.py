"""The formula reference for people: `docs/generated/formulas.md` from the declarations."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from checks.formula import Formula
from checks.inputs import ANY, AnyInput, Choice, Series
from checks.javascript import tables_used
from checks.layout import symbol
from checks.lookup import Table, grade_limits
from checks.messages import sentence
from checks.units import unit_label
from checks.working import Template, choices, filled, marks, math, plain_text, template

HEAD = """\
<!-- Generated from checks/formulas by checks.generate: change that, then run `python -m checks.generate`. -->

# Formulas

Every formula of the catalogue: what it gives and when it does not apply, its equation, what it takes, where
it comes from and how that is known. "From memory" means that the source was not open when the formula was
written down; a rule of thumb is marked "common practice, no source".
"""


def formula_pages(formulas: Iterable[Formula]) -> str:
    """The text of the reference: the formulas by subject, then the tables and the limits by grade."""
    listed = list(formulas)
    parts = [HEAD]
    subject = None
    for formula in listed:
        module = sys.modules[formula.function.__module__]
        if module is not subject:
            subject = module
            parts.append(f"## {(module.__doc__ or '').strip().rstrip('.')}\n")
        parts.append(_page(formula))
    parts.append("## Tables\n\n" + "\n".join(_table(table) for table in tables_used(listed)))
    parts.append(_grades())
    return "\n".join(parts)


def _page(formula: Formula) -> str:
    title, _, rest = formula.text.partition("\n\n")
    parts = [f"### `{formula.name}`\n\n{title}\n"]
    if rest:
        parts.append(rest + "\n")
    parts += [_equations(formula), _inputs(formula)]
    unit = {"1": "a number without unit", ANY: "in the unit of the inputs"}.get(
        formula.unit, unit_label(formula.unit)
    )
    parts.append(f"Result: {', '.join(formula.words) if formula.words else unit}.\n")
    if formula.refusals:
        reasons = "\n".join(f"- `{refusal.code}`: {sentence(refusal.code)}" for refusal in formula.refusals)
        parts.append(f"No result:\n\n{reasons}\n")
    parts.append("Source:\n\n" + "\n".join(f"- {source}" for source in formula.sources) + "\n")
    return "\n".join(parts)


def _equations(formula: Formula) -> str:
    """The equation for every set of choices that looks different."""
    alike: dict[Template, list[dict[str, str]]] = {}
    for chosen in choices(formula):
        alike.setdefault(template(formula, chosen), []).append(chosen)
    parts = []
    for arranged, combinations in alike.items():
        heading = _chosen(combinations) if len(alike) > 1 else ""
        parts.append(heading + _equation(formula, arranged))
    return "\n".join(parts)


def _chosen(combinations: list[dict[str, str]]) -> str:
    """The choices under which an equation holds, as far as they matter to it."""
    words = {name: {one[name] for one in combinations} for name in combinations[0]}
    fixed = [f"{name} `{next(iter(found))}`" for name, found in words.items() if len(found) == 1]
    return f"With {', '.join(fixed)}:\n\n" if fixed else ""


def _equation(formula: Formula, arranged: Template) -> str:
    names = marks(formula) | {f"#{name}": symbol(name) for name, *_ in arranged.steps}
    own = symbol(formula.symbol or formula.name.replace("_", " "))
    lines = [plain_text(math(f"{own}<mo>=</mo>{filled(arranged.formula, names)}"))]
    for name, meaning, unit, body in arranged.steps:
        right = f"<mo>=</mo>{filled(body, names)}" if body else ""
        shown = plain_text(math(symbol(name) + right))
        lines.append(f"{shown}    ({meaning.rstrip('.')}{_bracketed(unit)})")
    return "```text\n" + "\n".join(lines) + "\n```\n"


def _bracketed(unit: str) -> str:
    return "" if unit in ("1", ANY) else f", {unit_label(unit)}"


def _inputs(formula: Formula) -> str:
    rows = ["| input | symbol | unit | meaning | range | default |", "|---|---|---|---|---|---|"]
    for name, given in formula.inputs.items():
        shown = plain_text(math(symbol(given.symbol))) if given.symbol else ""
        cells = (f"`{name}`", shown, _input_unit(given), _meaning(given), _range(given), _default(given))
        rows.append(f"| {' | '.join(cells)} |")
    return "\n".join(rows) + "\n"


def _meaning(given: AnyInput) -> str:
    if isinstance(given, Choice):
        words = "; ".join(f"`{word}` {meaning}" for word, meaning in given.options.items())
        return f"{given.meaning}: {words}"
    return given.meaning


def _input_unit(given: AnyInput) -> str:
    if isinstance(given, Choice):
        return "word"
    return {"1": "-", ANY: "any, the same for all"}.get(given.unit, unit_label(given.unit))


def _range(given: AnyInput) -> str:
    if isinstance(given, Choice):
        return ""
    if given.among is not None:
        return ", ".join(f"{value:g}" for value in given.among)
    low = f"above {given.above:g}" if given.above is not None else ""
    low = f"from {given.minimum:g}" if given.minimum is not None else low
    high = f"below {given.below:g}" if given.below is not None else ""
    high = f"up to {given.maximum:g}" if given.maximum is not None else high
    several = f"at least {given.at_least} of them" if isinstance(given, Series) else ""
    return " ".join(part for part in (low, high, several) if part)


def _default(given: AnyInput) -> str:
    if given.default is None:
        return "may be left out" if getattr(given, "optional", False) else ""
    return f"`{given.default}`" if isinstance(given, Choice) else f"{given.default:g}"


def _table(table: Table) -> str:
    read = {
        "exact": "exact rows only",
        "step_down": "next lower row",
        "linear": "straight lines between rows",
    }
    rows = ", ".join(f"{key:g}: {value:g}" for key, value in zip(table.keys, table.values, strict=True))
    units = f"{unit_label(table.value_unit)} by {unit_label(table.key_unit) or 'number'}, {read[table.rule]}"
    return f"### `{table.name}`\n\n{table.source}; {units}.\n\n{rows}\n"


def _grades() -> str:
    rows = ["| grade | limit | value | source |", "|---|---|---|---|"]
    for limit in grade_limits():
        value = f"{limit.sense} {limit.value:g} {unit_label(limit.unit)}"
        rows.append(f"| `{limit.grade}` | {limit.parameter.replace('_', ' ')} | {value} | {limit.source} |")
    return "## Limits by grade of water\n\n" + "\n".join(rows) + "\n"
