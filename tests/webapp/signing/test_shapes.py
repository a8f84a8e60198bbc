"""Shapes name the place that is wrong and say what it must be."""

import pytest

from webapp.signing.shapes import INSTANT, Map, Optional, Text, Words, wrong_places

SHAPE = {
    "name": Text("a name", 5, None, 1),
    "kind": Words(("a", "b")),
    "at": INSTANT,
    "maybe": (int, type(None)),
    "list": [{"inner": int}],
    "map": Map(dict),
    "left": Optional(str),
}
GOOD = {
    "name": "x",
    "kind": "a",
    "at": "2026-11-25T09:30:00.000Z",
    "maybe": None,
    "list": [{"inner": 1}],
    "map": {},
}


def test_what_fits_has_no_wrong_place() -> None:
    assert list(wrong_places(SHAPE, GOOD)) == []
    assert list(wrong_places(SHAPE, GOOD | {"left": "", "maybe": 3, "map": {"a": {}}})) == []


@pytest.mark.parametrize(
    ("change", "place", "what"),
    [
        ({"name": ""}, "name", "must be a name of 1 to 5 characters"),
        ({"name": 3}, "name", "must be a name"),
        ({"kind": "c"}, "kind", "must be one of: a, b"),
        ({"kind": []}, "kind", "must be one of: a, b"),
        ({"at": "2026-13-25T09:30:00.000Z"}, "at", "must be a UTC time like 2026-11-25T09:30:00.000Z"),
        ({"at": "2026-11-25T09:30:00Z"}, "at", "must be a UTC time like 2026-11-25T09:30:00.000Z"),
        ({"at": "2026-02-30T09:30:00.000Z"}, "at", "must be a UTC time like 2026-11-25T09:30:00.000Z"),
        ({"at": "٢٠٢٦-11-25T09:30:00.000Z"}, "at", "must be a UTC time like 2026-11-25T09:30:00.000Z"),
        ({"maybe": True}, "maybe", "must be a whole number"),
        ({"maybe": 1.5}, "maybe", "must be a whole number"),
        ({"list": {}}, "list", "must be a list"),
        ({"list": [{"inner": 1}, {"inner": "x"}]}, "list.1.inner", "must be a whole number"),
        ({"map": {"a": 1}}, "map.a", "must be an object"),
        ({"map": []}, "map", "must be an object"),
        ({"left": 1}, "left", "must be a text"),
        ({"other": 1}, "other", "is not known here"),
    ],
)
def test_the_wrong_place_is_named(change: dict, place: str, what: str) -> None:
    assert list(wrong_places(SHAPE, GOOD | change)) == [(place, what)]


def test_what_is_missing_is_named() -> None:
    assert list(wrong_places(SHAPE, {name: value for name, value in GOOD.items() if name != "at"})) == [
        ("at", "is missing")
    ]
    assert list(wrong_places(SHAPE, [])) == [("", "must be an object")]
