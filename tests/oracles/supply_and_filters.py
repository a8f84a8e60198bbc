"""Relief window, supply, overflow and filters against scipy, numpy and fluids, with the water of iapws."""

import fluids
import numpy
from fluids.packed_bed import Carman
from iapws._iapws import _Liquid, _Tension, _Viscosity
from scipy import optimize

from tests.oracles.comparison import SAME, Comparison, every

ALLOWED = every(
    maximum_pressure=[1.2, 3.0, 6.0, 16.0],
    basis=["hard", "ps"],
    valve_family=["iso_4126", "en_1491"],
    valve_height=[-1, 0, 1.2],
    back_pressure=[0, 0.2],
)
"""At 15 degC, the default."""


def rho(temperature):
    return _Liquid(temperature + 273.15)["rho"]


def head(point):
    return rho(15) * fluids.constants.g * point["valve_height"] / 1e5


def opens_at_most(setting):
    return setting + max(0.03 * setting, 0.1)


def worst_at_unit(point, setting):
    """Highest pressure at the unit while the valve blows, by the basis that the limit has."""
    if point["valve_family"] == "en_1491":
        blowing = 1.2 * setting
    else:
        opening = opens_at_most(setting) if point["basis"] == "hard" else setting
        blowing = opening + max(0.1 * opening, 0.1)
    return blowing + head(point) + point["back_pressure"]


def too_high(point, setting):
    limit = point["maximum_pressure"]
    if point["basis"] == "hard":
        return worst_at_unit(point, setting) - limit
    standing = setting + head(point) + point["back_pressure"]
    return max(standing - limit, worst_at_unit(point, setting) - 1.1 * limit)


def highest_setting(point):
    return optimize.brentq(lambda setting: too_high(point, setting), 0, 20, xtol=1e-13)


def too_low(point, setting):
    """What the strictest of the rules still asks for, in bar."""
    rest = point["rest_pressure"]
    if point["valve_family"] == "iso_4126":
        early = setting - max(0.03 * setting, 0.1)
        closed = early - max(0.2 * setting, 0.6)
    else:
        closed = setting
    wanted = [
        rest + point["margin"] - closed,
        rest - point["rest_ratio"] * setting,
        rest + point["surge"] - setting,
    ]
    return max(wanted)


def lowest_setting(point):
    return optimize.brentq(lambda setting: too_low(point, setting), 0, 40, xtol=1e-13)


def on_square_paper(point):
    """The straight line through both points of the test, over the square of the flow."""
    line = numpy.polyfit(
        [0, point["test_flow"] ** 2], [point["static_pressure"], point["dynamic_pressure"]], 1
    )
    return float(numpy.polyval(line, point["flow"] ** 2))


def overflow(point):
    """An orifice in the wall of a wide vessel; the head of water is the difference of pressure."""
    bore, density = point["bore"] / 1000, rho(20)
    over = density * fluids.constants.g * point["head"] / 1000
    mass = fluids.flow_meter.flow_meter_discharge(D=1e4 * bore, Do=bore, P1=over, P2=0.0, rho=density, C=0.6)
    return mass / density * 60000


def tension_follows(point):
    then, now = (_Tension(point[name] + 273.15) for name in ("reference_temperature", "temperature"))
    return point["bubble_point"] * now / then


def laminar_bed(point):
    """Carman's equation of a fine bed, so slow that viscosity alone counts, at both visits."""

    def drop(flow, temperature):
        kelvin, density = temperature + 273.15, rho(temperature)
        return Carman(
            dp=1e-7, voidage=0.4, vs=flow * 1e-9, rho=density, mu=_Viscosity(density, kelvin), L=0.01
        )

    now = drop(point["flow"], point["temperature"])
    return point["pressure_drop"] * drop(point["reference_flow"], point["reference_temperature"]) / now


COMPARISONS = [
    Comparison(
        "relief_set_pressure_maximum",
        "scipy",
        "1.2 to 16 bar, both bases and families, valve 1 m below to 1.2 m above, back pressure 0 and 0.2 bar",
        ALLOWED,
        highest_setting,
        1e-5,
        "There the setting is searched for whose worst case just fits; the head has the density of iapws.",
    ),
    Comparison(
        "relief_set_pressure_minimum",
        "scipy",
        "rest 0.5 to 8 bar, both families, surge 0 and 1.5 bar, 75 and 80 %",
        every(
            rest_pressure=[0.5, 1.6, 3, 8],
            valve_family=["iso_4126", "en_1491"],
            margin=[0.1],
            rest_ratio=[0.75, 0.8],
            surge=[0, 1.5],
        ),
        lowest_setting,
        1e-11,
        "There the setting is searched for that just meets every rule.",
    ),
    Comparison(
        "supply_pressure_at_flow",
        "numpy",
        "4.6 bar, 3.4 at 8 L/min; 0 to 15 L/min",
        every(static_pressure=[4.6], dynamic_pressure=[3.4], test_flow=[8], flow=[0, 2.5, 8, 12, 15]),
        on_square_paper,
        1e-12,
        SAME,
    ),
    Comparison(
        "overflow_capacity",
        "fluids",
        "bore 10 to 50 mm, head 10 mm to 0.5 m",
        every(bore=[10, 20, 32, 50], head=[10, 30, 100, 500]),
        overflow,
        1e-9,
        "There the vessel is 10000 bores wide.",
    ),
    Comparison(
        "surface_tension",
        "iapws",
        "0.5 to 100 °C",
        every(temperature=[0.5, 5, 20, 25, 40, 60, 80, 100]),
        lambda point: _Tension(point["temperature"] + 273.15) * 1000,
        1e-12,
        "The same correlation, computed twice.",
    ),
    Comparison(
        "smallest_defect",
        "iapws",
        "0.5 to 4 bar, 5 to 40 °C",
        every(pressure=[0.5, 1, 4], temperature=[5, 20, 40]),
        lambda point: 4 * _Tension(point["temperature"] + 273.15) / (point["pressure"] * 1e5) * 1e6,
        1e-12,
        "The same correlation, computed twice.",
    ),
    Comparison(
        "bubble_point_at_temperature",
        "iapws",
        "3.45 bar at 20 to 25 °C, tested at 5 to 40 °C",
        every(bubble_point=[3.45], reference_temperature=[20, 25], temperature=[5, 15, 23, 40]),
        tension_follows,
        1e-12,
        "The same correlation, computed twice.",
    ),
    Comparison(
        "filter_pressure_drop",
        "fluids",
        "0.48 bar, 1 to 4 L/min, 5 to 40 °C",
        every(
            pressure_drop=[0.48],
            flow=[1, 2.4, 4],
            temperature=[5, 8, 40],
            reference_flow=[2],
            reference_temperature=[20],
        ),
        laminar_bed,
        1e-4,
        "Carman's equation keeps a trace of turbulence; viscosity by iapws.",
    ),
]
