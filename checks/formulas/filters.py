"""Filters: surface tension, bubble point, what a pressure test can find, and the clean pressure drop."""

from __future__ import annotations

import sympy

from checks.expressions import step
from checks.formula import ANY, Input, Source, formula
from checks.formulas.hydraulics import water_viscosity

IAPWS_R1 = Source(
    "IAPWS R1-76, Surface Tension of Ordinary Water Substance",
    "2014",
    "interpolating equation, as the package iapws has it",
    "seen",
)
F316 = Source(
    "ASTM F316-03, Pore Size Characteristics of Membrane Filters", "2019", "bubble point", "from memory"
)
DARCY_BED = Source(
    "W. McCabe, J. Smith, P. Harriott, Unit Operations of Chemical Engineering",
    "7th edition",
    "laminar flow through a filter medium",
    "from memory",
)

WATER = Input("degC", "temperature of the wetted filter", minimum=0, maximum=100, symbol="t")
CRITICAL = sympy.Float("647.096")


@formula(result_unit="mN/m", source=IAPWS_R1, symbol="sigma", temperature=WATER)
def surface_tension(temperature):
    """Surface tension of water against its vapour.

    For clean water: a trace of alcohol or detergent lowers it by much.
    """
    tau = step("tau", "distance from the critical point", "1", 1 - (temperature + 273.15) / CRITICAL)
    return 235.8 * tau ** sympy.Float("1.256") * (1 - sympy.Float("0.625") * tau)


@formula(
    result_unit=ANY,
    source=(F316, IAPWS_R1),
    symbol="p_t",
    bubble_point=Input(ANY, "published bubble point, wetted with water", minimum=0, symbol="p"),
    reference_temperature=Input("degC", "temperature it holds for", minimum=0, maximum=100, symbol="t_r"),
    temperature=WATER,
)
def bubble_point_at_temperature(bubble_point, reference_temperature, temperature):
    """Least bubble point at the temperature of the test: it follows the surface tension.

    For water alone; a value for an alcohol-wetted filter cannot be compared. The published least value
    is compared, never one computed from the pore size.
    """
    reference = step(
        "sigma_r",
        "surface tension at the reference",
        "mN/m",
        surface_tension.on(temperature=reference_temperature),
    )
    return bubble_point * surface_tension.on(temperature=temperature) / reference


@formula(
    result_unit="um",
    source=F316,
    symbol="d",
    pressure=Input("bar", "pressure difference of the test", above=0, maximum=100, symbol="p"),
    temperature=WATER,
)
def smallest_defect(pressure, temperature):
    """Width of the smallest round hole that a gas test at this pressure empties of water.

    Fully wetted wall. A hole smaller than this stays closed by its water: the test does not see it, and
    passing it proves nothing about endotoxin or viruses.
    """
    return 4 * surface_tension.on(temperature=temperature) / 1000 / (pressure * 100000) * 1000000


@formula(
    result_unit=ANY,
    source=DARCY_BED,
    symbol="dp_n",
    pressure_drop=Input(ANY, "pressure drop now", minimum=0, symbol="dp"),
    flow=Input("L/min", "flow now", above=0, symbol="Q"),
    temperature=Input("degC", "temperature now", minimum=0, maximum=100, symbol="t"),
    reference_flow=Input("L/min", "flow at the reference", above=0, symbol="Q_r"),
    reference_temperature=Input("degC", "temperature at the reference", minimum=0, maximum=100, symbol="t_r"),
)
def filter_pressure_drop(pressure_drop, flow, temperature, reference_flow, reference_temperature):
    """Pressure drop of a fine filter as it would be at the reference's flow and temperature.

    For laminar flow through the medium, where the drop grows with flow and viscosity; not for strainers,
    housings or membranes with a feed channel.
    """
    thickness = step("mu", "viscosity now", "mPa s", water_viscosity.on(temperature=temperature))
    before = step(
        "mu_r", "viscosity at the reference", "mPa s", water_viscosity.on(temperature=reference_temperature)
    )
    return pressure_drop * reference_flow / flow * before / thickness
