"""Friction in pipes, dead legs, drains and air gaps, and what a supply gives at another flow."""

from __future__ import annotations

import sympy

from checks.expressions import larger, step, when
from checks.formula import Input, Refusal, Source, formula
from checks.formulas.hydraulics import BORE, FLOW, TEMPERATURE, flow_velocity, reynolds_number, water_density

SERGHIDES = Source("T. K. Serghides, Chem. Eng. 91", "1984", "p. 63, explicit friction factor", "seen")
POISEUILLE = Source("Crane TP-410M, Flow of Fluids", "metric edition", "laminar flow, 64/Re", "seen")
DARCY = Source("Crane TP-410M, Flow of Fluids", "metric edition", "equation of Darcy", "seen")
BPE = Source("ASME BPE, Bioprocessing Equipment", "2019", "SD, ratio L/D of a dead leg", "from memory")
EN_13076 = Source(
    "EN 13076, Unrestricted air gap, family A", "2003", "air gap, as quoted by an inspectorate", "seen"
)
MANNING = Source(
    "V. T. Chow, Open-Channel Hydraulics", "1959", "Manning's formula, circular section", "from memory"
)
HYDRANT = Source(
    "NFPA 291, Fire Flow Testing and Marking of Hydrants",
    "2019",
    "4.13, two-point test of a supply, as a page on flow tests has it",
    "seen",
)


@formula(
    result_unit="1",
    source=(SERGHIDES, POISEUILLE),
    symbol="f",
    reynolds_number=Input("1", "Reynolds number", above=0, maximum=1e8, symbol="Re"),
    relative_roughness=Input("1", "roughness divided by the bore", minimum=0, maximum=0.05, symbol="e"),
)
def friction_factor(reynolds_number, relative_roughness):
    """Friction factor of Darcy, which is four times that of Fanning.

    Between 2300 and 4000 the flow may be laminar or turbulent: the turbulent value is the upper estimate.
    Serghides' explicit form; against Colebrook's equation within 0.004 % from 2300 to 1e8.
    """
    Re, rough = reynolds_number, relative_roughness / 3.7
    a = step("A", "first approximation", "1", -2 * sympy.log(rough + 12 / Re, 10))
    b = step("B", "second approximation", "1", -2 * sympy.log(rough + 2.51 * a / Re, 10))
    c = step("C", "third approximation", "1", -2 * sympy.log(rough + 2.51 * b / Re, 10))
    return when(Re < 2300, 64 / Re, (a - (b - a) ** 2 / (c - 2 * b + a)) ** -2)


@formula(
    result_unit="bar",
    source=DARCY,
    symbol="dp",
    refusals=(Refusal("wall_too_rough", lambda roughness, bore: roughness > 0.05 * bore),),
    flow=FLOW,
    bore=BORE,
    length=Input("m", "length of the pipe", minimum=0, symbol="L"),
    roughness=Input("mm", "roughness of the wall", minimum=0, symbol="k"),
    loss_coefficients=Input(
        "1", "sum of the loss coefficients of fittings", minimum=0, default=0, symbol="K"
    ),
    temperature=TEMPERATURE,
)
def pipe_pressure_loss(flow, bore, length, roughness, loss_coefficients, temperature):
    """Pressure that moving water loses in a pipe and its fittings.

    Full bore, no change of height: add the static head. Roughness in mm: plastic 0.0015 to 0.007,
    drawn stainless steel 0.0015 to 0.015.
    The roughness may be at most 5 % of the bore.
    """
    Re = step("Re", "Reynolds number", "1", reynolds_number.on(flow=flow, bore=bore, temperature=temperature))
    friction = friction_factor.on(reynolds_number=Re, relative_roughness=roughness / bore)
    along = friction * length / (bore / 1000)
    dynamic = step(
        "q",
        "dynamic pressure",
        "bar",
        water_density.on(temperature=temperature) * flow_velocity.on(flow=flow, bore=bore) ** 2 / 2 / 100000,
    )
    return (along + loss_coefficients) * dynamic


