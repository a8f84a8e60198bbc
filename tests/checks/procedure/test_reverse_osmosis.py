"""Reverse osmosis: against its rating here and now, its plate, its balances and its acceptance."""

import pytest

from tests.checks.procedure.judged import instrument, procedure_of
from tests.checks.procedure.treated_water import found, treated, verdict, verdicts

RO = "reverse_osmosis."
WORKED = 27.85 / 60
"""60 L/h at 25 degC and 10 bar give 27.85 L/h at 12 degC and 8 bar: handbook arithmetic on ASTM D4516."""


def flows(permeate, recovery=0.30):
    """Entries for a permeate flow in L/min at a recovery, all three flows in agreement."""
    feed = permeate / recovery
    return {"permeate_flow": permeate, "concentrate_flow": feed - permeate, "feed_flow": feed}


def test_a_membrane_as_rated_passes_everything():
    assert verdicts("reverse_osmosis", feed__conductivity_shown=515) == {"pass"}


def test_the_worked_example_of_a_cold_plant():
    """9.571 bar of driving pressure at the rating, 7.05 bar here, 0.630 of the permeability: 27.85 L/h."""
    known = treated("reverse_osmosis")["quantities"]
    assert known[RO + "rated_driving_pressure"]["value"] == pytest.approx(9.571, abs=0.0005)
    assert known[RO + "driving_pressure"]["value"] == pytest.approx(7.053, abs=0.01)
    assert known[RO + "temperature_factor"]["value"] == pytest.approx(0.6299, abs=0.00005)
    assert known[RO + "expected_flow"]["value"] == pytest.approx(WORKED, rel=0.001)


@pytest.mark.parametrize(
    ("share", "expected"), [(0.79, "fail"), (0.81, "pass"), (1.19, "pass"), (1.21, "fail")]
)
def test_permeate_lies_within_a_fifth_of_what_the_rating_gives_here(share, expected):
    assert verdict(RO + "permeate_flow", **flows(WORKED * share)) == expected


def test_the_causes_are_named_on_both_sides():
    procedure = procedure_of("feed", "reverse_osmosis")
    rules = {rule["id"]: rule for rule in procedure["steps"][1]["rules"]}
    for name in ("permeate_flow", "recovery", "recovery_check", "concentrate_conductivity", "flow_balance"):
        assert 3 <= len(rules[name]["causes_above"]) <= 5, name
        assert 3 <= len(rules[name]["causes_below"]) <= 5, name


@pytest.mark.parametrize(
    ("recovery", "expected"), [(0.249, "fail"), (0.251, "pass"), (0.349, "pass"), (0.351, "fail")]
)
def test_recovery_stays_in_its_window(recovery, expected):
    assert verdict(RO + "recovery", **flows(0.4667, recovery)) == expected


def test_float_meters_leave_the_edge_of_the_window_open():
    """Two meters of 5 %: u = 0.34 x 0.66 x 0.05 x root of 2 / 3, so 0.35 less U is 0.332."""
    meter = instrument("flow_meter", "L/min", 100, accuracy_of_reading=0.05)
    given = {
        "permeate_flow": {"value": 0.34, "instrument": "flow_meter"},
        "concentrate_flow": {"value": 0.66, "instrument": "other"},
        "feed_flow": None,
    }
    meters = (meter, {**meter, "id": "other"})
    assert verdict(RO + "recovery", instruments=meters, **given) == "conditional_pass"


@pytest.mark.parametrize(("permeate", "expected"), [(20.6, "pass"), (20.7, "fail")])
def test_rejection_of_the_plate(permeate, expected):
    """96 % of 515.625 uS/cm leave 20.625 uS/cm."""
    assert verdict(RO + "rejection", permeate_conductivity=permeate) == expected


def test_too_much_pressure_is_judged_with_the_gauges_error_counted():
    """U of 0.1 bar / root 3 x 2 = 0.115 bar is kept away from the 10 bar of the plate."""
    gauge = instrument("pressure_gauge", "bar", 25, accuracy_of_range=0.004)
    assert verdict(RO + "feed_pressure", instruments=(gauge,), feed_pressure=9.88) == "pass"
    assert verdict(RO + "feed_pressure", instruments=(gauge,), feed_pressure=9.89) == "fail"


@pytest.mark.parametrize(("minutes", "expected"), [(14, "fail"), (15, "pass")])
def test_readings_wait_until_it_runs_steadily(minutes, expected):
    assert verdict(RO + "running_minutes", running_minutes=minutes) == expected


