"""Faults to earth: loop impedance, disconnection, residual current devices, insulation and leakage."""

from __future__ import annotations

import sympy

from checks.expressions import larger, pick, smaller, step, when
from checks.formula import Choice, Input, Refusal, Source, formula
from checks.formulas.electrical import COPPER, FORM, heated
from checks.lookup import tables

BS_7671 = "BS 7671, Requirements for Electrical Installations"
BS_7671_LOOP = Source(BS_7671, "2018", "411.4.5, table 41.3 and appendix 3", "seen")
IEC_60364_6 = "IEC 60364-6, Low-voltage installations - Verification"
IEC_LOOP = Source(IEC_60364_6, "2016", "annex D, D.6.4.3.7.2", "seen")
VDE_LOOP = Source("DIN VDE 0100-600", "2017-06", "6.4.3.7.3, notes 4 and 5 taken literally", "seen")
IEC_INSULATION = Source(IEC_60364_6, "2016", "6.4.3.3, table of test voltages", "seen")
IEC_60898 = Source("IEC 60898-1, Circuit-breakers for household use", "2015", "tripping ranges", "seen")
ADIABATIC = Source(
    "IEC 60364-5-54, Earthing arrangements", "2011", "543.1.2, as a page on sizing has it", "seen"
)
IEC_61140 = Source("IEC 61140, Protection against electric shock", "2016", "7.6.3.5, as quoted", "seen")
SHOCK = Source("IEC 60364-4-41, Protection against electric shock", "2017", "411.5.3", "seen")
TIMES = tables("iec-60364-4-41-2017")
BREAK = tables("iec-61008-1-2010")

VOLTAGE = Input("V", "nominal voltage to earth", above=50, maximum=1000, symbol="U_0")
MULTIPLE = Input(
    "1", "test current as a multiple of the rated residual current", among=(0.5, 1, 2, 5), symbol="m"
)
KIND = Choice({"general": "without delay", "selective": "with delay, marked S"}, "kind of the device")
MUST_NOT_TRIP = Refusal("must_not_trip", lambda multiple: multiple < 0.75)


@formula(
    result_unit="Mohm",
    source=IEC_INSULATION,
    symbol="R_min",
    refusals=(
        Refusal(
            "not_extra_low_voltage",
            lambda nominal_voltage, circuit: sympy.Eq(circuit, 1) & (nominal_voltage > 120),
        ),
    ),
    nominal_voltage=Input(
        "V", "nominal voltage of the circuit", above=0, maximum=1000, exact=True, symbol="U"
    ),
    circuit=Choice(
        {"general": "any other circuit, FELV among them", "selv_pelv": "extra-low voltage, SELV or PELV"},
        "kind of the circuit",
    ),
)
def insulation_resistance_minimum(nominal_voltage, circuit):
    """Lowest insulation resistance between live conductors and earth.

    For fixed wiring with what could be damaged disconnected or joined. Equipment has figures of its
    own: with heating elements some standards allow 0.3 MΩ.
    Test with 250 V d.c. (SELV, PELV), 500 V (up to 500 V) or 1000 V (above): 1 MΩ on either side of 500 V.
    SELV and PELV end at 50 V a.c. or 120 V d.c.
    """
    return pick(circuit, {"general": 1, "selv_pelv": 0.5})


@formula(
    result_unit="A",
    source=IEC_60898,
    symbol="I_a",
    breaker_type=Choice(
        {"B": "trips at 3 to 5 times", "C": "trips at 5 to 10 times", "D": "trips at 10 to 20 times"},
        "type of the circuit-breaker",
    ),
    rating=Input("A", "rated current of the circuit-breaker", above=0, maximum=125, exact=True, symbol="I_n"),
)
def breaker_trip_current(breaker_type, rating):
    """Current at which a circuit-breaker surely trips at once: the upper end of its band.

    Not for fuses: take the maker's curve. Australia and New Zealand take the middle of the band
    (4, 7.5, 12.5 times; from memory), which is less strict.
    """
    return rating * pick(breaker_type, {"B": 5, "C": 10, "D": 20})


