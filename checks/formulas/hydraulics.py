"""Properties of water, flow in a bore, and the washing out of a mixed volume."""

from __future__ import annotations

import sympy

from checks.expressions import when
from checks.formula import ANY, Input, Refusal, Source, formula

KELL = Source(
    "G. S. Kell, J. Chem. Eng. Data 20",
    "1975",
    "p. 97, equation for the density, as open programs have it",
    "seen",
)
IAPWS = Source(
    "IAPWS SR6-08, Thermodynamic Properties of Common Water at 0.1 MPa",
    "2011",
    "viscosity, as the package iapws has it",
    "seen",
)
TEXTBOOK = Source("Crane TP-410M, Flow of Fluids", "metric edition", "chapter 1", "from memory")
MIXED = Source(
    "O. Levenspiel, Chemical Reaction Engineering",
    "3rd edition",
    "chapter on the mixed-flow tank",
    "from memory",
)

TEMPERATURE = Input("degC", "temperature of the water", minimum=0, maximum=100, symbol="T")
FLOW = Input("L/min", "flow", above=0, symbol="Q")
BORE = Input("mm", "inner diameter", above=0, symbol="D")
VOLUME = Input("L", "mixed volume", above=0, symbol="V")
START = Input(ANY, "concentration at the start", minimum=0, symbol="C_0")
LIMIT = Input(ANY, "concentration to be reached", minimum=0, symbol="C_lim")
INFLOW = Input(ANY, "concentration of the water that flows in", minimum=0, symbol="C_in")


@formula(result_unit="kg/m**3", source=KELL, symbol="rho", temperature=TEMPERATURE)
def water_density(temperature):
    """Density of air-free water at atmospheric pressure.

    Does not hold above 100 °C or for sea water.
    Kell's coefficients; against IAPWS SR6-08 the deviation is at most 0.0015 % (0 to 99 °C).
    """
    T = temperature
    above = (
        999.83952
        + 16.945176 * T
        - 7.9870401e-3 * T**2
        - 46.170461e-6 * T**3
        + 105.56302e-9 * T**4
        - 280.54253e-12 * T**5
    )
    return above / (1 + 16.879850e-3 * T)


@formula(result_unit="mPa s", source=IAPWS, symbol="mu", temperature=TEMPERATURE)
def water_viscosity(temperature):
    """Dynamic viscosity of water at atmospheric pressure.

    Does not hold for other liquids or above 100 °C.
    The IAPWS correlation itself, stated there for 253 K to 383 K.
    """
    t = (temperature + 273.15) / 300
    return 1e-3 * (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40)


@formula(result_unit="m/s", source=TEXTBOOK, symbol="v", flow=FLOW, bore=BORE)
def flow_velocity(flow, bore):
    """Mean velocity in a round bore that runs full.

    Take the inner diameter: a 20 mm tube may be 16.2 mm inside, which is 52 % in area.
    1/60000 turns L/min into m3/s, 1/1000 turns mm into m. Exact by definition.
    """
    return flow / 60000 / (sympy.pi / 4 * (bore / 1000) ** 2)


@formula(result_unit="1", source=TEXTBOOK, symbol="Re", flow=FLOW, bore=BORE, temperature=TEMPERATURE)
def reynolds_number(flow, bore, temperature):
    """Ratio of inertia to friction in a bore: below 2300 laminar, above 4000 turbulent.

    Between the two the flow may be either.
    Density and viscosity are those of water at this temperature; the thousands of mm and mPa·s
    cancel. Exact by definition.
    """
    velocity = flow_velocity.on(flow=flow, bore=bore)
    density = water_density.on(temperature=temperature)
    viscosity = water_viscosity.on(temperature=temperature)
    return density * velocity * bore / viscosity


NEVER = Refusal(
    "never_reached",
    lambda start, limit, inflow: (start > limit) & (limit <= inflow),
)


@formula(
    result_unit="1", source=MIXED, symbol="N", refusals=(NEVER,), start=START, limit=LIMIT, inflow=INFLOW
)
def washout_volumes(start, limit, inflow):
    """How many volumes must flow through a mixed tank until its content is down to the limit.

    Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
    A content already at the limit needs none. Exact for perfect mixing.
    """
    return when(start <= limit, 0, sympy.log((start - inflow) / (limit - inflow)))


@formula(
    result_unit="min",
    source=MIXED,
    symbol="t",
    refusals=(NEVER,),
    volume=VOLUME,
    flow=FLOW,
    start=START,
    limit=LIMIT,
    inflow=INFLOW,
)
def washout_time(volume, flow, start, limit, inflow):
    """How long a mixed volume must be flushed until its content is down to the limit.

    Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
    Leaving out the inflow's own content makes the time too short. Exact for perfect mixing.
    """
    return volume / flow * washout_volumes.on(start=start, limit=limit, inflow=inflow)


@formula(
    result_unit=ANY,
    source=MIXED,
    symbol="C",
    volume=VOLUME,
    flow=FLOW,
    time=Input("min", "time since the flush began", minimum=0, symbol="t"),
    start=START,
    inflow=INFLOW,
)
def washout_concentration(volume, flow, time, start, inflow):
    """Content of a mixed volume after flushing for a time.

    Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
    Exact for perfect mixing.
    """
    return inflow + (start - inflow) * sympy.exp(-flow * time / volume)
