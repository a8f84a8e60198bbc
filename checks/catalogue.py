"""Name -> formula: what the engine, the commands and the pages compute with."""

from __future__ import annotations

import checks.formulas  # noqa: F401 - importing the subjects declares them
from checks.errors import UnknownFormula
from checks.formula import DECLARED, Formula

FORMULAS: dict[str, Formula] = DECLARED


def find(name: str) -> Formula:
    """The formula of that name; UnknownFormula offers near names."""
    try:
        return FORMULAS[name]
    except KeyError:
        raise UnknownFormula(name, FORMULAS) from None
