"""Before water and electricity are on: load on the floor, test voltage, a drop of pressure less cooling."""

from __future__ import annotations

from checks.expressions import pick, when
from checks.formula import Choice, Input, Source, formula
from checks.formulas.earth_fault import IEC_60364_6
from checks.formulas.supply import GRAVITY, STANDARD_GRAVITY
from checks.source import practice

IEC_TEST_VOLTAGE = Source(IEC_60364_6, "2016", "6.4.3.3, table of test voltages", "seen")
FLOOR = Source("EN 1991-1-1, Actions on structures", "2002", "6.3, loads on floors by area", "from memory")
CLOSED = Source(
    "API 521, Pressure-relieving Systems", "6th edition", "4.4.12.4.1, a closed section warms", "seen"
)


@formula(
    result_unit="kg",
    source=practice("a litre of water is taken as a kilogram"),
    symbol="m",
    empty_mass=Input("kg", "mass without water", above=0, maximum=100000, symbol="m_0"),
    water_volume=Input("L", "water held when full", minimum=0, maximum=100000, symbol="V"),
)
def full_mass(empty_mass, water_volume):
    """Mass of a unit that is full of water.

    A litre counts as 1 kg, which is never too little: at 4 °C it is 0.99997 kg. Count the stand,
    vessels and canisters that stand on the same footprint.
    """
    return empty_mass + water_volume


@formula(
    result_unit="kN/m**2",
    source=(FLOOR, GRAVITY),
    symbol="q",
    mass=Input("kg", "mass that stands on the footprint", above=0, maximum=100000, symbol="m"),
    footprint=Input("m**2", "area that it stands on", above=0, maximum=100, symbol="A"),
)
def floor_load(mass, footprint):
    """Load on the floor under a unit, spread evenly over its footprint.

    Single feet press harder: where the floor is thin or raised, ask for the load of one foot too.
    """
    return mass * STANDARD_GRAVITY / footprint / 1000


@formula(
    result_unit="V",
    source=IEC_TEST_VOLTAGE,
    symbol="U_test",
    nominal_voltage=Input(
        "V", "nominal voltage of the circuit", above=0, maximum=1000, exact=True, symbol="U"
    ),
    circuit=Choice(
        {"general": "any other circuit, FELV among them", "selv_pelv": "extra-low voltage, SELV or PELV"},
        "kind of the circuit",
    ),
    electronics=Choice(
        {
            "disconnected": "nothing that could be damaged stays connected",
            "connected": "electronics or surge suppressors stay connected, line and neutral joined",
        },
        "what stays connected",
    ),
)
def insulation_test_voltage(nominal_voltage, circuit, electronics):
    """Direct voltage for the test of insulation resistance.

    500 V up to 500 V nominal, 1000 V above. Where electronics cannot be disconnected the standard
    allows 250 V; the lowest resistance stays as it is.
    """
    full = when(nominal_voltage > 500, 1000, 500)
    general = pick(electronics, {"disconnected": full, "connected": 250})
    return pick(circuit, {"general": general, "selv_pelv": 250})


@formula(
    result_unit="bar",
    source=CLOSED,
    symbol="dp_c",
    start_pressure=Input("bar", "pressure at the start", minimum=0, maximum=1000, symbol="p_1"),
    end_pressure=Input("bar", "pressure at the end", minimum=0, maximum=1000, symbol="p_2"),
    start_temperature=Input(
        "degC", "temperature of the water at the start", minimum=0, maximum=100, symbol="T_1"
    ),
    end_temperature=Input(
        "degC", "temperature of the water at the end", minimum=0, maximum=100, symbol="T_2"
    ),
    drift=Input("bar/K", "change of pressure per kelvin in this section", symbol="k"),
)
def corrected_pressure_drop(start_pressure, end_pressure, start_temperature, end_temperature, drift):
    """What is left of a drop of pressure when the change of temperature is taken off.

    For a closed section full of water, without air, tube and water at one temperature. A metal
    section that warms hides a leak; one that cools shows one that is not there.
    """
    return start_pressure - end_pressure - drift * (start_temperature - end_temperature)


@formula(
    result_unit="K",
    source=practice("how far a temperature has moved"),
    symbol="dT",
    start=Input("degC", "temperature at the start", symbol="T_1"),
    end=Input("degC", "temperature at the end", symbol="T_2"),
)
def temperature_change(start, end):
    """Temperature at the end less that at the start; negative when it has cooled. Exact by definition."""
    return end - start
