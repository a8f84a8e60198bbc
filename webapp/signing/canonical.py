"""Canonical JSON (RFC 8785): the bytes that are hashed and signed, and the strict reading of JSON."""

import hashlib
import json
import math
import re
from typing import Any

import orjson
import rfc8785

DEEPEST = 40
LARGEST_WHOLE_NUMBER = 2**53 - 1  # what a JavaScript number holds exactly
PLAIN = frozenset({str, bool, type(None)})
TEXTS = {str}
# How a number ends that orjson writes otherwise: 2.0 for 2, 1e+16 for 10000000000000000, 5e-6 for 0.000005.
# One for each letter it begins with, which a search then skips to.
ODD_ENDS = tuple(map(re.compile, (rb"\.0(?=[,\]}])", rb"e(?:\+1[6-9]|\+20|-6)(?=[,\]}])")))
NUMBER = re.compile(rb"-?[0-9]+(?:\.[0-9]+)?(?:e[-+][0-9]+)?")
IN_A_NUMBER = frozenset(b"0123456789.-")
BEFORE_A_NUMBER = frozenset(b":,[")
FIRST_OF_FOUR = 0xF0  # begins what UTF-8 writes in four bytes, and UTF-16 as a pair
CONTAINERS = (dict, list)


class NotCanonical(ValueError):  # noqa: N818 - says what the bytes are
    """Text that is not JSON, or JSON that another reader could understand differently."""


def canonical(value: Any) -> bytes:
    """The bytes for ``value``; :class:`NotCanonical` for what canonical JSON cannot hold."""
    try:
        return _at_once(value) or rfc8785.dumps(value)
    except (ValueError, TypeError, RecursionError) as error:
        raise NotCanonical(f"This has no canonical JSON: {error}") from error


def _at_once(value: Any) -> bytes | None:
    """The canonical bytes by an encoder that is a hundred times faster; None where they may differ.

    It sorts names by code points instead of UTF-16 units (RFC 8785, 3.2.3), which is the same but for rare
    characters, and writes some numbers otherwise (3.2.2.3), which are written anew.
    """
    odd, _ = _odd_numbers(value)
    return None if odd is None else _written(value, odd)


def _written(value: Any, odd: int) -> bytes | None:
    """The canonical bytes of a value with so many odd numbers; None where they may differ."""
    text = orjson.dumps(value, option=orjson.OPT_SORT_KEYS)
    if odd:
        text, found = _rewritten(text)
        if found != odd:  # something in a text looks like such a number
            return None
    return text if text.isascii() or max(text) < FIRST_OF_FOUR else None


def _rewritten(text: bytes) -> tuple[bytes, int]:
    """The text with its odd numbers as RFC 8785 has them, and how many they are."""
    parts, after = [], 0
    for start, end in sorted(at.span() for ends in ODD_ENDS for at in ends.finditer(text)):
        first = start
        while text[first - 1] in IN_A_NUMBER:
            first -= 1
        if text[first - 1] in BEFORE_A_NUMBER and NUMBER.fullmatch(text, first, end):
            parts += [text[after:first], rfc8785.dumps(float(text[first:end]))]
            after = end
    return b"".join([*parts, text[after:]]), len(parts) // 2


def _odd_numbers(value: Any) -> tuple[int | None, int]:
    """How many numbers orjson and JavaScript write differently, and how deep the value is nested.

    None numbers if anything is not plain JSON.
    """
    odd, depth = 0, 0
    level = [value]
    while level:
        depth += 1
        inner: list[Any] = []
        for one in level:
            kind = type(one)
            if kind in PLAIN:
                continue
            if kind is dict:
                if not TEXTS.issuperset(map(type, one)):
                    return None, depth
                inner += one.values()
            elif kind is list:
                inner += one
            elif kind is float and math.isfinite(one):
                size = abs(one)
                odd += (size < 1e21 and one.is_integer()) or 1e-6 <= size < 1e-5
            elif not _is_exact(one):
                return None, depth
        level = inner
    return odd, depth


def _is_exact(value: Any) -> bool:
    return type(value) is int and abs(value) <= LARGEST_WHOLE_NUMBER


def digest(data: bytes) -> str:
    """SHA-256 in lower-case hex."""
    return hashlib.sha256(data).hexdigest()


def identity(value: Any) -> str:
    """The hash of the canonical bytes."""
    return digest(canonical(value))


def parse(text: bytes | str) -> Any:
    """JSON, read strictly: in UTF-8, no member twice, no NaN or infinity, not deeper than ``DEEPEST``."""
    try:
        if isinstance(text, bytes):
            text = text.decode("utf-8")  # json.loads would take UTF-16 and UTF-32 as well
        value = json.loads(
            text, object_pairs_hook=_members, parse_constant=_no_constant, parse_int=_whole_number
        )
    except NotCanonical:
        raise
    except (ValueError, OverflowError, RecursionError) as error:
        raise NotCanonical(f"This is not JSON: {error}") from error
    _measure(value)
    return value


def parse_canonical(data: bytes) -> Any:
    """JSON whose bytes are exactly the canonical ones: finds doubled members, spaces, other number forms."""
    found, value = _parse_at_once(data)
    if found:
        return value
    value = parse(data)
    if canonical(value) != data:
        raise NotCanonical("The bytes are not those of canonical JSON (RFC 8785).")
    return value


def _parse_at_once(data: bytes) -> tuple[bool, Any]:
    """Whether the bytes are canonical beyond doubt, and their value; the strict reading says the rest.

    Nothing is watched while it is read: a doubled name would be missing from what is written.
    """
    try:
        value = orjson.loads(data)
        odd, depth = _odd_numbers(value)
        good = odd is not None and depth <= DEEPEST and _written(value, odd) == data
    except (ValueError, TypeError, RecursionError):
        return False, None
    return good, value


def _members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) != len(pairs):
        raise NotCanonical("A name stands twice in one JSON object.")
    return members


def _whole_number(text: str) -> int | float:
    """Beyond 2^53 a float, as in JavaScript: RFC 8785 writes such a float with all its digits."""
    number = int(text)
    return number if abs(number) <= LARGEST_WHOLE_NUMBER else float(number)


def _no_constant(name: str) -> None:
    raise NotCanonical(f"{name} is not a JSON number.")


def _measure(value: Any) -> None:
    level, depth = [value], 0
    while level:
        depth += 1
        if depth > DEEPEST:
            raise NotCanonical(f"The JSON is nested deeper than {DEEPEST} levels.")
        level = [
            child
            for parent in level
            if type(parent) in CONTAINERS
            for child in (parent.values() if type(parent) is dict else parent)
        ]