@formula(
    result_unit="1",
    source=BPE,
    length=Input("mm", "length of the dead leg, from the wall of the pipe in use", minimum=0, symbol="L"),
    bore=Input("mm", "bore of the dead leg", above=0, symbol="D"),
)
def dead_leg_ratio(length, bore):
    """Length of a dead leg in its own bores.

    Rules differ by a factor of 3 and by where the length begins: 2 or 3 from the wall, 6 from the
    axis of the pipe in use. The bore is that of the branch. Exact by definition.
    """
    return length / bore


@formula(
    result_unit="mm",
    source=EN_13076,
    symbol="h_min",
    inlet_bore=Input("mm", "inner diameter of the inlet", above=0, maximum=1000, symbol="D"),
    minimum=Input(
        "mm", "least gap whatever the bore", minimum=0, maximum=1000, default=20, exact=True, symbol="h_0"
    ),
)
def air_gap_minimum(inlet_bore, minimum):
    """Least vertical gap between an inlet and the highest level that the water below can reach.

    For one inlet that points down within 15 degrees, up to 3 m/s. Several inlets close together: take
    the sum of their bores. In the United States the least gap is 25 mm.
    """
    return larger(minimum, 2 * inlet_bore)


@formula(
    result_unit="L/min",
    source=MANNING,
    symbol="Q",
    diameter=Input("mm", "inner diameter of the drain", above=0, maximum=10000, symbol="D"),
    slope=Input("1", "fall per length", above=0, maximum=1, symbol="S"),
    depth_ratio=Input("1", "depth of the water divided by the diameter", minimum=0.05, maximum=1, symbol="y"),
    roughness=Input(
        "1", "Manning's coefficient", minimum=0.005, maximum=0.1, default=0.01, exact=True, symbol="n"
    ),
)
def gravity_drain_capacity(diameter, slope, depth_ratio, roughness):
    """Flow that a drain with a fall carries at a depth of water.

    Long straight runs, air above the water. Coefficient: PVC 0.009 to 0.011, cast iron 0.012 to 0.013.
    EN 12056-2 computes with Prandtl and Colebrook (k = 1 mm) and gives about a fifth less for small drains.
    """
    D = diameter / 1000
    theta = step("theta", "angle of the wetted arc", "1", 2 * sympy.acos(1 - 2 * depth_ratio))
    area = step("A", "section of the water", "m**2", D**2 / 8 * (theta - sympy.sin(theta)))
    radius = step("R", "hydraulic radius", "m", area / (D * theta / 2))
    velocity = radius ** sympy.Rational(2, 3) * sympy.sqrt(slope) / roughness
    return area * velocity * 60000


@formula(
    result_unit="bar",
    source=HYDRANT,
    symbol="p",
    refusals=(
        Refusal(
            "dynamic_above_static",
            lambda static_pressure, dynamic_pressure: dynamic_pressure > static_pressure,
        ),
        Refusal("supply_exhausted", lambda result: result < 0),
    ),
    static_pressure=Input("bar", "supply pressure without flow", minimum=0, maximum=1000, symbol="p_s"),
    dynamic_pressure=Input("bar", "supply pressure at the test flow", minimum=0, maximum=1000, symbol="p_d"),
    test_flow=Input("L/min", "flow of the test", above=0, symbol="Q_t"),
    flow=Input("L/min", "flow asked about", minimum=0, symbol="Q"),
)
def supply_pressure_at_flow(static_pressure, dynamic_pressure, test_flow, flow):
    """Supply pressure at a flow, from a test at another flow.

    For fixed restrictions, whose loss grows with the square of the flow; not across a regulator that
    is regulating. NFPA 291 takes the power 1.85 for mains, which gives a little more beyond the test.
    """
    return static_pressure - (static_pressure - dynamic_pressure) * (flow / test_flow) ** 2
