"""Against the package `uncertainties`: linear propagation with what readings of one instrument share.

There each source of error is a variable of its own, and arithmetic on them carries the correlation.
"""

import math

import pytest
from uncertainties import ufloat

from tests.checks.measured import measured, meter

ONE = meter(
    "m", accuracy_of_reading=0.013, accuracy_of_range=2e-7, resolution=0.1, calibration_uncertainty=0.3
)
OTHER = meter("other", accuracy_of_reading=0.004, resolution=0.02, calibration_uncertainty=0.05)
WARM = meter("warm", unit="degC", accuracy_of_range=2.5e-7, resolution=0.1)


def readings(values, chosen):
    """Each value with its meter's error, one variable for each meter, and its own step of the display."""
    errors = {one["id"]: ufloat(0, 1) for one in (ONE, OTHER, WARM)}
    found = {}
    for name, value in values.items():
        used = {"m": ONE, "other": OTHER, "warm": WARM}[chosen.get(name, "m")]
        half_width = used["accuracy_of_reading"] * abs(value) + used["accuracy_of_range"] * 2e6
        shared = math.sqrt(half_width**2 / 3 + (used["calibration_uncertainty"] / 2) ** 2)
        found[name] = value + shared * errors[used["id"]] + used["resolution"] * ufloat(0, 1 / math.sqrt(12))
    return found


CASES = [
    ("difference", "uS/cm", lambda value, subtract: value - subtract, {"value": 40.0, "subtract": 31.0}),
    ("ratio", "1", lambda value, reference: value / reference, {"value": 40.0, "reference": 31.0}),
    (
        "relative_difference",
        "1",
        lambda value, reference: (value - reference) / reference,
        {"value": 40.0, "reference": 31.0},
    ),
    (
        "sum_of",
        "uS/cm",
        lambda first, second, third: first + second + third,
        dict(first=4.0, second=31.0, third=12.0),
    ),
    (
        "larger_of",
        "uS/cm",
        lambda first, second: max(first, second, key=lambda one: one.nominal_value),
        {"first": 4.0, "second": 31.0},
    ),
]
CHOSEN = [
    {},
    {"value": "other", "second": "other"},
    {"reference": "other", "subtract": "other", "third": "other"},
]


@pytest.mark.parametrize("chosen", CHOSEN, ids=["one meter", "two meters", "two meters again"])
@pytest.mark.parametrize(("name", "unit", "same", "values"), CASES, ids=[case[0] for case in CASES])
def test_one_meter_or_two(name, unit, same, values, chosen):
    chosen = {one: which for one, which in chosen.items() if one in values}
    result = measured(name, unit, values, {"m": ONE, "other": OTHER}, chosen=chosen)
    expected = same(**readings(values, chosen)).std_dev
    assert result["quantities"]["s.result"]["u"] == pytest.approx(expected, rel=1e-9)


def test_a_compensated_conductivity():
    """The meter's own arithmetic undone, with a meter and a thermometer: 2 % per kelvin from 25 degC."""
    values, chosen = {"conductivity": 41.0, "temperature": 17.5}, {"temperature": "warm"}
    result = measured(
        "uncompensated_conductivity", "uS/cm", values, {"m": ONE, "warm": WARM}, chosen=chosen,
        more="coefficient = { value = 0.02 }",
    )  # fmt: skip
    given = readings(values, chosen)
    expected = given["conductivity"] * (1 + 0.02 * (given["temperature"] - 25))
    assert result["quantities"]["s.result"]["u"] == pytest.approx(expected.std_dev, rel=1e-9)
