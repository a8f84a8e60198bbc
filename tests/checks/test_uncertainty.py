"""Repeats, degrees of freedom, and what readings of one instrument share."""

import copy
import math

import pytest

from checks.catalogue import FORMULAS
from checks.engine import judge
from checks.uncertainty import Contribution, combined
from tests.checks.measured import measured, meter
from tests.checks.small import PROCEDURE, case

SPECIFIED = meter(
    accuracy_of_reading=0.01, accuracy_of_range=0.1, resolution=0.1, calibration_uncertainty=0.166
)
SPAN = {"range_minimum": 0, "range_maximum": 100}


def from_parts(uncertainties, degrees):
    parts = zip(uncertainties, degrees, strict=True)
    slopes = {str(place): (1.0, Contribution(u, degrees=nu)) for place, (u, nu) in enumerate(parts)}
    return combined(slopes, FORMULAS)


# ---- published examples


def test_the_product_of_three_quantities():
    """JCGM 100 G.4.1 (from memory): 0.25, 0.57, 0.82 % of 10, 5, 15 observations give 1.03 %, 19.0 degrees.

    Before truncation these are 18.9987; the next lower integer, as the same clause asks, is 18.
    """
    assert from_parts([0.25, 0.57, 0.82], [9, 4, 14]) == (pytest.approx(1.03, abs=0.005), 18)


def test_the_end_gauge():
    """JCGM 100 H.1 (from memory): 25, 9.7, 2.9, 16.6 nm with 18, 25.6, 50, 2 degrees give 32 nm and 16."""
    assert from_parts([25, 9.7, 2.9, 16.6], [18, 25.6, 50, 2]) == (pytest.approx(32, abs=0.5), 16)


def test_a_specification_alone_has_no_limit_of_degrees():
    """JCGM 100 G.4.2: a half-width that surely holds counts as known without limit."""
    assert from_parts([1.0, 2.0], [None, None]) == (pytest.approx(math.sqrt(5)), None)


def test_a_conductivity_compensated_to_25_degrees():
    """By hand, JCGM 100 5.1.2: k25 = k / D, D = 1 + alpha (T - 25), each half-width rectangular.

    k 4.35 (1 % + 0.02, step 0.01), T 17.5 +/- 0.5, alpha 0.0200 +/- 0.0010: k25 5.118, contributions 0.0433,
    0.0348 and 0.0261, together 0.0613.
    """
    root = math.sqrt(3)
    low = 1 + 0.02 * (17.5 - 25)
    slopes = {
        "k": (1 / low, Contribution(0.01 / math.sqrt(12), common=(0.0435 + 0.02) / root, instrument="meter")),
        "T": (-4.35 / low**2 * 0.02, Contribution(0.0, common=0.5 / root, instrument="thermometer")),
        "alpha": (-4.35 / low**2 * (17.5 - 25), Contribution(0.001 / root)),
    }
    assert combined(slopes, FORMULAS) == (pytest.approx(0.0613, abs=5e-5), None)


# ---- repeats


def test_five_readings_of_a_meter_with_a_certificate():
    """By hand, JCGM 100 4.2.3 and G.4.1, table G.2.

    8.2, 8.5, 8.1, 8.4, 8.3: mean 8.30, s 0.1581, type A 0.1581 / root of 5 = 0.0707 with 4 degrees.
    Accuracy 1 % + 0.1 at 8.3: 0.183 / root of 3 = 0.1057; certificate 0.166 / 2 = 0.0830; step 0.1: 0.0289.
    u = 0.1545; 0.1545^4 / (0.0707^4 / 4) = 91 degrees; k of the row below, 50, is 2.05; U = 0.3167.
    """
    meters = {"m": {**SPECIFIED, "accuracy_of_range": 0.001, **SPAN}}
    result = measured("series_mean", "uS/cm", {"readings": [8.2, 8.5, 8.1, 8.4, 8.3]}, meters, limit=9.0)
    rule = result["rules"]["s.rule"]
    assert rule["u"] == pytest.approx(0.1545, abs=5e-5)
    assert (rule["nu"], rule["k"], rule["verdict"]) == (91, 2.05, "pass")
    assert rule["expanded"] == pytest.approx(2.05 * 0.1545, abs=2e-4)
    assert rule["accept_upper"] == pytest.approx(9.0 - 0.3167, abs=2e-4)


def test_three_readings_that_scatter_need_a_wider_factor():
    """By hand: 0.06, 0.10, 0.07 mg/L, limit 0.10; colorimeter +/-0.02, step 0.01.

    Mean 0.0767, s 0.0208, type A 0.0120 with 2 degrees; accuracy 0.01155, step 0.0029: u = 0.0169.
    0.0169^4 / (0.0120^4 / 2) = 7.8, truncated 7: k = 2.43 (JCGM 100, table G.2), U = 0.041.
    p by Student's t with 7 degrees, z = 1.381: 0.895 (scipy.stats.t.cdf); by the normal one 0.916.
    """
    meters = {
        "m": meter(unit="mg/L", accuracy_of_range=0.1, resolution=0.01, range_minimum=0, range_maximum=0.2)
    }
    readings = {"readings": [0.06, 0.10, 0.07]}
    rule = measured("series_mean", "mg/L", readings, meters, limit=0.10)["rules"]["s.rule"]
    assert rule["u"] == pytest.approx(0.0169, abs=5e-5)
    assert (rule["nu"], rule["k"], rule["verdict"]) == (7, 2.43, "conditional_pass")
    assert rule["expanded"] == pytest.approx(0.041, abs=5e-4)
    assert rule["probability"] == pytest.approx(0.895, abs=1e-3)


