"""The survey: whether the unit fits floor, room, drain and water supply, before anything is joined."""

import pytest

from tests.checks.procedure.judged import instrument, judged, verdicts

THERMOMETER = (instrument("thermometer", "degC", 100),)
PLATE = {
    "rated_voltage": 230,
    "empty_mass": 95,
    "wetted_volume": 150,
    "footprint": 0.36,
    "passage_width": 700,
    "service_clearance": 600,
    "largest_discharge": 30,
}
SITE = {"floor_load_permitted": 7}
WELL = {
    "documents_agree": True,
    "serial_number": "A-0417",
    "manual_at_hand": True,
    "instruments_in_date": True,
    "people_informed": True,
    "others_on_site": "nobody",
    "surroundings_dry": True,
    "way_in": 820,
    "clearance": 650,
    "room_temperature": 21,
    "frost_or_heat": "never",
    "drain": "gravity",
    "drain_bore": 50,
    "drain_slope": "2 %",
    "drain_air_gap": 25,
    "drain_tried": True,
    "worst_fluid": "sanitised",
    "protection": "ba",
    "relief_port": True,
    "ventilation": True,
}


def judge(plate=None, site=None, **entries):
    given = {name: value for name, value in (WELL | entries).items() if value is not None}
    owned = {"plate": PLATE | (plate or {}), "site": SITE | (site or {})}
    return verdicts("survey", **owned, instruments=THERMOMETER, **given)


def quantities(**entries):
    return judged("survey", plate=PLATE, site=SITE, instruments=THERMOMETER, **WELL | entries)["quantities"]


def test_a_good_place_passes_everything():
    assert set(judge().values()) == {"pass"}


def test_the_floor_carries_the_unit_full_not_empty():
    """(95 + 150) kg x 9.80665 m/s2 / 0.36 m2 = 6.674 kN/m2; empty it would be 2.6."""
    assert quantities()["survey.floor_load"]["value"] == pytest.approx(6.674, abs=5e-4)
    assert judge(site={"floor_load_permitted": 6.68})["floor_load"] == "pass"
    assert judge(site={"floor_load_permitted": 6.67})["floor_load"] == "fail"


def test_the_drain_takes_the_largest_discharge():
    """Manning, 50 mm, 2 %, half full: 44.9 L/min with n = 0.010, so 34.5 with 0.013."""
    assert quantities()["survey.drain_capacity"]["value"] == pytest.approx(44.9 / 1.3, abs=0.05)
    assert judge(plate={"largest_discharge": 34.4})["drain_capacity"] == "pass"
    assert judge(plate={"largest_discharge": 34.7})["drain_capacity"] == "fail"
    assert (
        judge(site={"drain_roughness": 0.01}, plate={"largest_discharge": 44.8})["drain_capacity"] == "pass"
    )


def test_a_pumped_drain_is_its_pump_and_no_drain_takes_nothing():
    pumped = {"drain": "pumped", "drain_bore": None, "drain_slope": None}
    assert judge(**pumped, drain_pump_flow=30)["drain_capacity"] == "pass"
    assert judge(**pumped, drain_pump_flow=29.9)["drain_capacity"] == "fail"
    without = judge(drain="none")
    assert without["drain_capacity"] == "fail"
    assert not {"drain_air_gap", "drain_tried"} & set(without)


@pytest.mark.parametrize(
    ("fluid", "covered", "short"),
    [
        ("water", "ca", "ea"),  # small reverse osmosis, exchanged cartridges: category 3
        ("salts", "ca", "ea"),
        ("sanitised", "ba", "ca"),  # chemicals: category 4, reduced pressure zone or better
        ("biological", "air_gap", "ba"),  # microbes: category 5, only a free air gap
    ],
)
def test_the_protection_covers_the_worst_that_the_unit_can_hold(fluid, covered, short):
    """EN 1717:2000, protection units by fluid category."""
    assert judge(worst_fluid=fluid, protection=covered)["backflow"] == "pass"
    assert judge(worst_fluid=fluid, protection=short)["backflow"] == "fail"


def test_the_supplier_may_ask_for_more():
    found = judge(worst_fluid="water", protection="ba", site={"fluid_category_minimum": "5"})
    assert found["backflow"] == "fail"
    assert judge(worst_fluid="water", protection="none")["backflow"] == "fail"


def test_a_double_check_valve_covers_what_the_local_rules_say():
    double = {"worst_fluid": "water", "protection": "double_check"}
    assert judge(**double)["backflow"] == "fail"
    assert judge(**double, site={"double_check_covers": "3"})["backflow"] == "pass"


def test_sanitising_asks_for_air_and_a_disconnector_for_its_drain():
    assert judge(ventilation=False)["ventilation"] == "fail"
    assert judge(relief_port=False)["relief_port"] == "fail"
    found = judge(worst_fluid="salts", protection="ca")
    assert not {"ventilation", "relief_port"} & set(found)


@pytest.mark.parametrize(("temperature", "verdict"), [(5, "pass"), (4.9, "fail"), (40.1, "fail")])
def test_the_room_stays_within_the_plate(temperature, verdict):
    assert judge(room_temperature=temperature)["room_temperature"] == verdict


def test_a_plate_of_its_own_narrows_the_room():
    assert judge(plate={"ambient_maximum": 30}, room_temperature=31)["room_temperature"] == "fail"
    assert judge(frost_or_heat="possible")["frost_or_heat"] == "fail"


def test_the_unit_gets_in_and_out_and_can_be_served():
    assert judge(way_in=699)["way_in"] == "fail"
    assert judge(clearance=599)["clearance"] == "fail"
    assert judge(plate={"passage_width": 820, "service_clearance": 650})["way_in"] == "pass"


def test_an_air_gap_above_the_drain():
    assert judge(drain_air_gap=20)["drain_air_gap"] == "pass"
    assert judge(drain_air_gap=19)["drain_air_gap"] == "fail"
