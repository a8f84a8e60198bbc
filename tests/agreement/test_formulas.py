"""Python and the phone compute the same numbers and give the same reasons.

Both evaluate the same expressions with the same order of operations. What differs is the last
digit of exp, log and pow, which two libraries compute; and what is built from it.
"""

import math

import pytest

from checks.catalogue import FORMULAS
from tests.agreement.generated_inputs import cases

pytestmark = pytest.mark.browser

ULPS = 16
"""A value may differ by 16 units in the last place: eight library calls, each off by at most one, doubled."""

CANCELLING = {
    "conductivity_at_25": 1e-13,
    "resistivity_at_25": 1e-13,
    "water_ion_product": 1e-14,
    "conformance_probability": 1e-13,
    "colony_count_lower": 1e-12,
    "colony_count_upper": 1e-12,
    "volume_to_demonstrate": 1e-12,
    "effective_degrees_of_freedom": 1e-14,
    "series_standard_deviation": 1e-13,
    "series_mean_uncertainty": 1e-13,
    "carbon_dioxide_in_air_equilibrium": 1e-12,
    "free_carbon_dioxide": 1e-12,
    "permeate_ph": 1e-13,
    "langelier_index": 1e-11,
    "concentrate_langelier_index": 1e-11,
    "maximum_recovery": 1e-11,
    "mean_feed_concentration_factor": 1e-11,
    "salt_passage": 1e-11,
    "salt_rejection": 1e-11,
    "normalised_salt_passage": 1e-11,
    "net_driving_pressure": 1e-11,
    "deioniser_load": 1e-13,
    "annular_uv_fluence": 1e-11,
    "bench_uv_irradiance": 1e-11,
    "isocyanurate_free_chlorine": 1e-12,
    "isocyanurate_hypochlorous_acid": 1e-12,
    "contact_value": 1e-12,
    "chlorine_decay_rate": 1e-11,
    "friction_factor": 1e-12,
    "pipe_pressure_loss": 1e-12,
    "gravity_drain_capacity": 1e-12,
    "thermal_pressure_drift": 1e-12,
    "leak_rate": 1e-12,
}
"""Formulas in which a difference or a root enlarges the last digit, with the relative difference allowed."""

SMALLEST = {"conformance_probability": 1e-14}
"""A probability below this means nothing; Student's is a sum near one, taken from one."""

SANE = 1000
ASK = """async ([name, cases, what]) => {
  const { formulas } = await import("/static/generated/formulas.js");
  return cases.map(values => formulas[name][what](values));
}"""


def close(name, here, there, times=1, least=0.0):
    """Whether two numbers agree as far as this formula can promise.

    A derivative may be 16 times further off, and always by 1e-14 of the largest one: some are differences.
    """
    if here is None or there is None or isinstance(here, str):
        return here == there
    allowed = max(ULPS * math.ulp(here), CANCELLING.get(name, 0) * abs(here), SMALLEST.get(name, 0))
    return abs(here - there) <= max(times * allowed, least)


@pytest.mark.parametrize("name", FORMULAS)
def test_the_phone_computes_what_python_computes(phone, name):
    formula = FORMULAS[name]
    asked = cases(formula, SANE)
    answers = phone.evaluate(ASK, [name, asked, "evaluate"])
    different = []
    for values, there in zip(asked, answers, strict=True):
        here = formula.evaluate(values)
        if here.reason != there["reason"] or not close(name, here.value, there["value"]):
            different.append((values, here, there))
    assert not different, f"{len(different)} of {len(asked)} differ, first: {different[0]}"


@pytest.mark.parametrize("name", [name for name, formula in FORMULAS.items() if formula.measured])
def test_the_phone_derives_what_python_derives(phone, name):
    formula = FORMULAS[name]
    asked = cases(formula, SANE // 4)
    answers = phone.evaluate(ASK, [name, asked, "sensitivities"])
    different = []
    for values, there in zip(asked, answers, strict=True):
        here = formula.sensitivities(values)
        largest = max((abs(value) for value in here.values() if value is not None), default=0.0)
        if here.keys() != there.keys() or not all(
            close(name, here[one], there[one], 16, largest * 1e-14) for one in here
        ):
            different.append((values, here, there))
    assert not different, f"{len(different)} of {len(asked)} differ, first: {different[0]}"


def test_every_formula_is_refused_and_answered_in_this_test():
    """Without both kinds of answer the comparison would show nothing."""
    for name, formula in FORMULAS.items():
        outcomes = [formula.evaluate(values) for values in cases(formula, 50)]
        assert any(outcome.reason is None for outcome in outcomes), name
        assert any(outcome.reason is not None for outcome in outcomes), name
