"""Loops, residual current devices and leakage: edges of the tables, and what must grow with what."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checks.catalogue import FORMULAS

ohms = st.floats(0.001, 1000)
amperes = st.floats(0.1, 1e4)


def value(name, **inputs):
    return FORMULAS[name].evaluate(inputs).value


def reason(name, **inputs):
    return FORMULAS[name].evaluate(inputs).reason


@given(st.floats(51, 1000), amperes)
def test_the_rules_for_a_loop_stand_in_one_order_of_strictness(voltage, current):
    limits = [
        value("loop_impedance_maximum", voltage=voltage, trip_current=current, rule=rule)
        for rule in ("vde", "iec", "uk", "uk_hot", "plain")
    ]
    assert limits == sorted(limits)
    assert limits[2] == pytest.approx(0.8 * limits[3], rel=1e-12)  # BS 7671, appendix 3


@given(ohms, st.floats(51, 1000))
def test_a_loop_at_its_plain_limit_drives_just_the_trip_current(impedance, voltage):
    current = value("prospective_fault_current", voltage=voltage, loop_impedance=impedance)
    assert value(
        "loop_impedance_maximum", voltage=voltage, trip_current=current, rule="plain"
    ) == pytest.approx(impedance, rel=1e-12)


@given(ohms, st.floats(0.001, 0.9))
def test_an_error_of_the_instrument_only_raises_the_current(impedance, error):
    given_ = {"voltage": 230, "loop_impedance": impedance}
    assert value("prospective_fault_current", error=error, **given_) > value(
        "prospective_fault_current", **given_
    )


@given(ohms, ohms, ohms, st.floats(-20, 69))
def test_heating_raises_the_loop_and_leaves_its_external_part(external, line, protective, temperature):
    hot = value(
        "loop_impedance_hot", external=external, line=line, protective=protective, temperature=temperature
    )
    warmed = value(
        "resistance_at_temperature",
        resistance=line + protective,
        temperature=temperature,
        target_temperature=70,
    )
    assert hot == pytest.approx(external + warmed, rel=1e-12)
    assert hot > external + line + protective


@pytest.mark.parametrize(
    ("voltage", "tn", "tt"),
    [
        (50.1, 0.8, 0.3),
        (120, 0.8, 0.3),
        (120.1, 0.4, 0.2),
        (230, 0.4, 0.2),
        (231, 0.2, 0.07),
        (401, 0.1, 0.04),
    ],
)
def test_a_class_of_voltage_ends_with_its_upper_value(voltage, tn, tt):
    given_ = {"voltage": voltage, "rating": 16, "circuit": "socket"}
    assert value("disconnection_time_maximum", system="tn", **given_) == tn
    assert value("disconnection_time_maximum", system="tt", **given_) == tt


@pytest.mark.parametrize(
    ("rating", "circuit", "tn", "tt"),
    [(63, "socket", 0.4, 0.2), (64, "socket", 5, 1), (32, "fixed", 0.4, 0.2), (33, "fixed", 5, 1)],
)
def test_large_circuits_have_more_time(rating, circuit, tn, tt):
    given_ = {"voltage": 230, "rating": rating, "circuit": circuit}
    assert value("disconnection_time_maximum", system="tn", **given_) == tn
    assert value("disconnection_time_maximum", system="tt", **given_) == tt


def test_extra_low_voltage_has_no_disconnection_time():
    found = reason("disconnection_time_maximum", system="tn", voltage=50, rating=16, circuit="socket")
    assert found["code"] == "outside_range"


@pytest.mark.parametrize("kind", ["general", "selective"])
def test_at_half_the_rated_current_no_time_is_given(kind):
    for name in ("rcd_trip_time_maximum", "rcd_trip_time_minimum"):
        assert reason(name, multiple=0.5, kind=kind) == {"code": "must_not_trip"}


@pytest.mark.parametrize("kind", ["general", "selective"])
def test_more_residual_current_leaves_less_time_and_the_shortest_is_below_the_longest(kind):
    longest = [value("rcd_trip_time_maximum", multiple=multiple, kind=kind) for multiple in (1, 2, 5)]
    shortest = [value("rcd_trip_time_minimum", multiple=multiple, kind=kind) for multiple in (1, 2, 5)]
    assert longest == sorted(longest, reverse=True)
    assert all(low < high for low, high in zip(shortest, longest, strict=True))


def test_a_multiple_that_is_not_tested_is_not_in_the_table():
    assert reason("rcd_trip_time_maximum", multiple=3, kind="general")["code"] == "not_in_table"


@given(ohms, st.floats(1, 500))
def test_touch_voltage_is_resistance_times_current(resistance, current):
    volts = value("touch_voltage", earth_resistance=resistance, residual_current=current)
    assert volts == pytest.approx(resistance * current / 1000)


@given(amperes, st.floats(0.1, 5), st.floats(50, 250))
def test_the_conductor_takes_up_the_heat_of_the_fault(current, time, k):
    """IEC 60364-5-54, 543.1.2: k squared times S squared is I squared times t."""
    section = value("fault_withstand_cross_section", current=current, time=time, k=k)
    assert (k * section) ** 2 == pytest.approx(current**2 * time)


def test_beyond_five_seconds_heat_leaves_the_conductor():
    assert reason("fault_withstand_cross_section", current=100, time=5.1, k=115)["code"] == "outside_range"


@given(st.floats(0.01, 32))
def test_a_permanent_connection_never_allows_less_leakage_than_a_plug(current):
    assert value("earth_leakage_limit", rated_current=current, connection="permanent") >= value(
        "earth_leakage_limit", rated_current=current, connection="plug"
    )


def test_a_plug_above_32_amperes_is_asked_to_be_a_permanent_connection():
    found = reason("earth_leakage_limit", rated_current=33, connection="plug")
    assert found == {"code": "plug_above_32_amperes"}
    assert value("earth_leakage_limit", rated_current=33, connection="permanent") == 10


def test_mains_is_no_extra_low_voltage():
    found = reason("insulation_resistance_minimum", nominal_voltage=230, circuit="selv_pelv")
    assert found == {"code": "not_extra_low_voltage"}
    assert value("insulation_resistance_minimum", nominal_voltage=120, circuit="selv_pelv") == 0.5


@given(st.floats(0.1, 125))
def test_the_types_of_breakers_double_from_one_to_the_next(rating):
    b, c, d = (value("breaker_trip_current", breaker_type=one, rating=rating) for one in "BCD")
    assert (c, d) == (pytest.approx(2 * b), pytest.approx(4 * b))