def test_permeate_is_predicted_with_the_feeds_carbon_dioxide():
    """4 % of the feed's salt and gas; 20.63 uS/cm of salt, a little acid, and 30 % of band."""
    rule = treated("reverse_osmosis")["rules"][RO + "permeate_conductivity"]
    assert 20.63 * 1.3 < rule["upper"] < (20.63 + 1.21) * 1.3
    assert verdict(RO + "permeate_conductivity", permeate_conductivity=28.5) == "fail"


@pytest.mark.parametrize(
    ("analysed", "expected"), [(425, "fail"), (435, "pass"), (640, "pass"), (650, "fail")]
)
def test_the_feed_is_compared_with_its_analysis(analysed, expected):
    """515.6 uS/cm lies within a fifth of 430 to 645 uS/cm."""
    judgement = treated("reverse_osmosis", feed__conductivity_shown=analysed)
    assert judgement["rules"][RO + "feed_as_measured"]["verdict"] == expected
    assert judgement["steps"]["reverse_osmosis"]["verdict"] == "pass"


def test_recovery_and_concentrate_check_each_other():
    """620, 14 and 870 uS/cm at a recovery of 30 %: concentrate expected 879.7, recovery 29.2 %."""
    example = {
        "feed_conductivity": 620,
        "permeate_conductivity": 14,
        "concentrate_conductivity": 870,
        "permeate_flow": "36 L/h",
        "concentrate_flow": "84 L/h",
        "feed_flow": "120 L/h",
    }
    known = treated("reverse_osmosis", **example)["quantities"]
    assert known[RO + "expected_concentrate"]["value"] == pytest.approx(879.7, abs=0.05)
    assert known[RO + "conductivity_recovery"]["value"] == pytest.approx(250 / 856)
    assert known[RO + "salt_balance"]["value"] == pytest.approx(0.0110, abs=0.00005)
    assert verdict(RO + "concentrate_conductivity", **example | {"concentrate_conductivity": 790}) == "fail"
    assert verdict(RO + "recovery_check", **example | {"concentrate_conductivity": 820}) == "fail"


@pytest.mark.parametrize(
    ("accuracy", "feed", "expected"),
    [(0, 1.70, "pass"), (0, 1.75, "fail"), (0.1, 1.75, "pass"), (0.1, 1.85, "fail")],
)
def test_flows_add_up_as_far_as_the_meters_can_show(accuracy, feed, expected):
    """0.4667 and 1.0889 L/min leave 8.5, 11.1 and 15.9 %; meters of 10 % explain 2 x 0.09 of it."""
    meter = instrument("flow_meter", "L/min", 100, accuracy_of_reading=accuracy)
    given = {"instruments": (meter,), "feed_flow": feed}
    if accuracy:
        u = accuracy / 3**0.5
        leaving = ((0.4667 + 1.0889) * u) ** 2 + (0.4667 * u) ** 2 + (1.0889 * u) ** 2
        expected_band = 2 * leaving**0.5 / feed
        band = found(RO + "flow_balance_maximum", **given)
        assert band == pytest.approx(expected_band, rel=1e-3)
    assert verdict(RO + "flow_balance", **given) == expected


def test_without_a_feed_meter_nothing_is_asked_of_the_balance():
    judgement = treated("reverse_osmosis", feed_flow=None)
    assert judgement["rules"][RO + "flow_balance"]["verdict"] == "not_applicable"
    assert judgement["steps"]["reverse_osmosis"]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("read", "counted", "ratio"),
    [
        ([13, 15], "pass", "pass"),
        ([14], "fail", "pass"),
        ([4, 20], "pass", "fail"),
        ([13, 14, 15], "fail", "pass"),
    ],
)
def test_every_module_is_measured_and_none_stands_out(read, counted, ratio):
    """20 of 4 and 20 is 1.67 times the mean, above 1.5."""
    rules = treated("reverse_osmosis", module_conductivity=read)["rules"]
    assert rules[RO + "modules_read"]["verdict"] == counted
    assert rules[RO + "module_ratio"]["verdict"] == ratio


def test_modules_in_a_row_differ_by_nature():
    plate = {"module_arrangement": "series"}
    judgement = treated("reverse_osmosis", plate=plate, module_conductivity=[4, 20])
    assert judgement["rules"][RO + "module_ratio_series"]["verdict"] == "fail"
    assert judgement["steps"]["reverse_osmosis"]["verdict"] == "pass"