def test_one_reading_alone_says_nothing_about_its_scatter():
    """Accuracy 0.1 alone: u = 0.1 / root of 3, and k = 2."""
    meters = {"m": meter(accuracy_of_range=0.001) | SPAN}
    rule = measured("series_mean", "uS/cm", {"readings": [8.3]}, meters)["rules"]["s.rule"]
    assert (rule["u"], rule["nu"], rule["k"]) == (pytest.approx(0.1 / math.sqrt(3)), None, 2)


def test_readings_that_drift_are_no_repeats():
    """The newest of a falling series has the uncertainty of one reading, whatever the others were."""
    meters = {"m": meter(accuracy_of_range=0.001) | SPAN}
    rule = measured("last_reading", "uS/cm", {"readings": [9.0, 5.0, 1.0]}, meters)["rules"]["s.rule"]
    assert (rule["u"], rule["nu"]) == (pytest.approx(0.1 / math.sqrt(3)), None)


# ---- one instrument


def u_of(formula, unit, readings, meters, **more):
    return measured(formula, unit, readings, meters, **more)["quantities"]["s.result"]["u"]


PAIR = {"value": 9.0, "subtract": 8.0}


def test_a_difference_with_one_meter_loses_what_both_readings_share():
    """By hand: accuracy 0.1 and calibration 0.2 fall out; two steps of 0.1 stay, together 0.1 / root of 6."""
    meters = {"m": meter(accuracy_of_range=0.001, calibration_uncertainty=0.2, resolution=0.1) | SPAN}
    assert u_of("difference", "uS/cm", PAIR, meters) == pytest.approx(0.1 / math.sqrt(6))


def test_a_sum_with_one_meter_doubles_it():
    """By hand: twice 0.1 / root of 3, without a step of the display."""
    meters = {"m": meter(accuracy_of_range=0.001) | SPAN}
    assert u_of("sum_of", "uS/cm", {"first": 9.0, "second": 8.0}, meters) == pytest.approx(0.2 / math.sqrt(3))


def test_a_ratio_with_one_meter_does_not_feel_a_share_of_the_reading():
    meters = {"m": meter(accuracy_of_reading=0.02)}
    assert u_of("ratio", "1", {"value": 9.0, "reference": 3.0}, meters) == pytest.approx(0, abs=1e-12)


def test_readings_with_two_meters_are_independent():
    """By hand: 0.1 / root of 3, twice in squares."""
    one = meter(accuracy_of_range=0.001) | SPAN
    meters = {"m": one, "other": {**one, "id": "other"}}
    found = u_of("difference", "uS/cm", PAIR, meters, chosen={"subtract": "other"})
    assert found == pytest.approx(0.1 * math.sqrt(2 / 3))


def test_a_meter_that_shows_resistivity_shares_its_error_with_the_other_sign():
    """1 / (10 Mohm cm) = 0.1 uS/cm: a reading too high by 2 % is a conductivity too low by 2 %."""
    meters = {"m": meter(unit="Mohm cm", accuracy_of_reading=0.02)}
    shared = Contribution(0.0, common=-0.02 * 0.1, instrument="m")
    direct = Contribution(0.0, common=0.02 * 10, instrument="m")
    u, _ = combined({"a": (1.0, shared), "b": (0.01, direct)}, FORMULAS)
    assert u == pytest.approx(0, abs=1e-15)
    assert u_of("last_reading", "Mohm cm", {"readings": [10.0]}, meters) == pytest.approx(0.2 / math.sqrt(3))


# ---- calibration


def test_a_series_read_after_the_calibration_ran_out_gives_no_full_pass():
    meters = {"m": meter(accuracy_of_range=0.001, calibration_due="2026-11-24") | SPAN}
    result = measured("series_mean", "uS/cm", {"readings": [8.2, 8.3]}, meters, limit=100)
    rule = result["rules"]["s.rule"]
    assert rule["verdict"] == "instrument_not_good_enough"
    assert rule["reading"] == pytest.approx(8.25)
    assert rule["reasons"] == [
        {"code": "calibration_overdue", "name": "Meter", "due": "2026-11-24", "quantity": "s.readings"}
    ]


def test_what_only_has_to_be_there_does_not_pass_with_an_overdue_instrument_either():
    """The value is kept; the reason names the instrument and the date."""
    procedure = copy.deepcopy(PROCEDURE)
    given = {**procedure["steps"][1]["rules"][2], "id": "pressure_given", "entry": "first.pressure"}
    procedure["steps"][0]["rules"].append(given)
    late = {"value": 5.0, "instrument": "g", "at": "2027-03-02T00:00:00.000Z"}
    result = judge(procedure, case(entries={"first.pressure": late}))["rules"]["first.pressure_given"]
    assert result["verdict"] == "instrument_not_good_enough"
    overdue = {
        "code": "calibration_overdue",
        "name": "Gauge",
        "due": "2027-03-01",
        "quantity": "first.pressure",
    }
    assert result["reasons"] == [overdue]
