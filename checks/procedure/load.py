"""TOML -> model -> plain data. What is wrong is said with file, place and what would be right."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import MISSING, fields
from functools import cache
from pathlib import Path
from typing import Any

import rfc8785

from checks.catalogue import FORMULAS
from checks.procedure import model
from checks.procedure.check import check
from checks.procedure.compose import compose, parse_table, parts, read_table
from checks.procedure.errors import ProcedureError
from checks.procedure.model import Procedure, plain

_SHAPES: dict[str, tuple[Any, str]] = {
    "tuple": (list, "a list"),
    "dict": (dict, "a table"),
    "bool": (bool, "true or false"),
    "int": (int, "a whole number"),
    "float": (int | float, "a number"),
    "str": (str, "a text"),
}

FOLDER = Path(__file__).parent

_CONDITIONS = ("when", "anew")
"""What may be written as one condition instead of a list of them."""

_PARTS = {
    "cautions": model.Caution,
    "stages": model.Stage,
    "steps": model.Step,
    "needs": model.Need,
    "entries": model.Entry,
    "plate": model.Entry,
    "site": model.Entry,
    "baseline": model.Entry,
    "derived": model.Derived,
    "rules": model.Rule,
    "options": model.Option,
    "when": model.Condition,
    "anew": model.Condition,
}


def names() -> list[str]:
    """The procedures that exist, sorted."""
    return sorted(path.stem for path in FOLDER.glob("*.toml"))


@cache
def load(name: str) -> dict[str, Any]:
    """The procedure as plain data (docs/api.md). The same object each time: do not change it."""
    # In the order of keys that canonical JSON has: a phone gets it so, and lists must come out the same.
    return json.loads(canonical(plain(read(name))))


def read(name: str) -> Procedure:
    """The procedure of this name as its model, checked against the catalogue; raises ProcedureError."""
    if name not in names():
        raise ProcedureError(
            f"{name}.toml", "procedure", f"no such procedure; there are: {', '.join(names())}"
        )
    file = f"{name}.toml"
    return build(compose(read_table(FOLDER / file), file, parts()), file)


def parse(text: str, file: str, formulas: Mapping[str, Any] = FORMULAS) -> Procedure:
    """The procedure written whole in this TOML text, checked; `file` is the name used in errors."""
    return build(parse_table(text, file), file, formulas)


def build(table: Mapping[str, Any], file: str, formulas: Mapping[str, Any] = FORMULAS) -> Procedure:
    """The procedure of a whole table, checked against the formulas; raises ProcedureError."""
    procedure = _build(Procedure, table, file, "procedure")
    check(procedure, file, formulas)
    return procedure


def procedure_hash(procedure: Mapping[str, Any]) -> str:
    """SHA-256 of the canonical JSON (RFC 8785) of a procedure's plain data, lower-case hex."""
    return hashlib.sha256(canonical(procedure)).hexdigest()


@cache
def canonical_text(name: str) -> bytes:
    """The canonical JSON of the procedure of this name; made once, since it takes a tenth of a second."""
    return canonical(load(name))


@cache
def own_hash(name: str) -> str:
    """The hash of the procedure of this name, as `procedure_hash` gives it; made once."""
    return hashlib.sha256(canonical_text(name)).hexdigest()


def canonical(procedure: Mapping[str, Any]) -> bytes:
    """Canonical JSON (RFC 8785)."""
    return rfc8785.dumps(procedure)


def _build(kind: type, table: Any, file: str, place: str) -> Any:
    if not isinstance(table, dict):
        raise ProcedureError(file, place, f"must be a table, not {table!r}")
    place = f"{place} {table['id']!r}" if "id" in table and kind is not Procedure else place
    known = {field.name.rstrip("_"): field for field in fields(kind)}
    for key in table:
        if key not in known:
            raise ProcedureError(file, place, f"unknown field {key!r}; possible: {', '.join(known)}")
    for key, field in known.items():
        if key not in table and field.default is MISSING and field.default_factory is MISSING:
            raise ProcedureError(file, place, f"field {key!r} is missing")
    for key, value in table.items():
        _check_shape(key, str(known[key].type), value, file, place)
    return kind(**{known[key].name: _value(key, value, file, place) for key, value in table.items()})


def _check_shape(key: str, declared: str, value: Any, file: str, place: str) -> None:
    if key in _CONDITIONS and isinstance(value, dict):
        return
    kinds, wanted = next(
        (shape for start, shape in _SHAPES.items() if declared.startswith(start)), (object, "")
    )
    if not isinstance(value, kinds) or (
        isinstance(value, bool) and kinds is not bool and kinds is not object
    ):
        raise ProcedureError(file, place, f"field {key!r} must be {wanted}, not {value!r}")


def _value(key: str, value: Any, file: str, place: str) -> Any:
    part = _PARTS.get(key)
    if key in _CONDITIONS and isinstance(value, dict):
        value = [value]
    if part is None or (key in ("steps", "entries") and value and isinstance(value[0], str)):
        return tuple(value) if isinstance(value, list) else value
    inside = key if place == "procedure" else f"{place}, {key}"
    if key == "cautions" and isinstance(value, dict):
        return {name: _build(part, table, file, f"caution {name!r}") for name, table in value.items()}
    if key == "cautions":
        return tuple(value)
    return tuple(_build(part, table, file, inside) for table in value)
