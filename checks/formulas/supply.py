"""Static head, the window for a relief valve's set pressure, and what flow it must pass."""

from __future__ import annotations

import sympy

from checks.expressions import larger, pick, smaller, step
from checks.formula import Choice, Input, Refusal, Source, formula
from checks.formulas.hydraulics import water_density
from checks.source import practice

STANDARD_GRAVITY = 9.80665

GRAVITY = Source(
    "3rd General Conference on Weights and Measures, resolution 2",
    "1901",
    "standard acceleration due to gravity, 980.665 cm/s2",
    "seen",
)
ISO_4126 = Source("ISO 4126-1, Safety valves", "2013 with amendment 1:2016", "limits list a), c), d)", "seen")
EN_1491 = Source(
    "EN 1491, Expansion valves, as read in a type-approval leaflet for safety valves",
    "2000",
    "rating pressure 20 % above the nominal set pressure",
    "seen",
)
PRESSURE_EQUIPMENT = Source("Directive 2014/68/EU", "2014", "annex I, 2.11.2 and 7.3", "from memory")
EN_806 = Source("EN 806-2", "2005", "16.1", "seen")
ORIFICE = Source("ISO 4126-7, Safety devices - Common data", "2013", "discharge of liquids", "from memory")
VALVE_COEFFICIENT = Source(
    "IEC 60534-2-1, Control valves - Flow capacity",
    "2011",
    "flow coefficient Kv, as the package fluids has it",
    "seen",
)

FAMILY = Choice(
    {
        "iso_4126": "safety valve to ISO 4126-1",
        "en_1491": "expansion valve to EN 1491 and its family (EN 1487, 1488, 1489)",
    },
    "family of the relief valve",
)
WATER = Input("degC", "temperature of the water", minimum=0, maximum=100, default=15, symbol="T")
NO_SETTING = Refusal("no_set_pressure", lambda result: result <= 0)


@formula(
    result_unit="bar",
    source=GRAVITY,
    symbol="p_h",
    height=Input(
        "m", "height of the upper point above the lower one", minimum=-1000, maximum=1000, symbol="h"
    ),
    temperature=WATER,
)
def static_head(height, temperature):
    """Pressure by which standing water presses harder at its lower end than at its upper end.

    Standing water only: moving water also loses pressure by friction. Negative when the upper
    point is in truth the lower one.
    Standard gravity 9.80665 m/s²; the local value differs by up to 0.3 %.
    """
    return water_density.on(temperature=temperature) * STANDARD_GRAVITY * height / 100000


def relieving_allowed(maximum_pressure, head, back_pressure):
    """What is left of the allowed pressure for the valve itself."""
    return step("A", "pressure left for the valve", "bar", maximum_pressure - head - back_pressure)


def set_pressure_never_exceeded(available, valve_family):
    """Highest setting when the allowed pressure must not be exceeded even while the valve blows."""
    relieving = step(
        "R",
        "highest pressure at which the valve may begin to open",
        "bar",
        smaller(available / 1.1, available - 0.1),
    )
    return pick(
        valve_family,
        {"iso_4126": smaller(relieving / 1.03, relieving - 0.1), "en_1491": available / 1.2},
    )


def set_pressure_briefly_exceeded(available, maximum_pressure, valve_family):
    """Highest setting when a brief rise of 10 % of the maximum allowable pressure is permitted."""
    brief = step("B", "pressure left with the brief rise of 10 %", "bar", available + 0.1 * maximum_pressure)
    blowing = pick(valve_family, {"iso_4126": smaller(brief / 1.1, brief - 0.1), "en_1491": brief / 1.2})
    return smaller(available, blowing)


@formula(
    result_unit="bar",
    source=(ISO_4126, EN_1491, PRESSURE_EQUIPMENT),
    symbol="P_max",
    refusals=(NO_SETTING,),
    maximum_pressure=Input(
        "bar", "highest pressure allowed at the unit's inlet", above=0, maximum=1000, symbol="p"
    ),
    basis=Choice(
        {
            "hard": "must never be exceeded",
            "ps": "maximum allowable pressure PS: a brief rise of 10 % is allowed",
        },
        "what the highest pressure means",
    ),
    valve_family=FAMILY,
    valve_height=Input(
        "m", "height of the valve above the unit's inlet", minimum=-100, maximum=100, default=0, symbol="h"
    ),
    back_pressure=Input(
        "bar", "pressure at the valve's outlet", minimum=0, maximum=1000, default=0, symbol="p_b"
    ),
    temperature=WATER,
)
def relief_set_pressure_maximum(
    maximum_pressure, basis, valve_family, valve_height, back_pressure, temperature
):
    """Highest set pressure at which the relief valve still protects the unit.

    For liquids. The discharge line's own back pressure must be in the back pressure given.
    ISO 4126-1: set tolerance 3 % or 0.1 bar, then overpressure 10 % or 0.1 bar, whichever is
    greater; the two are multiplied, which is the stricter reading (adding gives up to 0.4 % more).
    EN 1491: 20 % above the nominal set pressure contains both. On the basis PS the setting itself
    is compared, without its tolerance.
    """
    head = static_head.on(height=valve_height, temperature=temperature)
    available = relieving_allowed(maximum_pressure, head, back_pressure)
    return pick(
        basis,
        {
            "hard": set_pressure_never_exceeded(available, valve_family),
            "ps": set_pressure_briefly_exceeded(available, maximum_pressure, valve_family),
        },
    )


