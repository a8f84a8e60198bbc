"""A closed section full of water: pressure surge, drift with the temperature, leak from a pressure drop."""

from __future__ import annotations

import sympy

from checks.expressions import step
from checks.formula import Input, Refusal, Source, formula
from checks.formulas.hydraulics import TEMPERATURE, water_density

SURGE = Source(
    "E. B. Wylie, V. L. Streeter, Fluid Transients in Systems",
    "1993",
    "Joukowsky, and the velocity of the wave, as a page on pipelines quotes them",
    "seen",
)
API_521 = Source(
    "API 521, Pressure-relieving Systems", "6th edition", "4.4.12.4.1, as a journal has it", "seen"
)
KELL = Source(
    "G. S. Kell, J. Chem. Eng. Data 20",
    "1975",
    "p. 97, density and compressibility, as open programs have them",
    "seen",
)
BOYLE = Source("EN 805, Water supply", "2000", "11.3.3.4, air in a test section", "from memory")

OUTER = Input("mm", "outer diameter of the tube", above=0, maximum=10000, symbol="D_o")
WALL = Input("mm", "thickness of the wall", above=0, maximum=1000, symbol="e")
YOUNG = Input("GPa", "Young's modulus of the tube", above=0, maximum=1000, symbol="E")
POISSON = Input("1", "Poisson's ratio of the tube", minimum=0, maximum=0.5, symbol="nu")
EXPANSION = Input("1/K", "linear thermal expansion of the tube", minimum=0, maximum=0.001, symbol="alpha")
NO_BORE = Refusal("wall_leaves_no_bore", lambda outer_diameter, wall: outer_diameter <= 2 * wall)


def compressibility(temperature):
    """How much smaller water becomes per bar: Kell, within 0.01 % of IAPWS SR6-08."""
    T = temperature
    above = 50.88496 + 0.6163813 * T + 1.459187e-3 * T**2
    above += 20.08438e-6 * T**3 - 58.47727e-9 * T**4 + 410.4110e-12 * T**5
    return step("kappa", "compressibility of water", "1/bar", 1e-6 * above / (1 + 19.67348e-3 * T))


def expansion(temperature):
    """How much larger water becomes per kelvin: Kell's density, differentiated; within 0.5e-6 of IAPWS."""
    T = temperature
    above = 999.83952 + 16.945176 * T - 7.9870401e-3 * T**2
    above += -46.170461e-6 * T**3 + 105.56302e-9 * T**4 - 280.54253e-12 * T**5
    slope = 16.945176 - 2 * 7.9870401e-3 * T - 3 * 46.170461e-6 * T**2
    slope += 4 * 105.56302e-9 * T**3 - 5 * 280.54253e-12 * T**4
    beta = 16.879850e-3 / (1 + 16.879850e-3 * T) - slope / above
    return step("beta", "expansion of water", "1/K", beta)


def stretch(outer_diameter, wall, youngs_modulus, ends):
    """How much larger the tube becomes per bar; 1/GPa is 1e-4 per bar."""
    widening = ends * (outer_diameter - 2 * wall) / (wall * youngs_modulus) / 10000
    return step("s", "widening of the tube", "1/bar", widening)


def free_ends(poisson_ratio):
    """Factor of a tube that can move lengthwise, as API 521 has it."""
    return (2.5 - 2 * poisson_ratio) / 2


@formula(
    result_unit="bar",
    source=(SURGE, KELL),
    symbol="dp",
    refusals=(NO_BORE,),
    velocity_change=Input("m/s", "velocity that is stopped", minimum=0, maximum=100, symbol="dv"),
    outer_diameter=OUTER,
    wall=WALL,
    youngs_modulus=YOUNG,
    temperature=TEMPERATURE,
)
def water_hammer_pressure(velocity_change, outer_diameter, wall, youngs_modulus, temperature):
    """Pressure surge when moving water is stopped at once.

    The full surge, reached when the valve closes within twice the length divided by the wave's
    velocity; slower closing gives less. Thin wall, tube with expansion joints (factor 1).
    Takes the isothermal compressibility: 0.2 % below the speed of sound at 15 °C, 1.3 % at 40 °C.
    """
    density = water_density.on(temperature=temperature)
    yielding = compressibility(temperature) + stretch(outer_diameter, wall, youngs_modulus, 1)
    wave = step("a", "velocity of the wave", "m/s", sympy.sqrt(100000 / (density * yielding)))
    return density * wave * velocity_change / 100000


@formula(
    result_unit="bar/K",
    source=(API_521, KELL),
    symbol="dp/dT",
    refusals=(NO_BORE,),
    outer_diameter=OUTER,
    wall=WALL,
    youngs_modulus=YOUNG,
    poisson_ratio=POISSON,
    expansion_coefficient=EXPANSION,
    temperature=TEMPERATURE,
)
def thermal_pressure_drift(
    outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature
):
    """Change of pressure per kelvin in a closed section that is full of water, without air.

    Negative for most plastics, and below 4 °C for all. Water and tube at one temperature, the tube
    free to move. Other sources take 1 or 1 - nu/2 for the factor of the ends: 2 % (steel) to 7 %.
    """
    growth = expansion(temperature) - 3 * expansion_coefficient
    widening = stretch(outer_diameter, wall, youngs_modulus, free_ends(poisson_ratio))
    return growth / (compressibility(temperature) + widening)


@formula(
    result_unit="mL/min",
    source=(API_521, BOYLE, KELL),
    symbol="q",
    refusals=(NO_BORE,),
    volume=Input("L", "volume of the section", above=0, maximum=1e6, symbol="V"),
    pressure_drop=Input("bar", "drop of the pressure", minimum=-1000, maximum=1000, symbol="dp"),
    duration=Input("min", "time between the two readings", above=0, maximum=1e5, symbol="t"),
    temperature_change=Input(
        "K", "water's temperature at the end less that at the start", minimum=-50, maximum=50, symbol="dT"
    ),
    air_volume=Input("mL", "air left in the section", minimum=0, maximum=1e9, default=0, symbol="V_a"),
    absolute_pressure=Input("bar", "absolute pressure in the section", above=0, maximum=1000, symbol="p"),
    outer_diameter=OUTER,
    wall=WALL,
    youngs_modulus=YOUNG,
    poisson_ratio=POISSON,
    expansion_coefficient=EXPANSION,
    temperature=TEMPERATURE,
)
def leak_rate(
    volume,
    pressure_drop,
    duration,
    temperature_change,
    air_volume,
    absolute_pressure,
    outer_diameter,
    wall,
    youngs_modulus,
    poisson_ratio,
    expansion_coefficient,
    temperature,
):
    """Flow that leaks out of a closed section, from its pressure drop less what cooling explains.

    Negative: water came in, or the temperatures are wrong. Plastics creep after pressurising, which
    looks like a leak. 0.1 K is 0.3 bar in a steel section: read the temperature to better than that.
    Air is compressed at one temperature; its own expansion is left out.
    """
    widening = stretch(outer_diameter, wall, youngs_modulus, free_ends(poisson_ratio))
    water = 1000 * volume * (compressibility(temperature) + widening)
    capacity = step("C", "volume that a bar holds", "mL/bar", water + air_volume / absolute_pressure)
    growth = 1000 * volume * (expansion(temperature) - 3 * expansion_coefficient) * temperature_change
    thermal = step("V_T", "volume by which the water outgrew the tube", "mL", growth)
    return (capacity * pressure_drop + thermal) / duration
