"""An invented unit that treats soft mains water, everything in order: what its steps are given."""

from __future__ import annotations

from typing import Any

from tests.checks.procedure.judged import instrument, judged

STEPS = {
    "feed": ("feed",),
    "pretreatment": ("feed", "pretreatment"),
    "reverse_osmosis": ("feed", "reverse_osmosis"),
    "degasser": ("feed", "degasser"),
    "deioniser": ("feed", "reverse_osmosis", "degasser", "deioniser"),
}
"""Each step with those that it takes values from."""
INSTRUMENTS = (
    instrument("conductivity_meter", "uS/cm", 20000),
    instrument("thermometer", "degC", 100),
    instrument("ph_meter", "pH", 14),
    instrument("chlorine_photometer", "mg/L", 6),
    instrument("hardness_test", "mg/L", 1000),
    instrument("alkalinity_test", "mg/L", 1000),
    instrument("carbon_dioxide_test", "mg/L", 100),
    instrument("pressure_gauge", "bar", 25),
    instrument("flow_meter", "L/min", 100),
)
PLATE = {
    "water_grade": "clsi_clrw",
    "reverse_osmosis_fitted": True,
    "pretreatment_fitted": True,
    "sediment_fitted": True,
    "sediment_rating": 5,
    "carbon_fitted": True,
    "carbon_kind": "granular",
    "carbon_volume": 12,
    "softener_fitted": True,
    "degasser_fitted": True,
    "degasser_drive": "both",
    "sweep_flow_minimum": 2,
    "sweep_flow_maximum": 6,
    "vacuum_maximum": 100,
    "deioniser_fitted": True,
    "module_arrangement": "parallel",
    "modules": 2,
    "rated_permeate_flow": "60 L/h",
    "rated_pressure": 10,
    "rated_solids": 500,
    "rated_recovery": "15 %",
    "design_recovery": "30 %",
    "recovery_minimum": "25 %",
    "recovery_maximum": "35 %",
    "rejection_minimum": "96 %",
    "membrane_pressure_maximum": 10,
    "resin_volume": 3,
    "resin_capacity": 0.55,
    "resin_utilisation": 0.8,
    "daily_volume": 60,
}
WELL: dict[str, dict[str, Any]] = {
    "feed": {
        "read_on": "2026-11-25",
        "conductivity_shown": 155,
        "meter_mode": "to_25",
        "temperature": 10,
        "ph": 7.9,
        "free_chlorine": 0.2,
        "total_chlorine": 0.3,
        "analysis": "measured",
        "hardness_measured": 50,
        "alkalinity_measured": 35,
        "calcium_given": 15,
        "solids_given": 99,
        "silt_interval": "15",
        "silt_first_time": 26.0,
        "silt_last_time": 37.5,
    },
    "pretreatment": {
        "cartridges": "new",
        "order_and_direction": True,
        "sediment_rating": 5,
        "fines_flushed": True,
        "lots": "S 12, C 40",
        "fitted_on": "2026-11-25",
        "flow": 1.2,
        "inlet_pressure": 3.2,
        "outlet_pressure": 3.0,
        "total_chlorine": 0.02,
        "hardness": 5,
        "regeneration_set": True,
    },
    "reverse_osmosis": {
        "membranes": "new",
        "membrane_numbers": "7, 8",
        "fitted_on": "2026-11-25",
        "preservative_flushed": True,
        "running_minutes": 30,
        "temperature": 12,
        "feed_pressure": 8.0,
        "concentrate_pressure": 7.7,
        "permeate_pressure": 0.5,
        "permeate_flow": "28 L/h",
        "concentrate_flow": "65.3333 L/h",
        "feed_flow": "93.3333 L/h",
        "compensated": True,
        "feed_conductivity": 515.625,
        "permeate_conductivity": 14,
        "concentrate_conductivity": 730.6,
        "module_conductivity": [13, 15],
    },
    "degasser": {
        "method": "test",
        "temperature": 12,
        "test_before": 1.0,
        "test_after": 0.8,
        "sweep_flow": 4,
        "vacuum": 60,
        "gas_clean": True,
    },
    "deioniser": {
        "cartridge": "new",
        "lot": "D 3",
        "fitted_on": "2026-11-25",
        "rinsed": True,
        "flow": 0.5,
        "conductivity_in": 14,
        "conductivity_shown": "15 Mohm cm",
        "temperature": 22,
        "meter_mode": "pure_water",
        "read_on": "2026-11-25",
    },
}


def treated(
    step: str,
    *,
    plate: dict[str, Any] | None = None,
    site: dict[str, Any] | None = None,
    baseline: dict[str, Any] | None = None,
    instruments: tuple[dict[str, Any], ...] = (),
    **changed: Any,
) -> dict[str, Any]:
    """The judgement of the step and those that it needs, with some of its values changed.

    None takes a value away. An entry of another step is named STEP__NAME. An instrument replaces the one
    that is named as it is.
    """
    entries = {f"{one}__{name}": value for one in STEPS[step] for name, value in WELL[one].items()}
    entries |= {name if "__" in name else f"{step}__{name}": value for name, value in changed.items()}
    ours = {one["id"]: one for one in (*INSTRUMENTS, *instruments)}
    return judged(
        *STEPS[step],
        plate={name: value for name, value in (PLATE | (plate or {})).items() if value is not None},
        site=site,
        baseline=baseline,
        instruments=tuple(ours.values()),
        **{name: value for name, value in entries.items() if value is not None},
    )


def verdict(rule: str, **given: Any) -> str:
    """The verdict of one rule, named STEP.NAME, with some values changed."""
    return treated(rule.partition(".")[0], **given)["rules"][rule]["verdict"]


def found(quantity: str, **given: Any) -> Any:
    """The value of one quantity, named STEP.NAME, with some values changed."""
    return treated(quantity.partition(".")[0], **given)["quantities"][quantity]["value"]


def verdicts(step: str, **given: Any) -> set[str]:
    """The verdicts of the step's rules that apply."""
    rules = treated(step, **given)["rules"].items()
    return {rule["verdict"] for name, rule in rules if name.startswith(f"{step}.")} - {"not_applicable"}
