"""The deioniser: what loads it, how long it lasts, and what comes out of it."""

from datetime import date

import pytest

from tests.checks.procedure.treated_water import WELL, found, treated, verdict, verdicts

NO_MEMBRANE = {"reverse_osmosis_fitted": False, "degasser_fitted": False, "module_arrangement": None}
NOTHING = {
    f"{step}__{name}": None for step in ("reverse_osmosis", "degasser") for name in WELL[step]
}  # fmt: skip


def day(text):
    return (date.fromisoformat(text) - date(1970, 1, 1)).days


def test_a_deioniser_in_order_passes_everything():
    assert verdicts("deioniser") == {"pass"}


@pytest.mark.parametrize(("gas", "days"), [(18, 40), (5, 87), (2, 120)])
def test_the_worked_example_of_its_life(gas, days):
    """14 uS/cm by 105 S cm2/eq, 0.3 mg/L of silica, 3 L of 0.55 eq/L used to 80 %, 60 L a day."""
    silica = {"feed__silica": 0.3 * 515.625 / 14}
    volume = found("deioniser.predicted_volume", degasser__test_after=gas, **silica)
    assert volume / 60 == pytest.approx(days, abs=0.6)


def test_its_date_keeps_a_reserve():
    """18 mg/L and no silica: 0.5423 meq/L, 2434 L, four fifths of it in 32 days at 60 L a day."""
    assert found("deioniser.change_on", degasser__test_after=18) == day("2026-12-27")


def test_months_come_first_where_little_is_used():
    assert found("deioniser.change_on", plate={"daily_volume": 1}) == day("2027-11-25")
    assert found("deioniser.change_on", plate={"daily_volume": None}) == day("2027-11-25")


def test_litres_that_were_made_are_taken_off():
    """1947 L of it less 987 L are 960 L: 16 days from the day of reading."""
    later = {"degasser__test_after": 18, "read_on": "2026-12-12", "litres_used": 987, "cartridge": "in_use"}
    assert found("deioniser.change_on", **later) == day("2026-12-28")


@pytest.mark.parametrize(("read", "expected"), [("2026-12-27", "pass"), ("2026-12-28", "fail")])
def test_past_its_date_it_fails(read, expected):
    assert verdict("deioniser.not_overdue", degasser__test_after=18, read_on=read) == expected


@pytest.mark.parametrize(("used", "expected"), [(1599, "pass"), (1601, "fail")])
def test_later_its_litres_are_held_against_those_predicted(used, expected):
    """2000 L predicted at acceptance, less a fifth."""
    assert verdict("deioniser.litres_used", cartridge="in_use", litres_used=used) == "not_applicable"
    baseline = {"deioniser_volume": 2000}
    assert (
        verdict("deioniser.litres_used", baseline=baseline, cartridge="in_use", litres_used=used) == expected
    )


def test_a_life_that_is_used_up_fails_and_is_said_in_words():
    rules = treated("deioniser", cartridge="in_use", litres_used=9000)["rules"]
    assert rules["deioniser.not_used_up"]["verdict"] == "fail"
    assert "life_used_up" in [reason["code"] for reason in rules["deioniser.not_overdue"]["reasons"]]
    assert verdict("deioniser.not_used_up", cartridge="in_use", litres_used=6900) == "pass"
    assert verdict("deioniser.not_used_up") == "not_applicable"


def test_a_short_life_is_pointed_out():
    judgement = treated("deioniser", degasser__test_after=18)
    assert judgement["rules"]["deioniser.lasts"]["verdict"] == "fail"
    assert judgement["steps"]["deioniser"]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("shown", "mode", "temperature", "at_25"),
    [
        ("10 Mohm cm", "pure_water", 20, 0.1),
        ("12.1 Mohm cm", "uncompensated", 20, 0.1),  # 10 Mohm cm at 25 degC, computed tables
        ("10.9 Mohm cm", "linear", 20, 0.1),  # a linear meter of 2 % shows that
    ],
)
def test_the_meters_mode_is_undone(shown, mode, temperature, at_25):
    given = {"conductivity_shown": shown, "meter_mode": mode, "temperature": temperature}
    assert found("deioniser.conductivity_out", **given) == pytest.approx(at_25, rel=0.005)


@pytest.mark.parametrize(("shown", "expected"), [(0.0999, "pass"), (0.1001, "fail")])
def test_the_makers_outlet_decides_and_the_grade_is_a_hint(shown, expected):
    plate = {"deioniser_outlet_maximum": 0.1}
    assert verdict("deioniser.outlet", plate=plate, conductivity_shown=shown) == expected
    judgement = treated("deioniser", conductivity_shown=shown)
    assert judgement["rules"]["deioniser.outlet_grade"]["verdict"] == expected
    assert judgement["steps"]["deioniser"]["verdict"] == "pass"


def test_inlet_and_flow_of_the_plate():
    plate = {"deioniser_inlet_maximum": 20, "deioniser_flow_maximum": 2}
    assert verdict("deioniser.inlet", plate=plate, conductivity_in=20.1) == "fail"
    assert verdict("deioniser.inlet", plate=plate) == "pass"
    assert verdict("deioniser.flow", plate=plate, flow=2.01) == "fail"
    assert verdict("deioniser.flow", plate=plate) == "pass"


@pytest.mark.parametrize(
    ("inlet", "expected"), [(9.7, "fail"), (9.9, "pass"), (18.1, "pass"), (18.3, "fail")]
)
def test_what_flows_in_is_compared_with_the_permeate(inlet, expected):
    """14 uS/cm, 30 % either way."""
    assert verdict("deioniser.inlet_expected", conductivity_in=inlet) == expected


def test_without_a_degasser_the_feeds_gas_arrives():
    plate = {"degasser_fitted": False}
    assert found("deioniser.carbon_dioxide_in", plate=plate) == pytest.approx(1.07, abs=0.01)  # PHREEQC 1.06
    heavy = {"feed__ph": 6.5, "plate": plate}
    assert verdict("deioniser.carbon_dioxide_share", **heavy) == "fail"
    assert verdict("deioniser.carbon_dioxide_share") == "not_applicable"


def test_without_a_membrane_the_feed_itself_arrives():
    """155 uS/cm, 1.07 mg/L of gas, 6 mg/L of silica: 1.4762 + 0.0243 + 0.0999 meq/L."""
    given = {"plate": NO_MEMBRANE, **NOTHING, "conductivity_in": 155, "feed__silica": 6}
    judgement = treated("deioniser", **given)
    assert judgement["quantities"]["deioniser.load"]["value"] == pytest.approx(1.6004, abs=0.001)
    assert judgement["rules"]["deioniser.inlet_expected"]["verdict"] == "pass"
    assert judgement["steps"]["deioniser"]["verdict"] == "pass"
    assert judgement["steps"]["deioniser"]["missing"] == []


def test_an_expired_cartridge_is_not_fitted():
    assert verdict("deioniser.expiry", expires_on="2026-11-24") == "fail"
    assert verdict("deioniser.expiry", expires_on="2026-11-25") == "pass"


def test_where_there_is_none_the_step_drops_out():
    step = treated("deioniser", plate={"deioniser_fitted": False})["steps"]["deioniser"]
    assert (step["state"], step["applies"]) == ("not_applicable", False)


def test_the_water_behind_it_is_asked_for():
    step = treated("deioniser", conductivity_shown=None)["steps"]["deioniser"]
    assert step["missing"] == ["deioniser.conductivity_shown"]