@formula(
    result_unit="bar",
    source=(ISO_4126, EN_806, practice("a margin of 0.1 bar above the rest pressure")),
    symbol="P_min",
    rest_pressure=Input(
        "bar", "highest pressure behind the regulator without flow", minimum=0, maximum=1000, symbol="p_r"
    ),
    valve_family=FAMILY,
    margin=Input(
        "bar", "margin above the rest pressure", minimum=0, maximum=100, default=0.1, exact=True, symbol="m"
    ),
    rest_ratio=Input(
        "1",
        "rest pressure as the highest share of the set pressure",
        above=0,
        maximum=1,
        default=0.75,
        exact=True,
        symbol="q",
    ),
    surge=Input("bar", "pressure surge when a valve closes", minimum=0, maximum=100, default=0, symbol="s"),
)
def relief_set_pressure_minimum(rest_pressure, valve_family, margin, rest_ratio, surge):
    """Lowest set pressure at which the relief valve surely closes again and does not weep.

    Take the rest pressure without flow (lock-up), not the flowing one.
    ISO 4126-1: the valve may open 3 % or 0.1 bar early and close 20 % or 0.6 bar lower, whichever
    is greater. No closing pressure of the EN 1491 family is known to us: there the ratio, the
    margin and the surge count. EN 806-2 asks for 75 %; DIN 1988-200 for 80 %: the ratio is an input.
    """
    wanted = step("c", "pressure at which the valve must be closed again", "bar", rest_pressure + margin)
    proportional = larger(wanted / 0.77, (wanted + 0.1) / 0.8)
    fixed = larger((wanted + 0.6) / 0.97, wanted + 0.7)
    reseat = pick(valve_family, {"iso_4126": larger(proportional, fixed), "en_1491": wanted})
    return larger(reseat, larger(rest_pressure / rest_ratio, rest_pressure + surge))


@formula(
    result_unit="L/min",
    source=ORIFICE,
    symbol="Q",
    flow_area=Input("mm**2", "smallest flow area of the valve", above=0, maximum=1e6, symbol="A"),
    discharge_coefficient=Input("1", "certified discharge coefficient", above=0, maximum=1, symbol="K_d"),
    pressure_difference=Input(
        "bar", "relieving pressure less the pressure at the outlet", minimum=0, maximum=1000, symbol="dp"
    ),
    temperature=WATER,
)
def relief_discharge_capacity(flow_area, discharge_coefficient, pressure_difference, temperature):
    """Flow of cold water that an open relief valve passes.

    Not for flashing or viscous liquids. Take the coefficient that is certified, with its derating;
    small water valves have 0.05 to 0.5, never the 0.65 of large ones.
    0.06 turns mm2 m/s into L/min. ISO 4126-7 writes the same with the constant 1.61 for kg/h,
    which is rounded by 0.002 %.
    """
    density = water_density.on(temperature=temperature)
    return discharge_coefficient * flow_area * sympy.sqrt(2 * pressure_difference * 100000 / density) * 0.06


@formula(
    result_unit="L/min",
    source=VALVE_COEFFICIENT,
    symbol="Q",
    flow_coefficient_kv=Input(
        "m**3/h", "flow coefficient Kv of the open regulator", above=0, maximum=1e5, symbol="K_v"
    ),
    supply_pressure=Input("bar", "highest supply pressure", minimum=0, maximum=1000, symbol="p_s"),
    relieving_pressure=Input(
        "bar", "pressure at which the relief valve is open", minimum=0, maximum=1000, symbol="p_r"
    ),
)
def regulator_failed_open_flow(flow_coefficient_kv, supply_pressure, relieving_pressure):
    """Flow of cold water through a regulator that has failed open, against the relieving pressure.

    Take the highest supply pressure, at night. Pipes and fittings in series make the flow smaller,
    so this is on the safe side. No flow when the supply is not above the relieving pressure.
    Kv is defined at 1000 kg/m³; at 40 °C the flow is 0.4 % larger.
    """
    difference = larger(0, supply_pressure - relieving_pressure)
    return flow_coefficient_kv * sympy.sqrt(difference) * 1000 / 60
