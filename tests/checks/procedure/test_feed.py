"""The feed: limits of the plate, of membranes, and those that its own chemistry sets."""

import pytest

from tests.checks.procedure.judged import instrument
from tests.checks.procedure.treated_water import found, treated, verdict, verdicts

ALONE = {"pretreatment_fitted": False, "degasser_fitted": False}


def test_good_water_passes_everything():
    assert verdicts("feed") == {"pass"}


@pytest.mark.parametrize(
    ("rule", "entry", "good", "bad"),
    [
        ("temperature", "temperature", 5, 4.9),  # 5 degC to 35 degC, common practice
        ("temperature", "temperature", 35, 35.1),
        ("ph", "ph", 11, 11.01),  # 2 to 11, makers of membranes
    ],
)
def test_the_usual_limits_of_membranes_hold_at_their_ends(rule, entry, good, bad):
    assert verdict(f"feed.{rule}", **{entry: good}) == "pass"
    assert verdict(f"feed.{rule}", **{entry: bad}) == "fail"


@pytest.mark.parametrize(("entry", "limit"), [("iron", 0.1), ("manganese", 0.05), ("turbidity", 1)])
def test_what_the_analysis_says_counts_where_it_says_anything(entry, limit):
    assert verdict(f"feed.{entry}") == "not_applicable"
    assert verdict(f"feed.{entry}", **{entry: limit}) == "pass"
    assert verdict(f"feed.{entry}", **{entry: limit * 1.01}) == "fail"


@pytest.mark.parametrize(
    ("rule", "limit", "entry"),
    [
        ("conductivity", "feed_conductivity_maximum", "conductivity_shown"),
        ("hardness", "feed_hardness_maximum", "hardness_measured"),
        ("chlorine", "feed_chlorine_maximum", "total_chlorine"),
    ],
)
def test_a_limit_of_the_maker_counts_once_it_is_on_the_plate(rule, limit, entry):
    assert verdict(f"feed.{rule}") == "not_applicable"
    assert verdict(f"feed.{rule}", plate={limit: 2}, **{entry: 2}) == "pass"
    assert verdict(f"feed.{rule}", plate={limit: 2}, **{entry: 2.02}) == "fail"


@pytest.mark.parametrize(
    ("mode", "coefficient", "shown", "at_25"),
    [
        ("to_25", None, 500, 500),
        ("uncompensated", None, 500, 714),  # ISO 7888: f25(10 degC) = 1.428
        ("linear", 0.02, 500, 499.8),  # 500 x (1 - 15 x 0.02) x 1.428
    ],
)
def test_the_meters_own_compensation_is_undone(mode, coefficient, shown, at_25):
    given = {"meter_mode": mode, "coefficient": coefficient, "conductivity_shown": shown}
    assert found("feed.conductivity", **given) == pytest.approx(at_25)


def test_the_suppliers_analysis_needs_no_instrument_and_must_not_be_too_old():
    values = {
        "analysis": "supplier",
        "hardness_reported": "3 °dH",
        "alkalinity_reported": 35,
        "analysis_on": "2025-11-25",
    }
    judgement = treated("feed", **values)
    assert judgement["steps"]["feed"]["verdict"] == "pass"
    assert judgement["quantities"]["feed.hardness"]["value"] == pytest.approx(3 * 17.848)
    assert verdict("feed.analysis_date", **values | {"analysis_on": "2025-11-24"}) == "fail"


def test_hardness_counts_as_calcium_where_calcium_is_not_known():
    """50 mg/L of calcium carbonate hold 50 x 40.08 / 100.09 mg/L of calcium."""
    assert found("feed.calcium", calcium_given=None) == pytest.approx(20.02, abs=0.01)


def test_solids_follow_from_the_conductivity_where_no_analysis_has_them():
    assert found("feed.dissolved_solids", solids_given=None) == pytest.approx(0.64 * 155)


@pytest.mark.parametrize(("recovery", "expected"), [(0.50, "pass"), (0.52, "fail")])
def test_without_protection_the_concentrate_must_not_be_oversaturated(recovery, expected):
    """PHREEQC 3.8: soft water, calcite -0.043 at a recovery of 50 %, 0 at 51.8 %; here 1 % before."""
    assert verdict("feed.scaling", plate={"design_recovery": recovery}) == expected


def test_an_inhibitor_has_a_limit_of_its_own():
    plate = {"design_recovery": 0.75, "scale_protection": "inhibitor", "concentrate_index_maximum": 1.0}
    assert verdict("feed.scaling", plate=plate) == "pass"  # 0.83, PHREEQC 0.76
    assert verdict("feed.scaling", plate=plate | {"concentrate_index_maximum": 0.7}) == "fail"
    assert treated("feed", plate={"scale_protection": "inhibitor"})["rules"]["feed.scaling"]["missing"] == [
        "plate.concentrate_index_maximum"
    ]


