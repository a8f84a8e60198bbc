"""Numbers as a reader meets them never contradict the verdict beside them."""

import pytest

from webapp.certificate import figures


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0.18149, 3, "0.181"),
        (1234.5, 2, "1200"),
        (0, 3, "0"),
        (-0.25, 2, "\N{MINUS SIGN}0.25"),
        (1e-9, 2, "1E\N{MINUS SIGN}9"),
        (float("nan"), 2, "\N{EN DASH}"),
        (20.0, 4, "20"),
    ],
)
def test_a_number_has_so_many_significant_digits_and_an_exponent_only_where_needed(value, digits, text):
    assert figures.rounded(value, digits) == text


def test_ends_of_an_interval_are_rounded_into_it():
    """A reading of 0.16547 passes a limit of 0.165475; shown as 0.1655 it would look as if 0.1655 passed."""
    assert figures.interval(None, 0.165475, "ohm") == "at most 0.1654\u00a0ohm"
    assert figures.interval(2.40001, 2.51999, "bar") == "2.401 to 2.519\u00a0bar"
    assert figures.interval(10.35461, None, "") == "at least 10.36"
    assert figures.interval(2, 2, "") == "exactly 2"
    assert figures.interval(20_782, 20_800, "date") == "2026-11-25 to 2026-12-13"


def test_what_a_binary_fraction_adds_is_not_rounded_into_a_digit():
    assert figures.interval(0.1 + 0.2, None, "") == "at least 0.3"


def test_an_empty_interval_says_that_there_is_no_setting():
    assert figures.interval(2.5, 2.4, "bar") == "none: from 2.5\u00a0bar down to 2.4\u00a0bar"


def test_an_uncertainty_is_rounded_up_to_two_digits():
    """GUM (JCGM 100:2008) 7.2.6: two significant digits; it may be appropriate to round up."""
    assert figures.expanded_uncertainty(0.02711, "bar") == "U = 0.028\u00a0bar"


@pytest.mark.parametrize(
    ("instant", "offset", "text"),
    [
        ("2026-11-25T23:30:00.000Z", 60, "26 November 2026, 00:30 (UTC+01:00)"),
        ("2026-03-01T02:10:00.000Z", -210, "28 February 2026, 22:40 (UTC\N{MINUS SIGN}03:30)"),
        ("1996-12-20T00:39:57.000Z", -480, "19 December 1996, 16:39 (UTC\N{MINUS SIGN}08:00)"),
    ],
)
def test_a_time_is_that_of_the_place_with_its_zone(instant, offset, text):
    """The last row is the second example of RFC 3339, section 5.8."""
    assert figures.local_time(instant, offset) == text


@pytest.mark.parametrize(
    ("unit", "symbol"),
    [("ohm", "Ω"), ("uS/cm", "µS/cm"), ("1", ""), (None, ""), ("m**3/h", "m³/h"), ("CFU", "CFU")],
)
def test_units_are_written_with_their_symbols(unit, symbol):
    assert figures.symbol(unit) == symbol