def test_one_module_needs_no_list():
    plate = {"module_arrangement": "one", "modules": None}
    step = treated("reverse_osmosis", plate=plate, module_conductivity=None)["steps"]["reverse_osmosis"]
    assert (step["verdict"], step["missing"]) == ("pass", [])


@pytest.mark.parametrize(
    ("lost", "cleaning", "floor"),
    [(0.09, "pass", "pass"), (0.11, "fail", "pass"), (0.14, "fail", "pass"), (0.16, "fail", "fail")],
)
def test_a_loss_of_normalised_flow_asks_for_cleaning_then_is_refused(lost, cleaning, floor):
    accepted = found(RO + "normalised_flow") / (1 - lost)
    rules = treated("reverse_osmosis", membranes="in_use", baseline={"membrane_flow": accepted})["rules"]
    assert rules[RO + "flow_cleaning"]["verdict"] == cleaning
    assert rules[RO + "flow_floor"]["verdict"] == floor


def test_a_membrane_in_use_is_judged_by_its_acceptance_not_by_its_rating():
    """A quarter below its rating, and so it was accepted; a new one is not compared with the one before."""
    weak = flows(WORKED * 0.75)
    accepted = {"membrane_flow": found(RO + "normalised_flow", **weak)}
    judgement = treated("reverse_osmosis", membranes="in_use", baseline=accepted, **weak)
    assert judgement["rules"][RO + "permeate_flow"]["verdict"] == "not_applicable"
    assert judgement["rules"][RO + "permeate_flow_in_use"]["verdict"] == "fail"
    assert judgement["steps"]["reverse_osmosis"]["verdict"] == "pass"
    assert verdict(RO + "flow_floor", baseline={"membrane_flow": 9}) == "not_applicable"


def test_normalised_flow_does_not_follow_the_weather():
    """At 18 degC the same membrane gives 0.7837 / 0.6299 times the water (two-range factor)."""
    warm = flows(28 / 60 * 0.7837 / 0.6299)
    assert found(RO + "normalised_flow", temperature=18, **warm) == pytest.approx(
        found(RO + "normalised_flow"), rel=0.005
    )


@pytest.mark.parametrize(("rise", "expected"), [(1.09, "pass"), (1.11, "fail")])
def test_salt_passage_is_compared_with_that_of_the_acceptance(rise, expected):
    accepted = found(RO + "normalised_salt_passage") / rise
    judgement = treated("reverse_osmosis", membranes="in_use", baseline={"membrane_salt_passage": accepted})
    assert judgement["rules"][RO + "passage_cleaning"]["verdict"] == expected
    assert judgement["steps"]["reverse_osmosis"]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("accepted", "cleaning", "ceiling"),
    [(0.27, "pass", "pass"), (0.25, "fail", "pass"), (0.19, "fail", "fail")],
)
def test_pressure_drop_is_compared_at_the_same_flow(accepted, cleaning, ceiling):
    """0.3 bar at the same mean flow: 1.11, 1.2 and 1.58 times that of the acceptance."""
    baseline = {"membrane_drop": accepted, "membrane_mean_flow": 1.32222}
    rules = treated("reverse_osmosis", membranes="in_use", baseline=baseline)["rules"]
    assert rules[RO + "drop_cleaning"]["verdict"] == cleaning
    assert rules[RO + "drop_ceiling"]["verdict"] == ceiling


def test_no_driving_pressure_is_said_in_words():
    judgement = treated("reverse_osmosis", permeate_pressure=8.0)
    reasons = judgement["rules"][RO + "permeate_flow"]["reasons"]
    assert "no_driving_pressure" in [reason["code"] for reason in reasons]


def test_where_there_is_no_membrane_the_step_drops_out():
    step = treated("reverse_osmosis", plate={"reverse_osmosis_fitted": False})["steps"]["reverse_osmosis"]
    assert (step["state"], step["applies"]) == ("not_applicable", False)


def test_the_baseline_comes_from_quantities_that_exist():
    procedure = procedure_of("feed", "reverse_osmosis")
    known = {f"{step['id']}.{one['id']}" for step in procedure["steps"] for one in step["derived"]}
    taken = {one["from"] for one in procedure["baseline"] if one["id"].startswith("membrane_")}
    assert len(taken) == 4
    assert taken <= known
