"""Pretreatment: what reaches the membrane, how clean cartridges behave, and when they are changed."""

from datetime import date

import pytest

from tests.checks.procedure.judged import instrument
from tests.checks.procedure.treated_water import found, treated, verdict, verdicts


def day(text):
    return (date.fromisoformat(text) - date(1970, 1, 1)).days


def test_pretreatment_in_order_passes_everything():
    assert verdicts("pretreatment") == {"pass"}


@pytest.mark.parametrize(("chlorine", "expected"), [(0.099, "pass"), (0.101, "fail")])
def test_chlorine_behind_the_carbon_must_be_what_the_membrane_bears(chlorine, expected):
    """0.1 mg/L: makers of polyamide membranes, ISO 23500-3."""
    assert verdict("pretreatment.total_chlorine", total_chlorine=chlorine) == expected


@pytest.mark.parametrize(
    ("chlorine", "expected"), [(0.05, "pass"), (0.08, "conditional_pass"), (0.12, "conditional_fail")]
)
def test_a_photometer_known_to_three_hundredths_leaves_a_middle(chlorine, expected):
    """+/-0.03 mg/L is U = 2 x 0.03 / root 3 = 0.035: shown below 0.065 and above 0.135 mg/L only."""
    photometer = instrument("chlorine_photometer", "mg/L", 6, accuracy_of_range=0.005)
    given = {"instruments": (photometer,), "total_chlorine": chlorine}
    assert verdict("pretreatment.total_chlorine", **given) == expected


def test_without_a_membrane_there_is_nothing_to_protect():
    plate = {"reverse_osmosis_fitted": False}
    assert verdict("pretreatment.total_chlorine", plate=plate, total_chlorine=0.5) == "not_applicable"
    assert treated("pretreatment", plate=plate)["steps"]["pretreatment"]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("disinfectant", "flow", "expected"),
    [
        ("chloramine", 1.2, "pass"),
        ("chloramine", 1.21, "fail"),
        ("chlorine", 6, "pass"),
        ("chlorine", 6.1, "fail"),
    ],
)
def test_granules_need_their_time(disinfectant, flow, expected):
    """12 L: 10 min at 1.2 L/min for chloramine, 2 min at 6 L/min for free chlorine (trade pages)."""
    given = {"site": {"disinfectant": disinfectant}, "flow": flow}
    judgement = treated("pretreatment", **given)
    assert judgement["rules"]["pretreatment.contact_practice"]["verdict"] == expected
    assert judgement["steps"]["pretreatment"]["verdict"] == "pass"


def test_the_makers_contact_time_decides():
    assert verdict("pretreatment.contact_plate") == "not_applicable"
    assert verdict("pretreatment.contact_plate", plate={"contact_time_minimum": "9.9 min"}) == "pass"
    assert verdict("pretreatment.contact_plate", plate={"contact_time_minimum": "10.1 min"}) == "fail"


def test_a_block_of_carbon_has_no_contact_time():
    plate = {"carbon_kind": "block", "carbon_volume": None}
    assert verdict("pretreatment.contact_practice", plate=plate) == "not_applicable"
    assert treated("pretreatment", plate=plate)["steps"]["pretreatment"]["missing"] == []


@pytest.mark.parametrize(("hardness", "expected"), [(17.9, "pass"), (18.1, "fail")])
def test_a_softener_softens(hardness, expected):
    assert verdict("pretreatment.hardness", hardness=hardness) == expected


def test_behind_a_softener_the_concentrate_is_judged_with_the_calcium_that_is_left():
    """PHREEQC: softened hard water, 2 mg/L of calcium, pH 7.5, 18 degC: index -1.313 in the feed."""
    softened = {
        "plate": {"scale_protection": "softener", "design_recovery": 0.01},
        "feed__ph": 7.5,
        "feed__temperature": 18,
        "feed__alkalinity_measured": 230,
        "feed__solids_given": 515,
        "hardness": 4.995,
    }
    assert found("pretreatment.softened_index", **softened) == pytest.approx(-1.313, abs=0.045)
    assert verdict("pretreatment.softened_index", **softened) == "pass"
    assert verdict("pretreatment.softened_index") == "not_applicable"


@pytest.mark.parametrize(("outlet", "expected"), [(2.71, "pass"), (2.69, "fail")])
def test_clean_cartridges_cost_little_pressure(outlet, expected):
    assert verdict("pretreatment.pressure_drop", outlet_pressure=outlet) == expected


def test_a_drop_against_the_flow_is_pointed_out():
    judgement = treated("pretreatment", outlet_pressure=3.3)
    assert judgement["rules"]["pretreatment.drop_not_negative"]["verdict"] == "fail"


@pytest.mark.parametrize(("outlet", "expected"), [(2.55, "pass"), (2.45, "fail")])
def test_later_the_drop_is_compared_with_that_of_the_acceptance(outlet, expected):
    """0.2 bar then, 0.5 bar more allowed: 0.7 bar below 3.2 bar is 2.5 bar."""
    baseline = {"pretreatment_pressure_drop": 0.2}
    rule = "pretreatment.drop_since_start"
    assert verdict(rule, baseline=baseline) == "not_applicable"
    later = {"cartridges": "in_use", "fines_flushed": None, "outlet_pressure": outlet}
    judgement = treated("pretreatment", baseline=baseline, **later)
    assert judgement["rules"][rule]["verdict"] == expected
    assert judgement["steps"]["pretreatment"]["verdict"] == expected


def test_months_set_the_date_where_no_litres_are_known():
    assert found("pretreatment.change_on") == day("2027-05-25")


def test_litres_come_first_where_they_are_fewer():
    """10 000 L less a fifth at 60 L / 30 % = 200 L of feed a day are 40 days."""
    assert found("pretreatment.change_on", plate={"carbon_litres": 10000}) == day("2027-01-04")


def test_an_expired_cartridge_is_not_fitted():
    assert verdict("pretreatment.expiry", expires_on="2026-11-25") == "pass"
    assert verdict("pretreatment.expiry", expires_on="2026-11-24") == "fail"


def test_a_sediment_filter_alone_asks_for_nothing_of_carbon_or_softener():
    plate = {"carbon_fitted": False, "softener_fitted": False, "carbon_kind": None, "carbon_volume": None}
    nothing = dict.fromkeys(("fines_flushed", "total_chlorine", "hardness", "regeneration_set"))
    assert treated("pretreatment", plate=plate, **nothing)["steps"]["pretreatment"]["verdict"] == "pass"


def test_where_there_is_none_the_step_drops_out():
    step = treated("pretreatment", plate={"pretreatment_fitted": False})["steps"]["pretreatment"]
    assert (step["state"], step["applies"]) == ("not_applicable", False)


def test_the_test_for_chlorine_cannot_be_left_out():
    step = treated("pretreatment", total_chlorine=None)["steps"]["pretreatment"]
    assert (step["verdict"], step["missing"]) == ("not_measured", ["pretreatment.total_chlorine"])
