"""Ultraviolet light at 254 nm: fluence of an annular chamber, a scaled certificate, a bench test."""

from __future__ import annotations

import sympy

from checks.expressions import smaller, step, when
from checks.formula import ANY, Input, Refusal, Source, formula

RADIAL = Source(
    "UV Disinfection Guidance Manual, EPA 815-R-06-007",
    "2006",
    "radial model of an annular chamber",
    "from memory",
)
CERTIFIED = Source(
    "ÖNORM M 5873-1, UV disinfection of drinking water",
    "2020",
    "certified window of flow and irradiance",
    "seen",
)
BENCH = Source(
    "J. Bolton, K. Linden, J. Environ. Eng. 129",
    "2003",
    "p. 209, standardised collimated beam",
    "from memory",
)
NEARLY_CLEAR = sympy.Float(1e-4)


def absorbed(exponent):
    """Share of the light that a path takes up, divided by its exponent; 1 for clear water."""
    series = 1 - exponent / 2 + exponent**2 / 6
    return when(exponent < NEARLY_CLEAR, series, (1 - sympy.exp(-exponent)) / exponent)


@formula(
    result_unit="mJ/cm**2",
    source=RADIAL,
    symbol="H",
    refusals=(Refusal("radii_swapped", lambda inner_radius, outer_radius: outer_radius <= inner_radius),),
    uvc_power=Input("W", "UV-C power over the wetted length of the lamp", minimum=0, maximum=1e5, symbol="P"),
    flow=Input("L/min", "flow", above=0, maximum=1e6, symbol="Q"),
    transmittance_10mm=Input(
        "1", "share of the light that 10 mm of the water let through", minimum=0.01, maximum=1, symbol="T_10"
    ),
    inner_radius=Input("cm", "radius of the sleeve", above=0, maximum=100, symbol="r_1"),
    outer_radius=Input("cm", "inner radius of the chamber", above=0, maximum=100, symbol="r_2"),
    length=Input("cm", "wetted length", above=0, maximum=1000, symbol="L"),
)
def annular_uv_fluence(uvc_power, flow, transmittance_10mm, inner_radius, outer_radius, length):
    """Estimate of the fluence that water gets on its way through an annular chamber: never a validated dose.

    Lamp, sleeve and their ageing must be in the power. No reflection, no refraction, even flow: the
    true mean may be a fifth higher, and an uneven flow may cost half. The length cancels out.
    """
    path = outer_radius - inner_radius
    volume = step(
        "V", "volume of the chamber", "cm**3", sympy.pi * (outer_radius**2 - inner_radius**2) * length
    )
    exponent = step("x", "absorption along the path", "1", -sympy.log(transmittance_10mm) * path)
    rate = 1000 * uvc_power * path * absorbed(exponent) / volume
    mean = step("E", "mean fluence rate", "mW/cm**2", rate)
    time = step("t", "mean time in the chamber", "s", volume / (flow * 1000 / 60))
    return mean * time


@formula(
    result_unit="mJ/cm**2",
    source=CERTIFIED,
    symbol="H",
    certified_fluence=Input("mJ/cm**2", "certified fluence", minimum=0, maximum=1e4, symbol="H_c"),
    certified_flow=Input(ANY, "certified flow", above=0, symbol="Q_c"),
    flow=Input(ANY, "flow", above=0, symbol="Q"),
    sensor_ratio=Input(
        "1", "sensor's reading divided by the certified one", minimum=0, maximum=2, symbol="s"
    ),
)
def scaled_uv_fluence(certified_fluence, certified_flow, flow, sensor_ratio):
    """Fluence at another flow and another reading of the sensor than those of the certificate.

    The transmittance must not be below the certified one. A lower flow is not credited: the
    certificate's own curve would have to say so.
    """
    return certified_fluence * smaller(1, certified_flow / flow) * sensor_ratio


@formula(
    result_unit="mW/cm**2",
    source=BENCH,
    symbol="E",
    surface_irradiance=Input(
        "mW/cm**2", "irradiance at the middle of the surface", minimum=0, maximum=1000, symbol="E_0"
    ),
    petri_factor=Input("1", "mean over the dish by the middle", above=0, maximum=1.5, symbol="P_f"),
    reflection=Input("1", "share reflected at the surface; 0.025 for water", minimum=0, below=1, symbol="R"),
    absorbance=Input("1/cm", "absorbance per cm, base 10", minimum=0, maximum=10, symbol="a"),
    depth=Input("cm", "depth of the water", above=0, maximum=100, symbol="l"),
    distance=Input("cm", "distance from the lamp to the surface", above=0, maximum=1000, symbol="L"),
)
def bench_uv_irradiance(surface_irradiance, petri_factor, reflection, absorbance, depth, distance):
    """Mean irradiance in a stirred dish under a parallel beam.

    Holds for a well stirred sample. Times the time it is the fluence, 1 mW/cm² for 1 s being 1 mJ/cm².
    """
    exponent = step("x", "absorption along the depth", "1", absorbance * depth * sympy.log(sympy.Integer(10)))
    water = step("W", "water factor", "1", absorbed(exponent))
    divergence = step("D", "divergence factor", "1", distance / (distance + depth))
    return surface_irradiance * petri_factor * (1 - reflection) * water * divergence
