"""Limits by grade, temperature and pH."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS
from checks.lookup import grade_limits


def outcome(name, **inputs):
    return FORMULAS[name].evaluate(inputs)


@pytest.mark.parametrize("limit", grade_limits(), ids=lambda limit: f"{limit.grade} {limit.parameter}")
def test_every_limit_of_a_table_file_is_found_by_its_grade(limit):
    assert outcome(f"grade_{limit.parameter}", grade=limit.grade).value == limit.value
    assert FORMULAS[f"grade_{limit.parameter}"].unit == limit.unit


@pytest.mark.parametrize(
    ("name", "grade"),
    [
        ("grade_toc_maximum", "iso_3696_1"),
        ("grade_toc_maximum", "astm_d1193_4"),
        ("grade_colony_count_maximum", "astm_d1193_1"),
        ("grade_conductivity_maximum", "usp_purified"),
        ("grade_resistivity_minimum", "iso_3696_1"),
    ],
)
def test_a_grade_without_such_a_limit_says_so(name, grade):
    assert outcome(name, grade=grade).reason == {"code": "no_limit_in_grade"}


def test_the_types_of_astm_are_no_order_of_purity():
    types = [outcome("grade_conductivity_maximum", grade=f"astm_d1193_{n}").value for n in (1, 2, 3, 4)]
    assert types != sorted(types)


@given(st.floats(0, 100))
def test_stage_1_never_allows_more_than_the_next_row(temperature):
    here = outcome("usp_645_stage_1_limit", temperature=temperature).value
    row = outcome("usp_645_stage_1_limit", temperature=5 * int(temperature / 5 + 1e-9)).value
    assert here == row


@given(st.floats(0, 99))
def test_the_european_limit_rises_with_temperature(temperature):
    assert (
        outcome("ph_eur_purified_water_limit", temperature=temperature + 1).value
        >= outcome("ph_eur_purified_water_limit", temperature=temperature).value
    )


@pytest.mark.parametrize(
    ("ph", "row"), [(4.95, 5.0), (5.04, 5.0), (5.05, 5.1), (6.649, 6.6), (6.65, 6.7), (7.049, 7.0)]
)
def test_the_ph_is_rounded_to_a_tenth_half_upwards(ph, row):
    assert outcome("usp_645_stage_3_limit", ph=ph).value == outcome("usp_645_stage_3_limit", ph=row).value


@pytest.mark.parametrize("ph", [4.94, 7.05, 9.0])
def test_a_ph_that_rounds_outside_the_table_is_refused(ph):
    assert outcome("usp_645_stage_3_limit", ph=ph).reason["code"] == "outside_range"