@formula(
    result_unit="ohm",
    source=(BS_7671_LOOP, IEC_LOOP, VDE_LOOP),
    symbol="Z_max",
    voltage=VOLTAGE,
    trip_current=Input("A", "current at which the protective device operates in time", above=0, symbol="I_a"),
    rule=Choice(
        {
            "uk_hot": "0.95, for conductors at operating temperature",
            "uk": "0.8 of that, for a reading at ambient temperature",
            "iec": "2/3, for a reading at ambient temperature",
            "vde": "1/(1.3 x 1.24): instrument error and heating to 80 °C",
            "plain": "no allowance, conductors at operating temperature",
        },
        "what is allowed for heating and for the instrument",
    ),
)
def loop_impedance_maximum(voltage, trip_current, rule):
    """Highest earth fault loop impedance at which the protective device still operates in time.

    The rules differ by up to 60 %, so the site chooses. The rule `vde` already holds the
    instrument's error of 30 %: no guard band on top of it.
    Unrounded: printed tables round to the nearest, sometimes upwards.
    """
    allowance = pick(
        rule, {"uk_hot": 0.95, "uk": 0.76, "iec": sympy.Rational(2, 3), "vde": 1 / (1.3 * 1.24), "plain": 1}
    )
    return step("f", "allowance of the rule", "1", allowance) * voltage / trip_current


@formula(
    result_unit="ohm",
    source=(BS_7671_LOOP, COPPER),
    symbol="Z_hot",
    external=Input("ohm", "external part of the loop", minimum=0, symbol="Z_e"),
    line=Input("ohm", "line conductor of the circuit", minimum=0, symbol="R_1"),
    protective=Input("ohm", "protective conductor of the circuit", minimum=0, symbol="R_2"),
    temperature=Input("degC", "temperature at the measurement", minimum=-50, maximum=150, symbol="t_1"),
    target_temperature=Input(
        "degC", "operating temperature", minimum=-50, maximum=150, default=70, exact=True, symbol="t_2"
    ),
    temperature_form=FORM,
)
def loop_impedance_hot(external, line, protective, temperature, target_temperature, temperature_form):
    """Earth fault loop impedance with the circuit's conductors at operating temperature.

    For copper in one cable. The external part is not heated. To be compared with the limit of the
    rule `uk_hot` or `plain`. 70 °C is PVC; XLPE may reach 90 °C.
    The impedances are added as if they were resistances, which is at most too high: safe.
    """
    factor = step(
        "k",
        "factor from the measurement to operation",
        "1",
        heated(temperature_form, target_temperature) / heated(temperature_form, temperature),
    )
    return external + (line + protective) * factor


@formula(
    result_unit="A",
    source=Source("IEC 60909-0, Short-circuit currents", "2016", "line to earth or neutral", "from memory"),
    symbol="I_pf",
    voltage=Input("V", "measured voltage", above=0, maximum=1000, symbol="U"),
    loop_impedance=Input("ohm", "measured loop impedance", above=0, symbol="Z"),
    error=Input(
        "1",
        "share by which the impedance may be smaller",
        minimum=0,
        below=1,
        default=0,
        exact=True,
        symbol="e",
    ),
)
def prospective_fault_current(voltage, loop_impedance, error):
    """Current that a fault without resistance would drive.

    For the breaking capacity take the instrument's error (0.3), which gives the highest current; for
    the trip check the lowest counts, so that this formula does not serve there. Exact by definition.
    """
    return voltage / (loop_impedance * (1 - error))


@formula(
    result_unit="s",
    source=(TIMES["tn"].source, TIMES["tt"].source),
    symbol="t_max",
    system=Choice(
        {"tn": "earthed through the supply, TN", "tt": "own electrode, TT"}, "earthing of the system"
    ),
    voltage=VOLTAGE,
    rating=Input("A", "rating of the final circuit", above=0, maximum=10000, exact=True, symbol="I_n"),
    circuit=Choice(
        {"socket": "with socket-outlets", "fixed": "feeds only fixed-connected equipment"}, "what it feeds"
    ),
)
def disconnection_time_maximum(system, voltage, rating, circuit):
    """Longest time within which the protective device must disconnect a fault to earth.

    A.c., voltages above 50 V. The short times hold for circuits with sockets up to 63 A and for fixed
    equipment up to 32 A; beyond, 5 s (TN) and 1 s (TT). Before 2017 the short times ended at 32 A for
    all. TT with an overcurrent device and full bonding may use the times of TN.
    """
    upper = when(voltage <= 120, 120, when(voltage <= 230, 230, when(voltage <= 400, 400, 1000)))
    upper_end = step("U_k", "upper end of the class of voltage", "V", upper)
    largest = pick(circuit, {"socket": 63, "fixed": 32})
    short = pick(system, {"tn": TIMES["tn"](upper_end), "tt": TIMES["tt"](upper_end)})
    return when(rating <= largest, short, pick(system, {"tn": 5, "tt": 1}))