def test_where_the_maker_states_a_hardness_that_decides():
    plate = {"scale_protection": "stated_hardness", "design_recovery": 0.6}
    assert verdict("feed.scaling", plate=plate) == "not_applicable"
    assert verdict("feed.stated_hardness", plate=plate) == "not_measured"
    assert verdict("feed.hardness", plate=plate | {"feed_hardness_maximum": 49}) == "fail"


def test_a_ph_meter_that_may_be_wrong_by_a_tenth_leaves_a_narrow_index_open():
    meter = instrument("ph_meter", "pH", 14, accuracy_of_range=0.1 / 14)
    given = {"plate": {"design_recovery": 0.49}, "instruments": (meter,)}
    assert verdict("feed.scaling", **given) == "conditional_pass"


def test_carbon_dioxide_asks_for_a_degasser():
    """PHREEQC: pH 7.2, alkalinity 180 mg/L, 12 degC hold 25.2 mg/L (water of about 500 uS/cm)."""
    hard = {
        "ph": 7.2,
        "alkalinity_measured": 180,
        "temperature": 12,
        "conductivity_shown": 500,
    }
    assert found("feed.carbon_dioxide", **hard) == pytest.approx(25.2, rel=0.03)
    assert verdict("feed.degassing", plate=ALONE, **hard) == "fail"
    assert verdict("feed.degassing", **hard) == "not_applicable"
    assert treated("feed", plate=ALONE, **hard)["rules"]["feed.gas_deioniser"]["verdict"] == "not_applicable"
    takes = ALONE | {"deioniser_inlet_maximum": 5}
    assert verdict("feed.gas_deioniser", plate=takes, **hard) == "fail"  # 20 mg/L alone are 5.5 uS/cm
    bare = ALONE | {"deioniser_fitted": False, "water_grade": "astm_d1193_4"}
    assert verdict("feed.gas_grade", plate=bare, **hard) == "fail"  # 5.0 uS/cm


@pytest.mark.parametrize(("silica", "expected"), [(60.7, "pass"), (60.8, "fail")])
def test_silica_must_stay_dissolved(silica, expected):
    """At 10 degC 86.8 mg/L (PHREEQC 87); the concentrate has 1 / 0.7 times the feed: 60.73 mg/L."""
    assert verdict("feed.silica", silica=silica) == expected


def test_without_pretreatment_the_feed_itself_reaches_the_membrane():
    assert verdict("feed.chlorine_membrane") == "not_applicable"
    assert verdict("feed.chlorine_membrane", plate=ALONE) == "fail"
    assert verdict("feed.chlorine_membrane", plate=ALONE, total_chlorine=0.0999) == "pass"


def test_pretreatment_without_carbon_lets_chlorine_through():
    """0.1 mg/L of total chlorine: ISO 23500-3 and makers of polyamide membranes (from memory)."""
    bare = {"carbon_fitted": False}
    assert verdict("feed.chlorine_without_carbon") == "not_applicable"
    assert verdict("feed.chlorine_without_carbon", plate=bare, total_chlorine=0.3) == "fail"
    assert verdict("feed.chlorine_without_carbon", plate=bare, total_chlorine=0.0999) == "pass"


@pytest.mark.parametrize(("last", "expected"), [(47.2, "pass"), (47.4, "fail")])
def test_a_plate_may_ask_for_a_lower_silt_index(last, expected):
    """3 %/min over 15 min: 45 % lost, 26 s become 47.27 s (ASTM D4189)."""
    plate = {"feed_silt_density_maximum": 3}
    assert verdict("feed.silt_density", plate=plate, silt_last_time=last) == expected


def test_a_short_silt_index_is_no_verdict():
    given = {"silt_interval": "5", "silt_last_time": 61.0}
    assert found("feed.silt_density", **given) == pytest.approx(11.475, abs=0.001)  # 57.4 % in 5 min
    assert verdict("feed.silt_density", **given) == "not_applicable"
    assert treated("feed", **given)["steps"]["feed"]["verdict"] == "pass"


def test_a_filter_that_is_plugged_says_so():
    rule = treated("feed", silt_last_time=110.0)["rules"]["feed.silt_density"]
    assert [reason["code"] for reason in rule["reasons"]] == ["filter_plugged"]


def test_free_chlorine_above_total_is_pointed_out():
    assert verdict("feed.free_below_total", free_chlorine=0.31) == "fail"
    assert treated("feed", free_chlorine=0.31)["steps"]["feed"]["verdict"] == "pass"


def test_without_a_membrane_lime_and_silt_are_not_asked_for():
    judgement = treated("feed", plate={"reverse_osmosis_fitted": False}, silt_interval=None)
    for name in ("scaling", "silica", "iron", "silt_density", "degassing"):
        assert judgement["rules"][f"feed.{name}"]["verdict"] == "not_applicable"
    assert judgement["steps"]["feed"]["verdict"] == "pass"


def test_the_ph_is_asked_for():
    assert treated("feed", ph=None)["steps"]["feed"]["missing"] == ["feed.ph"]
