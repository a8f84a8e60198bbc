"""What is made once: for each procedure its plan and the kinds of its fields, of a formula its functions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from threading import RLock
from typing import Any, Generic, TypeVar, overload

Made = TypeVar("Made")
Owner = TypeVar("Owner")
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


class made_once(Generic[Owner, Made]):  # noqa: N801 - stands where a decorator does
    """An attribute that is computed when it is first asked for, by one thread of however many ask.

    One lock for all: what is computed asks for others, and with a lock for each name, as the standard library
    has or has none by version, two threads that come from two sides would wait for each other for ever.
    """

    lock = RLock()

    def __init__(self, make: Callable[[Owner], Made]):
        self.make = make
        self.__doc__ = make.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, instance: None, owner: type) -> made_once[Owner, Made]: ...

    @overload
    def __get__(self, instance: Owner, owner: type) -> Made: ...

    def __get__(self, instance: Owner | None, owner: type) -> made_once[Owner, Made] | Made:
        if instance is None:
            return self
        kept = vars(instance)  # what is in there is found before this is asked again
        with self.lock:
            if self.name not in kept:
                kept[self.name] = self.make(instance)
            return kept[self.name]
