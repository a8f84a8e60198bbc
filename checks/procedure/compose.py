"""A procedure is put together from parts: one file for each subsystem, which several procedures share.

The procedure's own file says which steps are taken in which order, and which step comes after which.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from checks.procedure.errors import ProcedureError

FOLDER = Path(__file__).parent / "parts"
GROUPED = ("plate", "site", "baseline")
KEYS = ("title", *GROUPED, "cautions", "steps")

Table = dict[str, Any]


def read_table(path: Path) -> Table:
    """The file as TOML; raises ProcedureError naming it."""
    return parse_table(path.read_text(encoding="utf-8"), path.name)


def parse_table(text: str, file: str) -> Table:
    """The text as TOML; raises ProcedureError naming the file."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProcedureError(file, "whole file", f"not valid TOML: {error}") from error


@cache
def parts() -> tuple[tuple[str, Table], ...]:
    """All parts with their file names, in the order in which the forms of plate and site ask."""
    order = read_table(FOLDER / "order.toml")["parts"]
    there = sorted(path.stem for path in FOLDER.glob("*.toml") if path.stem != "order")
    if sorted(order) != there:
        raise ProcedureError("order.toml", "parts", f"list each part once; there are: {', '.join(there)}")
    return tuple((f"{name}.toml", read_table(FOLDER / f"{name}.toml")) for name in order)


def compose(procedure: Mapping[str, Any], file: str, taken: Iterable[tuple[str, Table]]) -> Table:
    """The whole procedure as one table.

    Plate, site, baseline and cautions of every part belong to every procedure: a unit has one data plate.
    Raises ProcedureError for a step that no part has, and for a part that is not one.
    """
    whole: Table = {**procedure, **{key: [] for key in GROUPED}, "cautions": {}}
    library: dict[str, Table] = {}
    for name, part in taken:
        _check_keys(name, part)
        for key in GROUPED:
            whole[key] += [{**entry, "group": part["title"]} for entry in part.get(key, [])]
        whole["cautions"] |= part.get("cautions", {})
        library |= {step["id"]: step for step in part.get("steps", [])}
    needs = whole.pop("needs", [])
    listed = [step for stage in procedure["stages"] for step in stage["steps"]]
    _check_known(listed, library, file, "stages")
    _check_known([need["step"] for need in needs], listed, file, "needs")
    whole["steps"] = [{**library[step], "needs": _needs_of(step, needs)} for step in listed]
    return whole


def _needs_of(step: str, needs: Iterable[Table]) -> list[Table]:
    return [
        {**{key: value for key, value in need.items() if key != "after"}, "step": need["after"]}
        for need in needs
        if need["step"] == step
    ]


def _check_keys(file: str, part: Table) -> None:
    for key in part:
        if key not in KEYS:
            raise ProcedureError(file, "part", f"unknown field {key!r}; possible: {', '.join(KEYS)}")
    if not isinstance(part.get("title"), str):
        raise ProcedureError(file, "part", "field 'title' is missing; it heads the form of plate and site")


def _check_known(names: Iterable[str], known: Iterable[str], file: str, place: str) -> None:
    listed = list(known)
    for name in names:
        if name not in listed:
            raise ProcedureError(file, place, f"there is no step {name!r}; there are: {', '.join(listed)}")
