"""Canonical JSON against the values of RFC 8785, and the strict reading of JSON."""

import hashlib
import json
import struct
from pathlib import Path

import pytest
import rfc8785
from hypothesis import example, given
from hypothesis import strategies as st

from webapp.signing.canonical import (
    DEEPEST,
    NotCanonical,
    canonical,
    digest,
    identity,
    parse,
    parse_canonical,
)

VECTORS = Path(__file__).parents[2] / "vectors" / "rfc8785"


def vector(name: str) -> dict:
    return json.loads((VECTORS / name).read_text())


def test_the_sample_of_section_3_2_2() -> None:
    sample = vector("3.2.2.json")
    assert canonical(json.loads(sample["text"])) == bytes.fromhex(sample["canonical_hex"])
    assert identity(json.loads(sample["text"])) == sample["sha256"]


def test_the_names_of_section_3_2_3_are_sorted_by_utf_16() -> None:
    sample = vector("3.2.3.json")
    found = canonical(json.loads(sample["text"]))
    assert list(json.loads(found).values()) == sample["values_in_order"]
    assert digest(found) == sample["sha256"]


@pytest.mark.parametrize("line", (VECTORS / "numbers.txt").read_text().splitlines())
def test_the_numbers_of_appendix_b(line: str) -> None:
    bits, text = line.split()
    number = struct.unpack(">d", bytes.fromhex(bits))[0]
    if text == "error":
        with pytest.raises(NotCanonical, match="no canonical JSON"):
            canonical(number)
    else:
        assert canonical(number) == text.encode()


@pytest.mark.parametrize(
    "value", [2**53, -(2**53), float("nan"), float("inf"), "\ud800", {1: 2}, {"a": object()}]
)
def test_what_json_cannot_hold_is_refused(value: object) -> None:
    with pytest.raises(NotCanonical, match="no canonical JSON"):
        canonical(value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('{"a": 1, "a": 2}', "stands twice"),
        ("[NaN]", "NaN is not a JSON number"),
        ("[-Infinity]", "-Infinity is not a JSON number"),
        ("{", "This is not JSON"),
        ("", "This is not JSON"),
        ("9" * 400, "This is not JSON"),
        (b"\xff", "This is not JSON"),
        ("[" * (DEEPEST + 1) + "]" * (DEEPEST + 1), "nested deeper"),
        ("[" * 100_000, "This is not JSON"),
        ('{"a":' * 100_000, "This is not JSON"),
    ],
)
def test_doubtful_json_is_refused(text: str | bytes, sentence: str) -> None:
    with pytest.raises(NotCanonical, match=sentence):
        parse(text)


@pytest.mark.parametrize(
    "text",
    [
        *(b'{"a": 1}', b'{"b":1,"a":2}', b"1.0", b"1e2", b'"\\u0041"', b'{"a":1,"a":1}', b"9007199254740993"),
        *(b"[NaN]", b"[1e-07,2.0]", b"[-0]", b'{"\xef\xac\xb3":1,"\xf0\x9f\x98\x80":1}', b"\xff", b""),
        *(b"[" * (DEEPEST + 1) + b"]" * (DEEPEST + 1), b"[" * 100_000),
    ],
)
def test_other_bytes_for_the_same_value_are_noticed(text: bytes) -> None:
    with pytest.raises(NotCanonical):
        parse_canonical(text)


numbers = st.integers(-(2**53) + 1, 2**53 - 1) | st.floats(allow_nan=False, allow_infinity=False)
values = st.recursive(
    st.none() | st.booleans() | numbers | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=4),
    max_leaves=15,
)


@given(values)
def test_canonical_bytes_read_back_to_the_same_bytes(value: object) -> None:
    data = canonical(value)
    assert parse_canonical(data) == value
    assert digest(data) == hashlib.sha256(data).hexdigest()


@given(values)
@example({"\U0001f600": 1, "\ufb33": 2})  # sorted the other way round by code points
@example({"looks like numbers": [":2.0,", "[1e-07]", "2.0"], "is one": 1e-07, "text": ",1e+22]"})
@example({"x": [":5e-6,", "[1e+16]", "5e-6"], "y": [5e-6, 1e20, 1e21, 1e17, -9.9e-6, 1e-6, 9.9e-7]})
@example([1e-5, 1.5e-7, 1e15, 1e16, 1e21, 2.0, -0.0, 0.1, '\u2028\x7f\x1f"\\/', [], {}, (1, 2)])
def test_the_bytes_are_those_of_a_library_of_its_own(value: object) -> None:
    assert canonical(value) == rfc8785.dumps(value)
