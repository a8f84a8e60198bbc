"""What is made once for each procedure: its plan, the kinds of its fields."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any, TypeVar

Made = TypeVar("Made")
MOST = 16


def once_for_each(make: Callable[[Mapping[str, Any]], Made]) -> Callable[[Mapping[str, Any]], Made]:
    """`make`, called once for each procedure object; what it gives is shared and must not be changed.

    A procedure is a large dict: it is known by its identity, and kept so that no other one takes its place.
    """
    kept: dict[int, tuple[Mapping[str, Any], Made]] = {}

    @wraps(make)
    def made(procedure: Mapping[str, Any]) -> Made:
        found = kept.get(id(procedure))
        if found is None or found[0] is not procedure:
            if len(kept) >= MOST:
                kept.clear()
            found = kept[id(procedure)] = (procedure, make(procedure))
        return found[1]

    return made
