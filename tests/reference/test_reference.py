"""Published values: each row of the files beside this one, computed and compared as printed.

A row has the sentence that it states, the formula, its place in the source, the inputs with their
units, the expected value as the source prints it, and its unit. It must agree within half a step
of the last printed digit, or within `within` for the reason given in `because`.
"""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from checks.catalogue import FORMULAS
from checks.inputs import ANY, Choice
from checks.source import Source
from checks.units import Quantity, convert

FILES = sorted(Path(__file__).parent.glob("*.toml"))


def rows():
    for file in FILES:
        content = tomllib.loads(file.read_text(encoding="utf-8"))
        for row in content["rows"]:
            source = Source(
                content["work"], content["edition"], row["place"], row.get("seen", content["seen"])
            )
            yield pytest.param(source, row, id=f"{file.stem}: {row['name']}")


def given(text):
    """An input of a row: a choice word, a bare number, a list, or a number with its unit."""
    if not isinstance(text, str) or " " not in text:
        return text
    number, _, unit = text.partition(" ")
    return Quantity(float(number), unit)


def printed_step(expected):
    """Half a step of the last digit that the source prints."""
    return float(Decimal(1).scaleb(Decimal(expected).as_tuple().exponent)) / 2


@pytest.mark.parametrize(("source", "row"), list(rows()))
def test_the_printed_value_is_computed(source, row):
    formula = FORMULAS[row["formula"]]
    result = formula(**{name: given(value) for name, value in row["inputs"].items()})
    if formula.words:
        assert result == row["expected"], f"{source} says {row['expected']}, computed {result}"
        return
    unit = formula.unit if formula.unit != ANY else row["unit"]
    computed = convert(result.magnitude, unit, row["unit"])
    allowed = row.get("within", printed_step(row["expected"]) * (1 + 1e-9))
    assert "within" not in row or row["because"].strip()
    assert abs(computed - float(row["expected"])) <= allowed, (
        f"{source} prints {row['expected']} {row['unit']}, computed {computed:.8g}"
    )


def test_every_formula_has_a_printed_value_or_a_reason_for_having_none():
    printed = {row["formula"] for file in FILES for row in tomllib.loads(file.read_text())["rows"]}
    assert set(FORMULAS) - printed == set(WITHOUT), (
        "add a row to tests/reference, or say here why there is none"
    )


def test_every_choice_in_a_row_is_a_word_of_its_formula():
    for file in FILES:
        for row in tomllib.loads(file.read_text())["rows"]:
            for name in row["inputs"]:
                assert name in FORMULAS[row["formula"]].inputs, f"{file.name}: {row['name']}"
                declared = FORMULAS[row["formula"]].inputs[name]
                assert not isinstance(declared, Choice) or str(row["inputs"][name]) in declared.options


BALANCE = "a balance; tests/checks/formulas/test_membrane.py closes it"
WITHOUT = {
    "acceptance_limit": "none is published; tests/checks/formulas/test_decisions.py puts it back",
    "corrected_pressure_drop": "tests/checks/formulas/test_installation.py puts a drift back",
    "elapsed_minutes": "a difference of two instants",
    "full_mass": "a sum",
    "date_after": "an addition; tests/checks/formulas/test_dates.py goes by Python's calendar",
    "date_after_use": "a quotient; tests/checks/formulas/test_storage.py goes by Python's calendar",
    "earliest_date": "a choice, not a computation",
    "annular_uv_fluence": "an estimate; tests/checks/formulas/test_ultraviolet.py has Beer and Lambert",
    "bench_uv_irradiance": "likewise",
    "chlorine_tablets": "tests/checks/formulas/test_sanitisation.py puts the tablets back",
    "concentrate_conductivity": BALANCE,
    "band_lower": "a share taken off; tests/checks/formulas/test_bands.py",
    "band_upper": "likewise",
    "change_per_time": "a difference as a proportion; tests/checks/formulas/test_arithmetic.py",
    "contact_value": "a product; tests/checks/formulas/test_sanitisation.py has the mean of the decay",
    "dead_leg_ratio": "a ratio",
    "deioniser_run_volume": "a product",
    "difference": "a difference",
    "dissolved_solids": "a product; tests/checks/formulas/test_feed_water.py",
    "fault_withstand_cross_section": "tests/checks/formulas/test_earth_fault.py puts it back",
    "bubble_point_at_temperature": "tests/checks/formulas/test_filters.py has the printed tension",
    "filter_pressure_drop": "tests/checks/formulas/test_filters.py has the printed viscosity",
    "flow_balance_error": BALANCE,
    "flow_balance_band": "tests/checks/formulas/test_bands.py adds the variances up",
    "gravity_drain_capacity": "tests/oracles/test_fluids.py",
    "isocyanurate_free_chlorine": "tests/oracles/test_scipy.py solves the equilibria in another form",
    "isocyanurate_hypochlorous_acid": "likewise",
    "last_reading": "a choice, not a computation",
    "larger_of": "a choice, not a computation",
    "ratio": "a ratio",
    "relative_difference": "a ratio",
    "recovery": BALANCE,
    "recovery_from_conductivity": BALANCE,
    "relief_set_pressure_maximum": "tests/checks/formulas/test_supply.py puts it back into its conditions",
    "relief_set_pressure_minimum": "likewise",
    "leak_rate": "tests/checks/formulas/test_closed_section.py puts it back into drift and compression",
    "net_driving_pressure": "tests/checks/formulas/test_membrane_performance.py adds its parts up",
    "normalised_pressure_drop": "a power",
    "normalised_salt_passage": "tests/checks/formulas/test_membrane_performance.py gives the reference back",
    "pipe_pressure_loss": "tests/oracles/test_fluids.py",
    "reading_stability": "a definition; tests/checks/formulas/test_readings.py",
    "reading_stability_maximum": "a definition; tests/checks/formulas/test_readings.py",
    "salt_balance_error": BALANCE,
    "salt_passage": BALANCE,
    "salt_rejection": BALANCE,
    "scaled": "a product",
    "series_count": "counted",
    "series_largest_ratio": "a ratio; tests/checks/formulas/test_readings.py",
    "smaller_of": "a choice, not a computation",
    "sum_of": "a sum",
    "overflow_capacity": "tests/checks/formulas/test_storage.py goes by Torricelli",
    "solution_dose": "a quotient; tests/checks/formulas/test_storage.py puts the volume back",
    "solution_volume": "likewise",
    "timed_flow": "a quotient",
    "supply_pressure_at_flow": "tests/checks/formulas/test_piping.py goes through both points of the test",
    "scaled_uv_fluence": "a proportion",
    "temperature_change": "a difference",
    "thermal_pressure_drift": "tests/oracles/test_iapws.py holds its rigid limit",
    "water_hammer_pressure": "likewise",
}
