"""The page of deviations says what is so, and no deviation is larger than the bound beside it."""

import pytest

from checks.generate import ROOT
from tests.oracles.comparison import Comparison, measured
from tests.oracles.deviations import COMPARISONS, PAGE, page, without_versions


@pytest.mark.parametrize("comparison", COMPARISONS, ids=lambda one: f"{one.formula}: {one.over}")
def test_no_deviation_is_larger_than_its_bound(comparison):
    found = comparison.deviation
    assert (found.absolute if comparison.absolute else found.relative) <= comparison.bound


def test_the_page_is_what_is_measured():
    written = (ROOT / PAGE).read_text(encoding="utf-8")
    assert without_versions(written) == without_versions(page()), (
        "To update: python -m tests.oracles.deviations"
    )


def test_a_deviation_is_found_where_it_is():
    """A library that is one degree off at 50 degC."""
    points = tuple({"temperature": one} for one in (10, 50, 90))
    shifted = Comparison(
        "water_viscosity",
        "iapws",
        "",
        points,
        lambda point: 2.0 if point["temperature"] == 50 else own(point),
        0,
        "",
    )
    found = measured(shifted)
    assert (found.absolute_at, found.relative_at) == ({"temperature": 50}, {"temperature": 50})
    assert found.absolute == pytest.approx(2.0 - own({"temperature": 50}))


def own(point):
    from checks.catalogue import FORMULAS

    return FORMULAS["water_viscosity"].evaluate(point).value
