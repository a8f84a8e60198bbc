"""Shapes name the place that is wrong and say what it must be."""

import pytest

from webapp.signing.canonical import canonical
from webapp.signing.shapes import EVENT, INSTANT, Map, Optional, Strokes, Text, Words, wrong_places

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


DRAWN = {"value": "Mira Oltmann", "role": "Facilities", "means": "I take it over.", "stated": False}
LONGEST = 3_600_000


def wrong_in_content(content: object) -> list[str]:
    return [
        f"{place} {what}" for place, what in wrong_places({"content": EVENT["content"]}, {"content": content})
    ]


@pytest.mark.parametrize(
    "strokes", [[], [[0, 0, 0]], [[1000, 400, LONGEST]], [[5, 5, 0, 9, 9, 16], [7, 7, 16]]]
)
def test_a_drawing_is_taken(strokes: list) -> None:
    assert wrong_in_content(DRAWN | {"strokes": strokes}) == []


@pytest.mark.parametrize(
    ("strokes", "what"),
    [
        ("M0 0L5 5", "must be a list"),
        ([[]], "whole points"),
        ([[1, 2]], "whole points"),
        ([5], "whole points"),
        ([[1001, 0, 0]], "inside 1000 by 400"),
        ([[0, 401, 0]], "inside 1000 by 400"),
        ([[-1, 0, 0]], "inside 1000 by 400"),
        ([[0, 0, LONGEST + 1]], "end within an hour"),
        ([[0.5, 0, 0]], "whole numbers"),
        ([[True, 0, 0]], "whole numbers"),
        ([[0, 0, 9], [0, 0, 8]], "never go back"),
        ([[0, 0, 0]] * 101, "at most 100 strokes"),
        ([[0, 0, 0] * 1001], "at most 1000 points"),
    ],
)
def test_what_is_no_drawing_is_named(strokes: object, what: str) -> None:
    (found,) = wrong_in_content(DRAWN | {"strokes": strokes})
    assert found.startswith("content.strokes ")
    assert what in found


def test_a_drawing_says_who_signed_what_and_nothing_else() -> None:
    assert wrong_in_content({"strokes": [], "stated": True, "value": "", "picture": "data:"}) == [
        "content.value must be a name of 1 to 200 characters",
        "content.role is missing",
        "content.means is missing",
        "content.picture is not known here",
    ]


def test_the_largest_drawing_stays_below_20_kilobytes() -> None:
    shape = Strokes()
    stroke = [shape.wide, shape.high, shape.longest] * (shape.points // shape.strokes)
    content = DRAWN | {"strokes": [stroke] * shape.strokes, "role": "x" * 200, "means": "x" * 1000}
    assert wrong_in_content(content) == []
    assert len(canonical(content)) < 20_000
