"""A closed section and a stopped flow from first principles, with the water of iapws (IAPWS-IF97).

Nothing here knows a coefficient of expansion or compressibility: mass is kept while pressure and
temperature change, and the wall gives by Hooke's law. Kell's equations, which the formulas take, are
another fit to other measurements.
"""

from functools import cache

from iapws.iapws97 import _Region1
from scipy import optimize

from tests.oracles.comparison import Comparison, every

TUBES = [
    {"outer_diameter": 18, "wall": 1, "youngs_modulus": 193},
    {"outer_diameter": 15, "wall": 1, "youngs_modulus": 120},
    {"outer_diameter": 20, "wall": 1.9, "youngs_modulus": 2.0},
    {"outer_diameter": 16, "wall": 2, "youngs_modulus": 0.8},
]
"""Stainless steel, copper, PVDF and crosslinked polyethylene."""
WARMED = [
    {"poisson_ratio": nu, "expansion_coefficient": a * 1e-6}
    for nu, a in ((0.3, 16), (0.34, 17), (0.35, 120), (0.45, 140))
]
SECTIONS = tuple({**tube, **warmed} for tube, warmed in zip(TUBES, WARMED, strict=True))


@cache
def density(temperature, pressure):
    """kg/m3, at an absolute pressure in bar."""
    return 1 / float(_Region1(temperature + 273.15, pressure / 10)["v"])


def strains(section, bars):
    """Hoop and lengthwise strain of a thin closed tube that may move, by Hooke's law."""
    ratio = (section["outer_diameter"] - 2 * section["wall"]) / section["wall"]
    hoop, along = bars * ratio / 2, bars * ratio / 4  # stresses in bar
    modulus, poisson = section["youngs_modulus"] * 10000, section["poisson_ratio"]
    return (hoop - poisson * along) / modulus, (along - poisson * hoop) / modulus


def inside(section, bars, kelvins):
    """Volume of what held 1 at the start, after pressure and temperature have changed."""
    hoop, along = strains(section, bars)
    return 1 + 2 * hoop + along + 3 * section["expansion_coefficient"] * kelvins


def pressure_after(section, pressure, start, end):
    """Absolute pressure in bar when a full section has gone from one temperature to another."""

    def gained(found):
        volume = inside(section, found - pressure, end - start)
        return density(end, found) * volume - density(start, pressure)

    return optimize.brentq(gained, 0.001, 500, xtol=1e-12)


def drift(point):
    before, after = point["temperature"] - 0.01, point["temperature"] + 0.01
    return (pressure_after(point, 5, before, after) - 5) / 0.02


def lost(point):
    """mL per minute: what the section held at the start less what it holds, as water of the end."""
    start = point["temperature"] - point["temperature_change"] / 2
    end = point["temperature"] + point["temperature_change"] / 2
    first = point["absolute_pressure"] + point["pressure_drop"] / 2
    last = point["absolute_pressure"] - point["pressure_drop"] / 2
    volume, air = point["volume"] * 1000, point["air_volume"]
    begun = air * point["absolute_pressure"] / first
    ended = air * point["absolute_pressure"] / last
    after = volume * inside(point, last - first, point["temperature_change"])
    held = density(start, first) * (volume - begun)
    holds = density(end, last) * (after - ended)
    return (held - holds) / density(end, last) / point["duration"]


def drop_by_the_leak(point):
    """What the pressure would be without a leak, less what it is."""
    return tight(point) - point["end_pressure"]


def tight(point):
    section = SECTIONS[STIFFNESS.index(point["drift"])]
    absolute = point["start_pressure"] + 1
    return pressure_after(section, absolute, point["start_temperature"], point["end_temperature"]) - 1


def surge(point):
    """The front that stops the water: mass is kept through it, and momentum gives its speed."""
    velocity, before = point["velocity_change"], 1.0
    ratio = (point["outer_diameter"] - 2 * point["wall"]) / point["wall"]

    def gained(bars):
        widened = 1 + ratio * bars / (point["youngs_modulus"] * 10000)  # hoop stress alone: joints
        heavier = density(point["temperature"], before + bars) / density(point["temperature"], before)
        front = bars * 1e5 / (density(point["temperature"], before) * velocity)
        return heavier * widened - 1 - velocity / front

    return optimize.brentq(gained, 0.01, 500, xtol=1e-12)


STIFFNESS = [round(drift({**section, "temperature": 20}), 6) for section in SECTIONS]
"""The drift of each section at 20 degC in bar/K, as somebody would enter it."""

COMPARISONS = [
    Comparison(
        "thermal_pressure_drift",
        "iapws",
        "steel, copper, two plastics; 6 to 60 °C",
        tuple({**section, "temperature": one} for section in SECTIONS for one in (6, 12, 20, 40, 60)),
        drift,
        0.04,
        "Other equations for water, and there at 5 bar, ours at atmospheric pressure.",
        absolute=True,
    ),
    Comparison(
        "leak_rate",
        "iapws",
        "8 L of steel, copper, two plastics; drop 0 to 1 bar, cooling to 0.5 K, air 0 to 50 mL",
        tuple(
            {**section, "volume": 8, "duration": 10, "temperature": 20, "absolute_pressure": 5, **rest}
            for section in SECTIONS
            for rest in every(
                pressure_drop=[0, 0.2, 1], temperature_change=[-0.5, 0, 0.03], air_volume=[0, 50]
            )
        ),
        lost,
        0.012,
        "The volume of the air, which ours leaves out, and other equations for water.",
        absolute=True,
    ),
    Comparison(
        "corrected_pressure_drop",
        "iapws",
        "steel, copper, two plastics; 2 K cooler to 2 K warmer around 20 °C",
        tuple(
            {"drift": drift, "start_temperature": 20 - change / 2, "end_temperature": 20 + change / 2, **rest}
            for drift in STIFFNESS
            for change in (-2, -0.3, 0, 2)
            for rest in every(start_pressure=[8], end_pressure=[1.5, 7.9])
        ),
        drop_by_the_leak,
        0.05,
        "The drift is taken as steady; there it changes with temperature and pressure.",
        absolute=True,
    ),
    Comparison(
        "water_hammer_pressure",
        "iapws",
        "steel, copper, two plastics; 0.5 to 3 m/s; 5 to 40 °C",
        tuple(
            {**tube, "velocity_change": velocity, "temperature": one}
            for tube in TUBES
            for velocity in (0.5, 3)
            for one in (5, 15, 40)
        ),
        surge,
        0.006,
        "There water stiffens as the pressure rises; both are isothermal.",
    ),
]
