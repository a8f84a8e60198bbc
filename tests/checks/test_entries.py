"""What counts as entered."""

import pytest

from checks.entries import read_entry

DRAWING = {
    "id": "taken_over",
    "kind": "drawing",
    "options": [],
    "minimum": None,
    "maximum": None,
    "unit": None,
}


@pytest.mark.parametrize(
    ("more", "value"),
    [
        ({"strokes": [[1, 2, 0]], "stated": False}, "Mira Oltmann"),
        ({"strokes": [], "stated": True}, "Mira Oltmann"),
        ({"strokes": [], "stated": False}, None),
        ({}, None),
    ],
)
def test_a_name_is_a_signature_with_lines_or_with_the_statement_that_it_is_one(more, value):
    assert read_entry(DRAWING, {"value": "Mira Oltmann"} | more) == (value, None)
