"""Shapes of JSON from outside: written as data, checked with the place that is wrong.

A shape is a type, a tuple of shapes (any of them), a list with one shape (a list of such), a dict (an object
with exactly these members, where one in :class:`Optional` may be missing), a :class:`Map`, :class:`Text`,
:class:`Words`, :class:`Strokes` or :class:`Content`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

IDENTIFIER = r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
# Not \d, which takes the digits of every script.
INSTANT_PATTERN = (
    "[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9][.][0-9]{3}Z"
)


@cache
def whole(pattern: str) -> Callable[[str], object]:
    """What tells whether a text fits ``pattern`` from its beginning to its end."""
    return re.compile(pattern).fullmatch


@dataclass(frozen=True)
class Text:
    """A text of at most ``longest`` characters that ``pattern`` matches as a whole."""

    what: str
    longest: int = 200
    pattern: str | None = None
    shortest: int = 0

    def problem(self, value: Any) -> str | None:
        if not isinstance(value, str):
            return f"must be {self.what}"
        if not self.shortest <= len(value) <= self.longest:
            return f"must be {self.what} of {self.shortest} to {self.longest} characters"
        if self.pattern and not whole(self.pattern)(value):
            return f"must be {self.what}"
        return None


@dataclass(frozen=True)
class Instant(Text):
    """A time on a day that there is: 30 February fits the pattern only."""

    def problem(self, value: Any) -> str | None:
        found = super().problem(value)
        if found is None and not is_day(value[:10]):
            return f"must be {self.what}"
        return found


@dataclass(frozen=True)
class Words:
    """One of some words."""

    words: tuple[object, ...]

    def problem(self, value: Any) -> str | None:
        if isinstance(value, str | int | None) and value in self.words:
            return None
        return f"must be one of: {', '.join(map(str, self.words))}"


@dataclass(frozen=True)
class Map:
    """An object with any names and values of one shape."""

    value: Any


@dataclass(frozen=True)
class Optional:
    """A member that may be missing."""

    shape: Any


@dataclass(frozen=True)
class Strokes:
    """Lines of a drawing: each a flat list ``[x, y, t, x, y, t, ...]`` of whole numbers.

    ``x`` and ``y`` lie in the sheet of ``wide`` by ``high``; ``t`` are the milliseconds since the first
    point of the drawing, which never go back.
    """

    wide: int = 1000
    high: int = 400
    longest: int = 3_600_000
    strokes: int = 100
    points: int = 1000

    def problem(self, value: Any) -> str | None:
        if not isinstance(value, list) or len(value) > self.strokes:
            return f"must be a list of at most {self.strokes} strokes"
        if not all(isinstance(one, list) and one and len(one) % 3 == 0 for one in value):
            return "must hold strokes of whole points: x, y and the time of each"
        numbers = [number for stroke in value for number in stroke]
        if len(numbers) > 3 * self.points:
            return f"must have at most {self.points} points"
        # Not isinstance: true is an int, and 1.0 would make another canonical text.
        if not all(type(number) is int for number in numbers):
            return "must hold whole numbers only"
        ends = (self.wide, self.high, self.longest)
        if not all(0 <= number <= ends[place % 3] for place, number in enumerate(numbers)):
            return f"must lie inside {self.wide} by {self.high} and end within an hour"
        times = numbers[2::3]
        return "must have times that never go back" if times != sorted(times) else None


UUID = Text("a UUID in lower case", 36, IDENTIFIER)
KEY = Text("an identifier", 64, r"[A-Za-z0-9_-]+", 1)
SHA256 = Text("a SHA-256 in lower-case hex", 64, r"[0-9a-f]{64}")
THUMBPRINT = Text("a key thumbprint", 43, r"[A-Za-z0-9_-]{43}")
INSTANT = Instant("a UTC time like 2026-11-25T09:30:00.000Z", 24, INSTANT_PATTERN)
NAME = Text("a name", 200, None, 1)
SENTENCE = Text("a text", 4000)
HLC = Text("a hybrid logical time", 64, INSTANT_PATTERN + r"-[0-9a-f]{4}-[A-Za-z0-9_-]{1,43}")
# What was accepted once is compared with, and never entered.
FIELD = Text(
    "the name of an entry",
    120,
    r"(?!baseline[.])[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*|#(done|override|not_applicable|not_done|note|defect))",
)
REASON = ({"code": KEY, "text": SENTENCE}, type(None))

DRAWING = {
    "value": NAME,
    "role": NAME,
    "means": Text("what the person states who signs", 1000, None, 1),
    "strokes": Strokes(),
    "stated": bool,
}


@dataclass(frozen=True)
class Content:
    """What an event says: any object, but one with strokes is a drawing and nothing else."""

    def shape(self, value: Any) -> Any:
        return DRAWING if isinstance(value, dict) and "strokes" in value else dict


EVENT = {
    "id": UUID,
    "visit": UUID,
    "field": FIELD,
    "item": (UUID, type(None)),
    "content": (Content(), type(None)),
    "replaces": [UUID],
    "reason": REASON,
    "by": KEY,
    "device": THUMBPRINT,
    "at": INSTANT,
    "offset": int,
    "hlc": HLC,
    "app": Text("a build", 80),
}

PROCEDURE = {"id": KEY, "version": int, "hash": SHA256}
VISIT = {"id": UUID, "unit": KEY, "kind": KEY, "procedure": PROCEDURE, "started_at": INSTANT}
SIGNER = {"id": KEY, "name": NAME, "role": KEY}

RECORD = {
    "type": Words(("firstwater-record",)),
    "schema": Words((1,)),
    "visit": UUID,
    "kind": KEY,
    "unit": {
        "id": KEY,
        "name": NAME,
        "serial": NAME,
        "plate": Map(dict),
        "baseline": Optional({"record": (SHA256, type(None)), "values": Map(dict)}),
    },
    "site": {"id": KEY, "name": NAME, "values": Map(dict)},
    "procedure": PROCEDURE,
    "formulas": Optional(SHA256),
    "instruments": Map(dict),
    "events": [EVENT],
    "judgement": {"quantities": Map(dict), "rules": Map(dict), "steps": Map(dict), "record": dict},
    "previous": (SHA256, type(None)),
    "corrects": (SHA256, type(None)),
    "signer": SIGNER,
    "meaning": Text("the meaning of the signature", 1000, None, 1),
    "signed_at": INSTANT,
    "offset": int,
    "clock_offset": Optional((int, type(None))),
    "device": THUMBPRINT,
    "app": Text("a build", 80),
}

DECISION = {
    "type": Words(("firstwater-decision",)),
    "schema": Words((1,)),
    "record": SHA256,
    "decision": Words(("accepted", "accepted_with_conditions", "returned")),
    "reasons": SENTENCE,
    "signer": SIGNER,
    "meaning": Text("the meaning of the signature", 1000, None, 1),
    "signed_at": INSTANT,
    "offset": int,
    "device": THUMBPRINT,
}

PROBLEM = ({"code": KEY, "detail": SENTENCE}, type(None))

# The parts are looked at one by one, so that one that is damaged does not hold up the others.
UNSENT = {
    "type": Words(("firstwater-unsent",)),
    "schema": Words((1,)),
    "made_at": INSTANT,
    "app": Text("a build", 80),
    "person": (SIGNER, type(None)),
    "device": (THUMBPRINT, type(None)),
    "visits": [dict],
    "events": [{"event": dict, "problem": PROBLEM}],
    "records": [{"jws": Text("a JWS", 8 * 1024 * 1024), "problem": PROBLEM, "assertion": Optional(object)}],
    "photos": [
        {
            "sha256": SHA256,
            "visit": UUID,
            "type": Words(("image/jpeg",)),
            "base64": Text("base64", 12 * 1024 * 1024),
        }
    ],
    "sha256": SHA256,
    "seal": Optional((Text("a JWS", 1024 * 1024), type(None))),
}

SEAL = {
    "type": Words(("firstwater-seal",)),
    "schema": Words((1,)),
    "sha256": SHA256,
    "visits": Map(SHA256),
    "events": Map(SHA256),
    "photos": [SHA256],
    "records": [SHA256],
    "signer": SIGNER,
    "device": THUMBPRINT,
    "signed_at": INSTANT,
}

PROOF = {"type": Words(("firstwater-device",)), "person": KEY, "at": INSTANT}


def is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


TYPE_WORDS = {
    str: "a text",
    bool: "true or false",
    int: "a whole number",
    float: "a number",
    dict: "an object",
    list: "a list",
    type(None): "null",
}


Place = tuple[Any, object] | None  # the place around it and the name in it; only a wrong one is written out
Found = list[tuple[str, str]]
Look = Callable[[Any, Place, Found], None]


def wrong_places(shape: Any, value: Any) -> Iterator[tuple[str, str]]:
    """Each place (``events.3.at``) that does not fit, and what it must be."""
    found: Found = []
    _look(shape)(value, None, found)
    return iter(found)


_looks: dict[int, tuple[Any, Look]] = {}  # by the identity of the shape, which is kept beside what looks


def _look(shape: Any) -> Look:
    known = _looks.get(id(shape))
    if known is None:
        known = _looks[id(shape)] = (shape, LOOKS.get(type(shape), _at_one)(shape))
    return known[1]


def _at_one(shape: Any) -> Look:
    def look(value: Any, place: Place, found: Found) -> None:
        problem = shape.problem(value)
        if problem:
            found.append((_written(place), problem))

    return look


def _at_type(shape: type) -> Look:
    def look(value: Any, place: Place, found: Found) -> None:
        if not isinstance(value, shape) or (shape is int and isinstance(value, bool)):
            found.append((_written(place), f"must be {TYPE_WORDS[shape]}"))

    return look


def _at_content(content: Content) -> Look:
    def look(value: Any, place: Place, found: Found) -> None:
        _look(content.shape(value))(value, place, found)

    return look


def _at_any_of(shapes: tuple) -> Look:
    looks = [_look(shape) for shape in shapes]
    may_be_null = type(None) in shapes

    def look(value: Any, place: Place, found: Found) -> None:
        if value is None and may_be_null:
            return
        first: Found | None = None
        for one in looks:
            wrong: Found = []
            one(value, place, wrong)
            if not wrong:
                return
            first = first or wrong
        found += first or []

    return look


def _at_list(shapes: list) -> Look:
    each = _look(shapes[0])

    def look(value: Any, place: Place, found: Found) -> None:
        if not isinstance(value, list):
            found.append((_written(place), "must be a list"))
            return
        for number, one in enumerate(value):
            each(one, (place, number), found)

    return look


def _at_map(shape: Map) -> Look:
    each = _look(shape.value)

    def look(value: Any, place: Place, found: Found) -> None:
        if not isinstance(value, dict):
            found.append((_written(place), "must be an object"))
            return
        for name, one in value.items():
            each(one, (place, name), found)

    return look


def _at_object(shape: dict) -> Look:
    members = [
        (name, _look(one.shape if type(one) is Optional else one), type(one) is Optional)
        for name, one in shape.items()
    ]

    def look(value: Any, place: Place, found: Found) -> None:
        if not isinstance(value, dict):
            found.append((_written(place), "must be an object"))
            return
        for name, at_member, is_optional in members:
            if name in value:
                at_member(value[name], (place, name), found)
            elif not is_optional:
                found.append((_written((place, name)), "is missing"))
        for name in value:
            if name not in shape:
                found.append((_written((place, str(name)[:60])), "is not known here"))

    return look


LOOKS: dict[type, Callable[[Any], Look]] = {
    dict: _at_object,
    list: _at_list,
    tuple: _at_any_of,
    Map: _at_map,
    Content: _at_content,
    type: _at_type,
}


def _written(place: Place) -> str:
    names: list[str] = []
    while place is not None:
        place, name = place
        names.append(str(name))
    return ".".join(reversed(names))
