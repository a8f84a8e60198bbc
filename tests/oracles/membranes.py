"""Membranes against scipy (integrals, roots), numpy (mixing) and PHREEQC with Pitzer's equations.

A balance is stated as the mixing of its streams, and the unknown searched for; a mean along the membrane
as the integral along it; a comparison with a reference as a membrane of known properties at two visits.
"""

from functools import cache

import numpy
import phreeqpython
from iapws._iapws import _Liquid
from scipy import integrate, optimize

from tests.oracles.comparison import SAME, Comparison, every

MEANS = ["log", "arithmetic", "log_difference"]
SALT_PERMEABILITY = 0.0004
"""Of the membrane that is made up: flow of salt by concentration, where permeate flows are near 0.03."""
GAS_CONSTANT = 8.314462618  # J/(mol K)
SODIUM_CHLORIDE = 58.44  # g/mol


def root(function, low, high):
    return optimize.brentq(function, low, high, xtol=1e-15, rtol=1e-14)


def mixed(point, concentrate, share):
    """Conductivity of permeate and concentrate poured together again."""
    return numpy.average([point["permeate_conductivity"], concentrate], weights=[share, 1 - share])


def concentrate_of(point):
    feed = point["feed_conductivity"]
    return root(lambda one: mixed(point, one, point["recovery"]) - feed, 0, 200 * feed)


def share_of(point):
    feed, concentrate = point["feed_conductivity"], point["concentrate_conductivity"]
    return root(lambda one: mixed(point, concentrate, one) - feed, 0, 1)


def leaving(point):
    return numpy.array([point["permeate_flow"], point["concentrate_flow"]])


def flow_missing(point):
    """The share that must be taken off the feed until it is what leaves."""
    return root(lambda one: (1 - one) * point["feed_flow"] - numpy.sum(leaving(point)), -9, 9)


def salt_missing(point):
    kinds = [point["permeate_conductivity"], point["concentrate_conductivity"]]
    entering = point["feed_flow"] * point["feed_conductivity"]
    return root(lambda one: (1 - one) * entering - numpy.dot(leaving(point), kinds), -9, 9)


@cache
def along(recovery, mean):
    """Mean concentration beside the membrane, of a feed of 1 whose salt stays behind."""
    if recovery == 0:
        return 1.0
    end = 1 / (1 - recovery)
    integrals = {
        "log": (lambda gone: 1 / (1 - gone), recovery),
        "arithmetic": (lambda way: 1 + way * (end - 1), 1),
        "log_difference": (lambda way: end**way, 1),
    }
    function, upper = integrals[mean]
    return integrate.quad(function, 0, upper, epsabs=0, epsrel=1e-13)[0] / upper


def passing(point):
    return (
        point["permeate_conductivity"] / point["feed_conductivity"] / along(point["recovery"], point["mean"])
    )


@cache
def pitzer():
    return phreeqpython.PhreeqPython(database="pitzer.dat").ip


@cache
def osmotic(solids, temperature):
    """Osmotic pressure of sodium chloride in bar: Pitzer's osmotic coefficient, density of water."""
    density = _Liquid(temperature + 273.15)["rho"]
    molality = solids / SODIUM_CHLORIDE / density
    engine = pitzer()
    engine.run_string(
        "SELECTED_OUTPUT 1\n -reset false\nUSER_PUNCH\n -headings phi\n 10 PUNCH OSMOTIC\n"
        f"SOLUTION 1\n temp {temperature}\n units mol/kgw\n Na {molality}\n Cl {molality}\nEND\n"
    )
    coefficient = engine.get_selected_output_array()[1][0]
    kelvin = temperature + 273.15
    return coefficient * 2 * molality * GAS_CONSTANT * kelvin * density / 1e5


def driving(point):
    """The pressures along the membrane averaged, less the osmotic ones."""
    drop = point["pressure_drop"]
    hydraulic = (
        numpy.mean([point["feed_pressure"], point["feed_pressure"] - drop]) - point["permeate_pressure"]
    )
    beside = point["feed_dissolved_solids"] * along(point["recovery"], point["mean"])
    across = osmotic(beside, point["temperature"]) - osmotic(
        point["permeate_dissolved_solids"], point["temperature"]
    )
    return hydraulic - across


def warmth(temperature, constant):
    """Arrhenius, as the integral of the relative change per kelvin from 25 degC on."""
    return float(
        numpy.exp(integrate.quad(lambda one: constant / (one + 273) ** 2, 25, temperature, epsrel=1e-12)[0])
    )


def made_up_passage(flow, temperature, recovery):
    """Salt passage of the made-up membrane: what diffuses through, by what the permeate would carry."""
    return SALT_PERMEABILITY * warmth(temperature, 2700) * along(recovery, "log") / flow


def at_both_visits():
    for flow, temperature, recovery in ((0.029, 11, 0.28), (0.04, 18, 0.3), (0.02, 32, 0.6)):
        for before in ((0.04, 18, 0.3), (0.03, 25, 0.15)):
            names = ("reference_flow", "reference_temperature", "reference_recovery")
            yield {
                "salt_passage": made_up_passage(flow, temperature, recovery),
                "flow": flow,
                "temperature": temperature,
                "recovery": recovery,
                **dict(zip(names, before, strict=True)),
                "mean": "log",
                "form": "single",
                "constant": 2700,
            }


