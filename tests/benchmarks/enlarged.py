"""A procedure several times as large as a given one, and a visit that fills it: each step again and again."""

from typing import Any


def enlarged(
    procedure: dict[str, Any], case: dict[str, Any], times: int
) -> tuple[dict[str, Any], dict[str, Any]]:
    """The procedure with every step so many times, the case with entries for all of them.

    The copies of a step rest on the same plate and site, but otherwise on copies only.
    """
    ids = [step["id"] for step in procedure["steps"]]
    copies = [renaming(ids, number) for number in range(times)]
    steps = [renamed(step, names) for names in copies for step in procedure["steps"]]
    stages = [
        {"id": f"part_{number}", "title": "", "steps": list(names.values())}
        for number, names in enumerate(copies)
    ]
    large = {**procedure, "id": "large", "stages": stages, "steps": steps}
    entries = {name: cell for names in copies for name, cell in renamed(case["entries"], names).items()}
    return large, {**case, "entries": entries, "steps": {}}


def renaming(ids: list[str], number: int) -> dict[str, str]:
    return {one: one if number == 0 else f"{one}_{number}" for one in ids}


def renamed(part: Any, names: dict[str, str]) -> Any:
    """The part with the steps' names changed where they stand: alone, or before the point of a quantity."""
    if isinstance(part, dict):
        return {changed(key, names): renamed(value, names) for key, value in part.items()}
    if isinstance(part, list):
        return [renamed(one, names) for one in part]
    return changed(part, names) if isinstance(part, str) else part


def changed(text: str, names: dict[str, str]) -> str:
    step, point, rest = text.partition(".")
    if not point or " " in text:
        return names.get(text, text)
    return f"{names.get(step, step)}{point}{rest}"


def events_of(case: dict[str, Any]) -> list[dict[str, Any]]:
    """One event for each entry of a case, one for each reading of a series."""
    found = []
    for field, cell in case["entries"].items():
        for item, one in enumerate(cell if isinstance(cell, list) else [cell]):
            identity = f"{field}:{item}"
            at = f"2026-11-25T09:00:00.000Z-{len(found):04x}"
            found.append(
                {
                    "id": identity,
                    "field": field,
                    "item": identity if isinstance(cell, list) else None,
                    "content": {key: value for key, value in one.items() if key not in ("at", "id")},
                    "replaces": [],
                    "at": at[:24],
                    "hlc": f"{at}-node",
                }
            )
    return found
