"""Tables of published values: data files with a citation, and their look-up inside a formula."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any

import sympy

from checks import nodes
from checks.errors import DeclarationError
from checks.expressions import Node
from checks.source import Source

FOLDER = Path(__file__).parent / "tables"
RULES = {"exact": nodes.exact, "step_down": nodes.step_down, "linear": nodes.linear}
SPELLINGS = {"exact": "exact", "step_down": "stepDown", "linear": "linear", "slope": "linearSlope"}


@dataclass(frozen=True)
class Table:
    """A published table: rising keys, one value per key, the rule by which it is read."""

    name: str
    rule: str
    key_unit: str
    value_unit: str
    keys: tuple[float, ...]
    values: tuple[float, ...]
    source: Source

    def __post_init__(self) -> None:
        if self.rule not in RULES:
            raise DeclarationError(
                f"Table {self.name} is read by one of {', '.join(RULES)}, not {self.rule!r}."
            )
        if list(self.keys) != sorted(set(self.keys)):
            raise DeclarationError(f"The keys of table {self.name} must rise from row to row.")

    def __call__(self, key: Any) -> sympy.Expr:
        """The value at a key, inside a formula."""
        return _lookup(self)(key)


class Lookup(Node):
    """The value of a table at a key."""

    table: Table

    def partials(self) -> tuple[Any, ...]:
        return (_slope(self.table)(*self.args) if self.table.rule == "linear" else 0,)


@cache
def _lookup(table: Table) -> type[Lookup]:
    numeric = partial(RULES[table.rule], table.keys, table.values)
    return _kind(table, table.name, numeric, SPELLINGS[table.rule])


@cache
def _slope(table: Table) -> type[Lookup]:
    numeric = partial(nodes.linear_slope, table.keys, table.values)
    return _kind(table, f"{table.name}_slope", numeric, SPELLINGS["slope"])


def _kind(table: Table, name: str, numeric: Any, spelling: str) -> type[Lookup]:
    members = {"table": table, "numeric": staticmethod(numeric), "spelling": spelling, "label": name}
    return type(name, (Lookup,), members)


@cache
def tables(file: str) -> dict[str, Table]:
    """The tables of one file `checks/tables/<file>.toml`, by their short name in that file.

    The file has a `[source]` with work and edition, and one section per table with place,
    seen, rule, key_unit, value_unit and rows of [key, value].
    """
    content = read(file)
    work, edition = content["source"]["work"], content["source"]["edition"]
    prefix = file.replace("-", "_")
    found = {}
    for short, section in content.items():
        if "rows" not in section:
            continue
        keys, values = zip(*section["rows"], strict=True)
        source = Source(work, edition, section["place"], section["seen"])
        units = (section["key_unit"], section["value_unit"])
        found[short] = Table(f"{prefix}_{short}", section["rule"], *units, keys, values, source)
    return found


def read(file: str) -> dict[str, Any]:
    """The content of a table file."""
    return tomllib.loads((FOLDER / f"{file}.toml").read_text(encoding="utf-8"))


@dataclass(frozen=True)
class GradeLimit:
    """One limit of one grade of water; `sense` is how the source says it: <=, <, >= or >."""

    grade: str
    parameter: str
    value: float
    unit: str
    sense: str
    source: Source


@cache
def grade_limits() -> list[GradeLimit]:
    """The limits by grade from every table file that has a section `[grades.GRADE.PARAMETER]`."""
    found = []
    for path in sorted(FOLDER.glob("*.toml")):
        content = read(path.stem)
        work, edition = content["source"]["work"], content["source"]["edition"]
        for grade, parameters in content.get("grades", {}).items():
            for parameter, limit in parameters.items():
                source = Source(work, edition, limit["place"], limit["seen"])
                found.append(
                    GradeLimit(grade, parameter, float(limit["value"]), limit["unit"], limit["sense"], source)
                )
    return found