def on_the_line(point):
    """Read from the straight line that a power is on logarithmic paper."""
    ends = numpy.array([0.01, 100])
    drops = numpy.log(point["pressure_drop"]) + point["exponent"] * numpy.log(ends)
    at = numpy.log(point["reference_mean_flow"])
    return float(numpy.exp(numpy.interp(at, numpy.log(ends * point["mean_flow"]), drops)))


STREAMS = every(
    feed_flow=[120, 118],
    permeate_flow=[36, 0],
    concentrate_flow=[84, 130],
    feed_conductivity=[620],
    permeate_conductivity=[14],
    concentrate_conductivity=[870, 900],
)

COMPARISONS = [
    Comparison(
        "concentrate_conductivity",
        "scipy",
        "feed 620, permeate 0 to 600 uS/cm, recovery 0 to 0.95",
        every(feed_conductivity=[620], permeate_conductivity=[0, 14, 600], recovery=[0, 0.3, 0.75, 0.95]),
        concentrate_of,
        1e-12,
        "There the concentrate is searched for that gives the feed again.",
    ),
    Comparison(
        "recovery_from_conductivity",
        "scipy",
        "feed 620, permeate 0 to 600, concentrate 621 to 6000 uS/cm",
        every(
            feed_conductivity=[620],
            permeate_conductivity=[0, 14, 600],
            concentrate_conductivity=[621, 880, 6000],
        ),
        share_of,
        1e-12,
        "There the share is searched for that gives the feed again.",
    ),
    Comparison(
        "flow_balance_error",
        "scipy",
        "closed, leaking and overfull",
        tuple(
            {name: point[name] for name in ("feed_flow", "permeate_flow", "concentrate_flow")}
            for point in STREAMS
        ),
        flow_missing,
        1e-12,
        SAME,
        absolute=True,
    ),
    Comparison(
        "salt_balance_error",
        "scipy",
        "closed, leaking and overfull",
        STREAMS,
        salt_missing,
        1e-12,
        SAME,
        absolute=True,
    ),
    Comparison(
        "mean_feed_concentration_factor",
        "scipy",
        "recovery 0.00001 to 0.95, three means",
        every(recovery=[1e-5, 2e-4, 0.15, 0.5, 0.75, 0.95], mean=MEANS),
        lambda point: along(point["recovery"], point["mean"]),
        1e-11,
        "There the concentration is integrated; near no recovery ours takes a series.",
    ),
    Comparison(
        "salt_passage",
        "scipy",
        "permeate 0 to 700 uS/cm, recovery 0 to 0.75, three means",
        every(
            feed_conductivity=[620], permeate_conductivity=[0, 14, 700], recovery=[0, 0.3, 0.75], mean=MEANS
        ),
        passing,
        1e-12,
        "There the concentration along the membrane is integrated.",
    ),
    Comparison(
        "salt_rejection",
        "scipy",
        "permeate 0 to 700 uS/cm, recovery 0 to 0.75, three means",
        every(
            feed_conductivity=[620], permeate_conductivity=[0, 14, 700], recovery=[0, 0.3, 0.75], mean=MEANS
        ),
        lambda point: 1 - passing(point),
        1e-12,
        "There the concentration along the membrane is integrated.",
        absolute=True,
    ),
    Comparison(
        "osmotic_pressure",
        "phreeqpython",
        "sodium chloride, 200 to 20000 mg/L, 5 to 35 °C",
        every(
            dissolved_solids=[200, 800, 2000, 5000, 10000, 20000],
            temperature=[5, 15, 25, 35],
            form=["d4516"],
        ),
        lambda point: osmotic(point["dissolved_solids"], point["temperature"]),
        0.055,
        "One coefficient for every content, against Pitzer's equations: low where thin, high where strong.",
    ),
    Comparison(
        "net_driving_pressure",
        "phreeqpython",
        "3 to 10 bar, sodium chloride of 330 and 1000 mg/L, recovery 0 to 0.75, three means",
        every(
            feed_pressure=[3, 10],
            pressure_drop=[0.3],
            permeate_pressure=[0.5],
            feed_dissolved_solids=[330, 1000],
            permeate_dissolved_solids=[0, 10],
            recovery=[0, 0.3, 0.75],
            temperature=[12],
            mean=MEANS,
        ),
        driving,
        0.06,
        "That of the osmotic pressure.",
        absolute=True,
    ),
    Comparison(
        "normalised_salt_passage",
        "scipy",
        "one membrane at 11 to 32 °C, recovery 0.15 to 0.6, two references",
        tuple(at_both_visits()),
        lambda point: made_up_passage(
            *(point[f"reference_{name}"] for name in ("flow", "temperature", "recovery"))
        ),
        1e-5,
        "A membrane through which salt diffuses; ours has 298 K for 25 °C, which cancels.",
    ),
    Comparison(
        "normalised_pressure_drop",
        "numpy",
        "0.05 to 2 bar, flow a fifth to five times the reference, power 1 to 2",
        every(
            pressure_drop=[0.05, 2], mean_flow=[20, 100], reference_mean_flow=[20, 100], exponent=[1, 1.5, 2]
        ),
        on_the_line,
        1e-12,
        SAME,
    ),
]
