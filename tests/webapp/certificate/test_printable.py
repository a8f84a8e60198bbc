"""What the fonts cannot set is printed as its code point and never stops a certificate."""

import pytest

from webapp.certificate.printable import can_set, printable, printable_tree


@pytest.mark.parametrize(
    "text",
    ["plain", 'a # $ \\ * _ ` < @ [ ] "', "Łódź Œuvre", "Ελληνικά", "Кирилл", "שלום", "مرحبا", "µS/cm ≤ Ω ✓"],
)
def test_what_has_glyphs_stays_as_it_is(text):
    assert printable(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("pump 😀 1", "pump [U+1F600] 1"),
        ("日本", "[U+65E5][U+672C]"),
        ("a\x00b\x07", "a[U+0000]b[U+0007]"),
        ("\ue000", "[U+E000]"),
        ("line\r\nbreak", "line\nbreak"),
        ("e\u0301", "é"),
    ],
)
def test_what_has_none_is_printed_as_its_code_point(text, shown):
    assert printable(text) == shown


def test_marks_that_turn_the_reading_direction_become_visible():
    assert printable("user\u202egpj.exe") == "user[U+202E]gpj.exe"


@pytest.mark.parametrize(
    "text", ["q\u0483\u0489", "x\u20dd\u20e3", "👩\u200d🔬", "\u0e33", "a" + "\u0335" * 40]
)
def test_what_comes_out_can_always_be_set(text):
    assert can_set(printable(text))


def test_every_text_inside_a_tree_is_made_printable():
    tree = {"a": ["😀", 1, None, {"b": "ok"}]}
    assert printable_tree(tree) == {"a": ["[U+1F600]", 1, None, {"b": "ok"}]}
