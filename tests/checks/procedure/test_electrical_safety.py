"""Dead tests: earth continuity by the rule that the site chose, insulation by circuit and electronics."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

TESTERS = (
    instrument("continuity_tester", "ohm", 20),
    instrument("insulation_tester", "Mohm", 1000),
    instrument("voltage_tester", "V", 1000),
)
SITE = {"supply_system": "tn_s", "breaker_rating": 16}
PLATE = {"connection": "plug", "rated_voltage": 230}
EARTHING = {
    "length": 12,
    "cross_section": 1.5,
    "conductor_class": "5",
    "leads_nulled": True,
    "continuity": 0.17,
    "steady": True,
    "wiring": "in_use",
    "connections_sound": True,
}
INSULATION = {
    "circuit": "general",
    "electronics": "connected",
    "switches_closed": True,
    "test_voltage": 250,
    "live_earth": 40,
    "polarity": True,
    "voltage_left": 0,
    "restored": True,
}
APART = {"electronics": "disconnected", "test_voltage": 500, "live_earth": None}


def earthing(plate=None, site=None, baseline=None, **entries):
    given = {"plate": PLATE | (plate or {}), "site": SITE | (site or {}), "baseline": baseline}
    return judged("earthing", **given, instruments=TESTERS, **EARTHING | entries)


def insulation(plate=None, baseline=None, testers=TESTERS, **entries):
    given = {name: value for name, value in (INSULATION | entries).items() if value is not None}
    plated = {"plate": PLATE | (plate or {}), "site": SITE, "baseline": baseline}
    return verdicts("insulation", **plated, instruments=testers, **given)


@pytest.mark.parametrize(
    ("site", "plate", "limit"),
    [
        ({}, {}, 0.2596),  # IEC 60228, class 5: 13.3 ohm/km x 12 m + 0.1 ohm
        ({"bonding_rule": "connection"}, {}, 0.4),  # EN 50699: 0.3 + 0.1 for the first step begun
        ({"bonding_rule": "connection", "cord_step_rule": "completed"}, {}, 0.3),  # no whole step of 7.5 m
        ({"bonding_rule": "connection"}, {"connection": "permanent"}, 0.3125),  # 10 V / (2 x 16 A)
        ({"bonding_rule": "fixed"}, {}, 0.3),  # IEC 62353
        ({"bonding_rule": "fixed", "bonding_maximum": 0.2}, {}, 0.2),
    ],
)
def test_the_record_says_by_which_rule_the_earth_was_judged(site, plate, limit):
    assert earthing(site=site, plate=plate)["quantities"]["earthing.limit"]["value"] == pytest.approx(limit)
    below, above = (
        earthing(site=site, plate=plate, continuity=share * limit)["rules"]["earthing.continuity"]["verdict"]
        for share in (0.999, 1.001)
    )
    assert (below, above) == ("pass", "fail")


def test_a_contact_that_has_grown_worse_since_the_acceptance_is_a_hint():
    found = earthing(baseline={"continuity": 0.06})
    assert found["rules"]["earthing.since_acceptance"]["verdict"] == "fail"
    assert found["steps"]["earthing"]["verdict"] == "pass"
    better = earthing(baseline={"continuity": 0.08})["rules"]["earthing.since_acceptance"]
    assert better["verdict"] == "pass"


def test_sound_insulation_passes_everything():
    assert set(insulation().values()) == {"pass"}
    assert set(insulation(**APART, line_earth=200, neutral_earth=150, line_neutral=90).values()) == {"pass"}


@pytest.mark.parametrize(
    ("circuit", "electronics", "nominal", "voltage", "limit"),
    [
        ("general", "disconnected", 230, 500, 1.0),
        ("general", "connected", 230, 250, 1.0),  # the voltage falls, the resistance does not
        ("general", "disconnected", 690, 1000, 1.0),
        ("selv_pelv", "connected", 24, 250, 0.5),
    ],
)
def test_voltage_and_resistance_are_those_of_iec_60364_6(circuit, electronics, nominal, voltage, limit):
    case = {"circuit": circuit, "electronics": electronics, "live_earth": None, "test_voltage": voltage}
    plate = {"rated_voltage": nominal}
    names = ["live_earth"] if electronics == "connected" else ["line_earth", "neutral_earth"]
    good, bad = ({name: share * limit for name in names} for share in (1.001, 0.999))
    found = insulation(plate=plate, **case | good)
    assert (found["test_voltage"], found["lowest"]) == ("pass", "pass")
    assert insulation(plate=plate, **case | bad)["lowest"] == "fail"
    assert insulation(plate=plate, **case | good | {"test_voltage": 2 * voltage})["test_voltage"] == "fail"


def test_the_lower_of_both_conductors_counts():
    assert insulation(**APART, line_earth=200, neutral_earth=0.9)["lowest"] == "fail"
    assert insulation(**APART, line_earth=200)["lowest"] == "not_measured"


def test_between_line_and_neutral_only_what_was_measured_is_judged():
    assert "line_neutral" not in insulation(**APART, line_earth=200, neutral_earth=200)
    assert insulation(**APART, line_earth=200, neutral_earth=200, line_neutral=0.47)["line_neutral"] == "fail"


def test_an_error_of_30_percent_asks_for_more_than_the_limit():
    """IEC 61557-2: 1.3 Mohm may be 0.91. As a rectangular error U = 2 x 0.3 x 1.3 / root 3, 0.45 Mohm."""
    tester = instrument("insulation_tester", "Mohm", 1000, accuracy_of_reading=0.3)
    poor = (TESTERS[0], tester, TESTERS[2])
    assert insulation(testers=poor, live_earth=1.3)["lowest"] != "pass"
    assert insulation(testers=poor, live_earth=1.6)["lowest"] == "pass"


def test_the_parts_measured_alone_explain_the_whole():
    """2, 3 and 6 Mohm in parallel are 1 Mohm; nine tenths of it are still explained."""
    found = insulation(live_earth=0.91, branches=[2, 3, 6])
    assert (found["lowest"], found["branches"]) == ("fail", "pass")
    assert insulation(live_earth=0.89, branches=[2, 3, 6])["branches"] == "fail"
    assert "branches" not in insulation()


def test_charge_left_a_forgotten_link_and_swapped_wires_fail():
    assert insulation(voltage_left=5.1)["voltage_left"] == "fail"
    assert insulation(restored=False)["restored"] == "fail"
    assert insulation(polarity=False)["polarity"] == "fail"


def test_extra_low_voltage_ends_somewhere():
    """SELV and PELV end at 120 V d.c.: with 230 V there is no such limit."""
    assert insulation(circuit="selv_pelv")["lowest"] == "not_measured"


def test_insulation_that_fell_to_a_tenth_since_the_acceptance_is_a_hint():
    assert insulation(baseline={"insulation": 401})["since_acceptance"] == "fail"
    assert insulation(baseline={"insulation": 399})["since_acceptance"] == "pass"