@formula(
    result_unit="V",
    source=SHOCK,
    symbol="U_t",
    earth_resistance=Input(
        "ohm", "resistance of electrode and protective conductor", minimum=0, symbol="R_A"
    ),
    residual_current=Input(
        "mA", "rated residual current of the device", above=0, maximum=30000, exact=True, symbol="I_dn"
    ),
)
def touch_voltage(earth_resistance, residual_current):
    """Voltage of touchable metal at the current at which the residual current device must trip.

    To be at most 50 V, or 25 V where the site says so. An electrode above 200 Ω may not be stable.
    The thousand turns mA into A. Exact by definition.
    """
    return earth_resistance * residual_current / 1000


@formula(
    result_unit="ms",
    source=(BREAK["general"].source, BREAK["selective"].source),
    symbol="t_max",
    refusals=(MUST_NOT_TRIP,),
    multiple=MULTIPLE,
    kind=KIND,
)
def rcd_trip_time_maximum(multiple, kind):
    """Longest time in which a residual current device may trip.

    A.c. residual currents. For devices up to 30 mA the 40 ms of five times hold at 0.25 A; testers
    that drive less prove no fault. BS 7671 asks for the test at 1 times only since 2022.
    """
    return pick(kind, {"general": BREAK["general"](multiple), "selective": BREAK["selective"](multiple)})


@formula(
    result_unit="ms",
    source=BREAK["selective_shortest"].source,
    symbol="t_min",
    refusals=(MUST_NOT_TRIP,),
    multiple=MULTIPLE,
    kind=KIND,
)
def rcd_trip_time_minimum(multiple, kind):
    """Shortest time before which a residual current device must not trip.

    Only the selective kind has one: for the general kind it is 0.
    """
    return pick(kind, {"general": 0, "selective": BREAK["selective_shortest"](multiple)})


@formula(
    result_unit="mm**2",
    source=ADIABATIC,
    symbol="S_min",
    current=Input("A", "fault current", minimum=0, symbol="I"),
    time=Input("s", "time until the fault is disconnected", minimum=0, maximum=5, symbol="t"),
    k=Input(
        "1",
        "factor of conductor and insulation, A s^1/2 per mm2",
        above=0,
        maximum=400,
        exact=True,
        symbol="k",
    ),
)
def fault_withstand_cross_section(current, time, k):
    """Smallest cross-section that survives the fault current until it is disconnected.

    Up to 5 s: no heat leaves the conductor. Below 0.1 s take the device's let-through energy.
    k for copper and PVC: 115 in a cable, 143 as a separate conductor (from memory).
    """
    return sympy.sqrt(current**2 * time) / k


@formula(
    result_unit="mA",
    source=IEC_61140,
    symbol="I_max",
    refusals=(
        Refusal(
            "plug_above_32_amperes",
            lambda rated_current, connection: sympy.Eq(connection, 0) & (rated_current > 32),
        ),
    ),
    rated_current=Input(
        "A", "rated current of the equipment", above=0, maximum=10000, exact=True, symbol="I_n"
    ),
    connection=Choice(
        {"plug": "plug for sockets up to 32 A", "permanent": "permanently, or by a plug above 32 A"},
        "how it is connected",
    ),
)
def earth_leakage_limit(rated_current, connection):
    """Highest current in the protective conductor of one piece of equipment.

    A.c., for equipment without a product standard of its own. The sum behind a residual current device
    is another question: there 30 % of its rated residual current is the usual limit.
    """
    share = rated_current / 2
    return pick(
        connection, {"plug": smaller(5, larger(2, share)), "permanent": smaller(10, larger(3.5, share))}
    )
