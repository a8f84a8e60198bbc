"""The degasser: what is left of the carbon dioxide, what drives it out, and what the air allows."""

import pytest

from tests.checks.procedure.judged import instrument
from tests.checks.procedure.treated_water import found, treated, verdict, verdicts

BY_PH = {
    "method": "ph",
    "alkalinity": 5,
    "ph_before": 5.6,
    "ph_after": 6.2,
    "test_before": None,
    "test_after": None,
}


def test_a_degasser_in_order_passes_everything():
    assert verdicts("degasser") == {"pass"}


@pytest.mark.parametrize(("left", "expected"), [(9.9, "pass"), (10.1, "fail")])
def test_what_is_left_stays_below_the_plate(left, expected):
    assert verdict("degasser.outlet", test_before=40, test_after=left) == expected


def test_the_rise_of_the_ph_says_how_much_is_gone():
    """At one alkalinity the gas falls by ten for each unit of pH: 10^-0.6 is left after a rise of 0.6."""
    assert found("degasser.removal", **BY_PH) == pytest.approx(1 - 10**-0.6)


def test_carbon_dioxide_of_permeate_from_its_ph():
    """Permeate of 5 mg/L hydrogen carbonate and pH 5.62 at 25 degC holds 20 mg/L (PHREEQC)."""
    permeate = BY_PH | {"alkalinity": 5 * 50.04 / 61.02, "ph_before": 5.62, "temperature": 25}
    assert found("degasser.carbon_dioxide_before", **permeate) == pytest.approx(20, rel=0.04)


@pytest.mark.parametrize(("share", "expected"), [(0.74, "pass"), (0.76, "fail")])
def test_the_share_of_the_plate_is_removed(share, expected):
    """A rise of 0.6 is a removal of 74.9 %."""
    plate = {"degasser_removal_minimum": share}
    judgement = treated("degasser", plate=plate, **BY_PH)
    assert judgement["rules"]["degasser.removal"]["verdict"] == expected
    assert judgement["rules"]["degasser.as_expected"]["verdict"] == expected


def test_two_ph_readings_known_to_a_tenth_leave_it_open():
    meters = [instrument("ph_meter", "pH", 14, accuracy_of_range=0.1 / 14)]
    meters.append({**meters[0], "id": "other"})
    readings = {
        "ph_before": {"value": 5.6, "instrument": "ph_meter"},
        "ph_after": {"value": 6.2, "instrument": "other"},
        "feed__ph": {"value": 7.9, "instrument": "ph_meter"},
    }
    given = {"plate": {"degasser_removal_minimum": 0.7}, "instruments": tuple(meters)}
    assert verdict("degasser.removal", **given, **BY_PH | readings) == "conditional_pass"


@pytest.mark.parametrize(
    ("flow", "expected"), [(1.99, "fail"), (2.01, "pass"), (5.99, "pass"), (6.01, "fail")]
)
def test_sweep_gas_stays_in_its_window(flow, expected):
    assert verdict("degasser.sweep_flow", sweep_flow=flow) == expected


@pytest.mark.parametrize(("vacuum", "expected"), [("9.9 kPa", "pass"), (101, "fail")])
def test_the_vacuum_is_deep_enough(vacuum, expected):
    assert verdict("degasser.vacuum", vacuum=vacuum) == expected


def test_air_leaves_what_it_holds_itself():
    """PHREEQC: water at 10 degC in moist air of 425 ppm holds 0.99 mg/L, so 0.5 mg/L was misread."""
    plate = {"degasser_drive": "sweep"}
    air = {"site": {"air_carbon_dioxide": 425}, "temperature": 10}
    assert found("degasser.air_limit", plate=plate, **air) == pytest.approx(0.99, rel=0.03)
    assert verdict("degasser.air_balance", plate=plate, test_after=0.5, **air) == "fail"
    assert verdict("degasser.air_balance", test_after=0.5, **air) == "not_applicable"


def test_what_comes_in_is_compared_with_the_feed():
    """The feed holds 1.07 mg/L; half as much again is 1.6."""
    assert verdict("degasser.before_as_feed", test_before=1.55) == "pass"
    assert verdict("degasser.before_as_feed", test_before=1.65) == "fail"


def test_without_vacuum_nobody_asks_for_it():
    plate = {"degasser_drive": "sweep", "vacuum_maximum": None}
    step = treated("degasser", plate=plate, vacuum=None, test_after=1.0)["steps"]["degasser"]
    assert (step["verdict"], step["missing"]) == ("pass", [])


def test_where_there_is_none_the_step_drops_out():
    step = treated("degasser", plate={"degasser_fitted": False})["steps"]["degasser"]
    assert (step["state"], step["applies"]) == ("not_applicable", False)


def test_the_gas_behind_it_is_asked_for():
    assert treated("degasser", test_after=None)["steps"]["degasser"]["missing"] == ["degasser.test_after"]
