"""The identity of what records are judged with: all formulas and tables, the units and the engine.

It is the hash of what decides about results, and of no text for people: a new title, hint or translation
leaves it as it is. The generator writes it for the phone and for the server, so that neither computes it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable

from checks.formula import Formula
from checks.javascript import definitions, tables_used
from checks.lookup import Table
from checks.units import OFFERED, scale

ENGINE = 1
"""Raised by hand when the hand-written twins judge the same case otherwise than before."""


def formulas_hash(
    formulas: Iterable[Formula], tables: Iterable[Table] | None = None, engine: int = ENGINE
) -> str:
    """The SHA-256 over the definitions, in lower-case hex; `tables` are those that the formulas look up."""
    listed = list(formulas)
    used = tables_used(listed) if tables is None else tables
    content = {
        "engine": engine,
        "formulas": definitions(listed),
        "tables": {one.name: [one.rule, repr(one.keys), repr(one.values)] for one in used},
        "units": {name: repr((scale(name).factor, scale(name).offset)) for name in OFFERED},
    }
    text = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def module(identity: str) -> str:
    """The text of `checks/formulas_hash.py`."""
    return (
        '"""The identity of the formulas, made by checks.generate: see checks/identity.py."""\n\n'
        f'FORMULAS_HASH = "{identity}"\n'
    )
