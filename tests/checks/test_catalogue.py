"""The catalogue is complete, free of doubles, and named as agreed."""

from checks.catalogue import FORMULAS

# The names that procedures, commands and the phone use. A name here does not change without a note.
AGREED = {
    "static_head",
    "relief_set_pressure_maximum",
    "relief_set_pressure_minimum",
    "relief_discharge_capacity",
    "regulator_failed_open_flow",
    "conductor_resistance",
    "resistance_at_temperature",
    "permanent_bonding_limit",
    "cord_bonding_limit",
    "continuity_limit",
    "parallel_resistance",
    "water_density",
    "water_viscosity",
    "flow_velocity",
    "reynolds_number",
    "washout_volumes",
    "washout_time",
    "washout_concentration",
    "reading_stability",
    "reading_trend",
    "series_mean",
    "last_reading",
    "elapsed_minutes",
    "scaled",
    "water_ion_product",
    "pure_water_conductivity",
    "pure_water_resistivity",
    "conductivity_at_25",
    "resistivity_at_25",
    "uncompensated_conductivity",
    "natural_conductivity_at_25",
    "usp_645_stage_1_limit",
    "usp_645_stage_3_limit",
    "ph_eur_purified_water_limit",
    "carbon_dioxide_conductivity",
    "carbon_dioxide_ph",
    "colony_count",
    "colony_count_lower",
    "colony_count_upper",
    "volume_to_demonstrate",
    "standard_uncertainty",
    "coverage_factor",
    "effective_degrees_of_freedom",
    "acceptance_limit",
    "conformance_probability",
    "guarded_verdict",
    "grade_conductivity_maximum",
    "grade_resistivity_minimum",
    "grade_toc_maximum",
    "grade_colony_count_maximum",
    "insulation_resistance_minimum",
    "breaker_trip_current",
    "loop_impedance_maximum",
    "loop_impedance_hot",
    "prospective_fault_current",
    "disconnection_time_maximum",
    "touch_voltage",
    "rcd_trip_time_maximum",
    "rcd_trip_time_minimum",
    "fault_withstand_cross_section",
    "earth_leakage_limit",
    "supply_pressure_at_flow",
    "air_gap_minimum",
    "gravity_drain_capacity",
    "water_hammer_pressure",
    "thermal_pressure_drift",
    "leak_rate",
    "friction_factor",
    "pipe_pressure_loss",
    "dead_leg_ratio",
}


def test_every_agreed_name_is_there():
    assert set(FORMULAS) >= AGREED


def test_a_formula_is_found_under_the_name_of_its_function():
    assert all(name == formula.name == formula.function.__name__ for name, formula in FORMULAS.items())


def test_titles_are_sentences_of_their_own():
    titles = [formula.title for formula in FORMULAS.values()]
    assert len(titles) == len(set(titles))
    assert all(title.endswith((".", ".)", ").")) and len(title) < 120 for title in titles), titles
