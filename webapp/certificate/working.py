"""The working of a step for a reader: each computed quantity with its equation and the numbers put in."""

import re
from collections.abc import Mapping
from math import isclose
from typing import Any

from checks.catalogue import FORMULAS
from checks.errors import CheckError
from checks.translation import math_in_words
from checks.working import Line, plain_text
from checks.working import working as equations
from webapp.certificate import figures
from webapp.language import decimal, say

NUMBER = re.compile("<mn>([^<]*)</mn>")
AGREEMENT = 1e-9  # relative; what is shown must be what was judged


def blocks(step: Mapping[str, Any], quantities: Mapping[str, Any]) -> list[dict[str, Any]]:
    """One block for each quantity that a formula gave, in the order of the procedure.

    Left out are quantities without a formula: they stand in the record under their first name.
    """
    found = {}
    for derived in step["derived"]:
        judged = quantities.get(f"{step['id']}.{derived['id']}")
        if judged is None or judged.get("value") is None:
            continue
        # The same id may stand several times; the judgement names the formula that counted.
        if derived["formula"] and derived["formula"] == judged["formula"]:
            found[derived["id"]] = block(derived, judged)
    return list(found.values())


def block(derived: Mapping[str, Any], judged: Mapping[str, Any]) -> dict[str, Any]:
    value = figures.with_unit(plain(judged["value"]), figures.symbol(judged.get("unit")))
    shown = lines(derived["formula"], judged)
    return {
        "label": derived["label"],
        "value": value,
        "formula": derived["formula"],
        "inputs": "" if shown else named_inputs(judged["inputs"]),
        "lines": [equation(line) for line in shown],
    }


def equation(line: Line) -> dict[str, str]:
    """An equation with symbols and with numbers: as text for the certificate, as MathML for a page."""
    line = Line(line.meaning, in_words(line.formula), in_words(line.numbers))
    return {
        "meaning": say(line.meaning),
        "text": plain_text(line.formula),
        "numbers": plain_text(line.numbers),
        "math": line.formula,
        "math_numbers": line.numbers,
    }


def in_words(mathml: str) -> str:
    """MathML with the words between its signs, and its numbers, in the reader's language."""
    return numbers_of(math_in_words(mathml, say))


def numbers_of(mathml: str) -> str:
    return NUMBER.sub(lambda found: f"<mn>{decimal(found[1])}</mn>", mathml)


def lines(name: str, judged: Mapping[str, Any]) -> list[Line]:
    """The equations, or none where today's formula does not give what the record holds."""
    formula = FORMULAS.get(name)
    if formula is None:
        return []
    try:
        value = formula.evaluate(judged["inputs"]).value
        if not agrees(value, judged["value"]):
            return []
        return equations(formula, judged["inputs"], judged.get("unit"))
    except (CheckError, KeyError, TypeError, ValueError):
        return []


def agrees(ours: Any, theirs: Any) -> bool:
    numbers = isinstance(ours, int | float) and isinstance(theirs, int | float)
    return isclose(ours, theirs, rel_tol=AGREEMENT) if numbers else ours == theirs


def named_inputs(inputs: Mapping[str, Any]) -> str:
    return ", ".join(f"{name.replace('_', ' ')} {plain(one)}" for name, one in inputs.items())


def plain(value: Any) -> str:
    if isinstance(value, list):
        return "(" + "; ".join(plain(one) for one in value) + ")"
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return figures.rounded(value) if is_number else str(value)
