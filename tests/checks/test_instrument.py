"""An instrument's specification: uncertainty in the entry's unit, and why a reading may not count."""

import math

import pytest

from checks.catalogue import FORMULAS
from checks.instrument import problems, property_of, standard_uncertainty
from tests.checks.small import gauge


def test_share_of_range_and_resolution():
    """Class 1.0 of 6 bar, step 0.05: root of 0.06^2/3 + 0.05^2/12 (GUM 4.3.7, F.2.2.1) = 0.03753."""
    found = standard_uncertainty(
        gauge(range_maximum=6, accuracy_of_range=0.01, resolution=0.05), 3.0, "bar", FORMULAS
    )
    assert found == pytest.approx(0.03753, abs=5e-6)


def test_uncertainty_is_given_in_the_unit_of_the_entry():
    in_psi = gauge(unit="psi", range_maximum=100, accuracy_of_range=0.01, resolution=0)
    assert standard_uncertainty(in_psi, 3.0, "bar", FORMULAS) == pytest.approx(
        1 / math.sqrt(3) * 0.0689476, rel=1e-6
    )


def test_a_resistivity_meter_gives_the_uncertainty_of_a_conductivity():
    """u(1/R) = u(R) / R^2: 10 Mohm cm with 2 %: u 0.11547, in conductivity 0.0011547 uS/cm."""
    meter = gauge(unit="Mohm cm", accuracy_of_reading=0.02, resolution=0)
    assert standard_uncertainty(meter, 0.1, "uS/cm", FORMULAS) == pytest.approx(0.0011547, rel=1e-4)


@pytest.mark.parametrize("unit", ["ohm", "furlong", None])
def test_a_unit_that_does_not_fit_gives_no_uncertainty_and_is_named(unit):
    odd = gauge(unit=unit)
    assert standard_uncertainty(odd, 1.0, "bar", FORMULAS) is None
    assert [one["code"] for one in problems(odd, 1.0, "bar", "gauge", None)] == ["instrument_unit"]


def test_a_property_is_given_in_the_unit_of_the_entry():
    assert property_of(gauge(unit="kPa", resolution=10), "resolution", 1.0, "bar") == pytest.approx(0.1)
    assert property_of(gauge(unit="degF", range_maximum=212), "range_maximum", None, "degC") == pytest.approx(
        100
    )
    assert property_of(gauge(accuracy_of_range=0.016), "accuracy_of_range", None, "bar") == 0.016
    assert property_of(gauge(resolution=None), "resolution", 1.0, "bar") is None


@pytest.mark.parametrize(
    ("changes", "at", "code"),
    [
        ({"kind": "thermometer"}, None, "wrong_instrument"),
        ({"calibration_due": "2026-11-24"}, "2026-11-25T00:10:00.000Z", "calibration_overdue"),
        ({"calibration_due": None}, None, "calibration_unknown"),
        ({"range_maximum": 4}, None, "outside_instrument_range"),
        ({"range_minimum": 6}, None, "outside_instrument_range"),
        ({"range_maximum": None}, None, "instrument_incomplete"),
    ],
)
def test_why_a_reading_does_not_count(changes, at, code):
    assert [one["code"] for one in problems(gauge(**changes), 5.0, "bar", "gauge", at)] == [code]


def test_the_day_on_which_calibration_falls_due_is_still_in_date():
    assert (
        problems(gauge(calibration_due="2026-11-25"), 5.0, "bar", "gauge", "2026-11-25T23:00:00.000Z") == []
    )


def test_a_reading_at_the_end_of_the_range_is_inside():
    assert problems(gauge(range_maximum=0.3), 0.1 + 0.2, "bar", "gauge", None) == []
