"""Tables, roots and folds mean what they say; limits of a table belong to it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks import nodes

KEYS, VALUES = (0.0, 10.0, 25.0), (1.0, 2.0, 5.0)


def test_a_step_table_takes_the_row_at_or_below_the_key():
    assert [nodes.step_down(KEYS, VALUES, key) for key in (0, 9.99, 10, 24, 25)] == [1, 1, 2, 2, 5]


def test_a_key_off_by_the_slack_of_a_conversion_still_finds_its_row():
    assert nodes.step_down(KEYS, VALUES, 10 - 1e-12) == 2
    assert nodes.exact(KEYS, VALUES, 25 + 1e-12) == 5


@pytest.mark.parametrize("look_up", [nodes.step_down, nodes.linear, nodes.linear_slope])
@pytest.mark.parametrize("key", [-0.1, 25.1])
def test_outside_a_table_there_is_no_value(look_up, key):
    assert math.isnan(look_up(KEYS, VALUES, key))


def test_an_exact_table_has_nothing_between_its_rows():
    assert math.isnan(nodes.exact(KEYS, VALUES, 5))


def test_a_linear_table_lies_on_straight_lines_through_its_rows():
    assert [nodes.linear(KEYS, VALUES, key) for key in (0, 5, 10, 25)] == [1, 1.5, 2, 5]
    assert nodes.linear(KEYS, VALUES, 17.5) == pytest.approx(3.5)
    assert nodes.linear_slope(KEYS, VALUES, 17.5) == pytest.approx(0.2)


@given(st.floats(0.01, 1e6))
def test_a_root_is_where_the_function_is_zero(square):
    assert nodes.root(lambda x: x * x - square, 0, square + 1) == pytest.approx(math.sqrt(square), rel=1e-12)


def test_a_root_works_for_falling_functions_and_at_the_lower_end():
    assert nodes.root(lambda x: 2 - x, 0, 5) == pytest.approx(2)
    assert nodes.root(lambda x: x, 0, 5) == 0


def test_steps_begun_and_completed_forgive_the_last_digit():
    assert [nodes.started(x) for x in (0, 0.2, 1, 1 + 1e-12, 1.1)] == [0, 1, 1, 1, 2]
    assert [nodes.completed(x) for x in (0, 0.9, 1 - 1e-12, 1.9)] == [0, 0, 1, 1]


def test_comparing_forgives_the_last_digit_and_nothing_more():
    assert nodes.at_most(0.458, 0.5 - 0.042)
    assert not nodes.at_most(1.00001, 1)
    assert nodes.at_most(7.8, math.inf)
    assert not nodes.at_most(math.inf, 7.8)


def test_a_sum_over_lists_of_different_length_is_no_number():
    assert math.isnan(nodes.total(lambda a, b: a * b, [1, 2], [1]))


def test_the_newest_readings_are_the_last_ones():
    assert nodes.tail([1, 2, 3], 2) == [2, 3]
    assert nodes.tail([1, 2, 3], 0) == [1, 2, 3]
    assert nodes.last([1, 2, 3]) == 3


@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=20), st.floats(-1e3, 1e3), st.floats(-1e3, 1e3))
def test_the_slope_of_a_line_is_found_whatever_is_added(readings, start, rise):
    line = [start + rise * place for place in range(len(readings))]
    assert nodes.slope(line) == pytest.approx(rise, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("fold", [nodes.last, nodes.greatest, nodes.least, nodes.slope])
def test_an_empty_series_has_no_value(fold):
    assert math.isnan(fold([]))


def test_probabilities_of_all_numbers_of_events_sum_to_one():
    assert nodes.poisson(-1, 3) == 0
    assert nodes.poisson(60, 3) == pytest.approx(1)
    assert nodes.poisson(4, 3) - nodes.poisson(3, 3) == pytest.approx(nodes.poisson_density(4, 3))
