"""The supply is measured at rest and under flow, and judged against what the unit takes and bears."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

METERS = (instrument("pressure_gauge", "bar", 25), instrument("flow_meter", "L/min", 100))
PLATE = {"minimum_pressure": 1.5, "feed_flow": 8, "maximum_pressure": 6}
SITE = {"supply_pressure_maximum": 6}
WELL = {
    "unit_shut_off": True,
    "regulator": False,
    "line": "in_use",
    "static_pressure": 4.6,
    "lock_up_pressure": 4.65,
    "waited": 10,
    "test_flow": 8,
    "dynamic_pressure": 3.4,
    "pipe_material": "unknown",
}


def judge(plate=None, site=None, baseline=None, meters=METERS, **entries):
    return verdicts(
        "supply",
        plate=PLATE | (plate or {}),
        site=SITE | (site or {}),
        baseline=baseline,
        instruments=meters,
        **WELL | entries,
    )


def test_a_good_supply_passes_everything():
    assert set(judge().values()) == {"pass"}


def test_the_pressure_at_the_units_own_flow_follows_from_two_points():
    """4.6 bar at rest, 3.4 at 8 L/min: 4.6 - 1.2 x (12/8)^2 = 1.90 bar at 12 L/min."""
    found = judged("supply", plate=PLATE | {"feed_flow": 12}, site=SITE, instruments=METERS, **WELL)
    assert found["quantities"]["supply.pressure_at_demand"]["value"] == pytest.approx(1.9)
    assert judge(plate={"feed_flow": 12, "minimum_pressure": 1.89})["pressure_at_demand"] == "pass"
    assert judge(plate={"feed_flow": 12, "minimum_pressure": 1.91})["pressure_at_demand"] == "fail"


def test_a_supply_that_is_used_up_before_the_units_flow_gives_no_pressure():
    """At 16 L/min the loss would be 4.8 bar of 4.6."""
    assert judge(plate={"feed_flow": 16})["pressure_at_demand"] == "not_measured"
    assert judge(plate={"feed_flow": 16})["flow"] == "fail"


def test_behind_a_regulator_the_pressure_is_judged_as_measured():
    found = judge(regulator=True, static_pressure=2.0, lock_up_pressure=2.1, dynamic_pressure=1.51)
    assert found["dynamic_pressure"] == "pass"
    assert "pressure_at_demand" not in found
    assert judge(regulator=True, dynamic_pressure=1.49)["dynamic_pressure"] == "fail"


def test_the_flow_is_at_least_what_the_unit_takes():
    assert judge(plate={"feed_flow": 8})["flow"] == "pass"
    assert judge(plate={"feed_flow": 8.01})["flow"] == "fail"


def test_a_meters_error_makes_four_words_of_two():
    """5 % of 8 L/min: U = 2 x 0.4 / root 3, 0.46 L/min."""
    meters = (METERS[0], instrument("flow_meter", "L/min", 100, accuracy_of_reading=0.05))
    found = {flow: judge(meters=meters, plate={"feed_flow": flow})["flow"] for flow in (7.5, 7.9, 8.1, 8.5)}
    assert list(found.values()) == ["pass", "conditional_pass", "conditional_fail", "fail"]


def test_a_seat_that_leaks_shows_as_a_rise_during_a_wait_that_is_long_enough():
    """Without a regulator the mains itself moves, so that a rise says nothing."""
    assert judge(regulator=True, lock_up_pressure=4.79)["creep"] == "pass"
    assert judge(regulator=True, lock_up_pressure=4.81)["creep"] == "fail"
    assert "creep" not in judge(lock_up_pressure=4.81)
    assert judge(waited=9.9)["waited"] == "fail"


def test_one_gauge_reads_all_pressures():
    other = instrument("pressure_gauge", "bar", 25) | {"id": "other"}
    readings = {
        "static_pressure": {"value": 4.6, "instrument": "pressure_gauge"},
        "lock_up_pressure": {"value": 4.65, "instrument": "pressure_gauge"},
        "dynamic_pressure": {"value": 3.4, "instrument": "other"},
    }
    assert judge(meters=(*METERS, other), **readings)["same_gauge"] == "fail"


def test_the_unit_stays_shut_off_until_its_relief_valve_is_proved():
    assert judge(unit_shut_off=False)["unit_shut_off"] == "fail"


def test_the_surge_is_a_hint_and_stays_away_for_an_unknown_pipe():
    """PE-X 16x2, 15 degC: 3.5 bar for each m/s; 8 L/min in 12 mm are 1.179 m/s, so 4.13 bar."""
    pipe = {"pipe_material": "pex", "pipe_diameter": 16, "pipe_wall": 2}
    found = judged("supply", plate=PLATE, site=SITE, instruments=METERS, **WELL | pipe)
    assert found["quantities"]["supply.velocity"]["value"] == pytest.approx(1.179, abs=5e-4)
    assert found["quantities"]["supply.surge"]["value"] == pytest.approx(3.54 * 1.179, abs=0.05)
    assert found["rules"]["supply.surge"]["verdict"] == "fail"
    assert found["steps"]["supply"]["verdict"] == "pass"
    assert not {"surge", "surge_peak"} & set(judge())


@pytest.mark.parametrize(
    ("material", "outer", "wall", "printed"),
    [
        ("stainless", 15, 1, 13.7),
        ("copper", 15, 1, 13.2),
        ("pvdf", 20, 1.9, 4.6),
        ("pp", 20, 1.9, 3.8),
        ("pex", 16, 2, 3.5),
    ],
)
def test_the_surge_by_material(material, outer, wall, printed):
    """bar for each m/s at 15 degC by Joukowsky and Korteweg, computed with `fluids` and `scipy`."""
    pipe = {"pipe_material": material, "pipe_diameter": outer, "pipe_wall": wall}
    found = judged("supply", plate=PLATE, site=SITE, instruments=METERS, **WELL | pipe)["quantities"]
    rise = found["supply.surge"]["value"] / found["supply.velocity"]["value"]
    assert rise == pytest.approx(printed, abs=0.06)


def test_a_regulator_that_takes_too_much_at_once_is_a_hint():
    """6 bar before it, 1.9 bar behind: 3.16 times."""
    assert judge(regulator=True, dynamic_pressure=1.9)["regulator_ratio"] == "fail"
    assert judge(regulator=True, dynamic_pressure=2.1)["regulator_ratio"] == "pass"


def test_a_later_visit_compares_with_the_acceptance():
    """3.4 bar after 4.3: a drop of 21 %."""
    assert judge(baseline={"supply_pressure": 4.3})["change"] == "fail"
    assert judge(baseline={"supply_pressure": 4.2})["change"] == "pass"
    assert "change" not in judge()
