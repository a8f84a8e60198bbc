"""Carbonic acid and lime against PHREEQC (phreeqpython, phreeqc.dat), statistics against scipy.

phreeqpython's conductivity is used at 25 °C only: its engine does not let the mobility of ions depend on
temperature, and is 8 % low at 15 °C and 13 % high at 40 °C.
"""

from scipy import stats

from tests.oracles.comparison import Comparison, every, grid
from tests.oracles.waters import WATERS, concentrated, feed, phreeqc, solution

PAIRS = "PHREEQC counts ion pairs, our formula does not."
FEEDS = {water: feed(water) for water in WATERS}
NOT_SOFTENED = ("hard", "moderate", "soft")
PERMEATES = [(5, 20), (3, 5), (10, 10), (1, 2)]
TO_ACCURACY = "Both solve the same equation to their own accuracy."


def water_of(point):
    """The water whose analysis a point is."""
    return next(
        name
        for name, one in FEEDS.items()
        if one["alkalinity"] == point["alkalinity"] and one["ph"] == point["ph"]
    )


def calcite(point):
    return solution(water_of(point)).si("Calcite")


def calcite_of_concentrate(point):
    return concentrated(water_of(point), 1 / (1 - point["recovery"])).si("Calcite")


def free_carbon_dioxide(point):
    return solution(water_of(point)).species["CO2"] * 44010


def permeate(point):
    """The water of `permeates` that holds the species of the point."""
    return next(water for water in permeates() if water.species["CO2"] * 44010 == point["carbon_dioxide"]).pH


def permeates():
    for bicarbonate, gas in PERMEATES:
        sodium = bicarbonate / 61.017
        yield phreeqc().add_solution(
            {"units": "mmol/L", "temp": 25, "pH": "6 charge", "Na": sodium, "C(4)": sodium + gas / 44.01}
        )


def permeate_points():
    return tuple(
        {
            "bicarbonate": one.species["HCO3-"] * 61017,
            "carbon_dioxide": one.species["CO2"] * 44010,
            "temperature": 25,
        }
        for one in permeates()
    )


def under_air(point):
    water = phreeqc().add_solution(
        {"temp": point["temperature"], "pH": "7 charge", "C(4)": "1 CO2(g) -3.376751"}
    )
    return water.species["CO2"] * 44010


def gas_in_pure_water(point):
    """Carbon dioxide alone in water of 25 °C."""
    return phreeqc().add_solution(
        {"units": "mmol/L", "temp": 25, "pH": "6 charge", "C(4)": point["carbon_dioxide"] / 44.01}
    )


def with_conductivity(water):
    given = {name: FEEDS[water][name] for name in ("alkalinity", "ph", "temperature")}
    return {**given, "conductivity": WATERS[water][-1] / 0.64}


def chi_square(point, tail, more):
    degrees = 2 * point["count"] + more
    return stats.chi2.isf(tail, degrees) / 2 if degrees else 0.0


def between(point):
    reading, spread = point["reading"], point["standard_uncertainty"]
    return float(
        stats.norm.cdf(point["upper"], reading, spread) - stats.norm.cdf(point["lower"], reading, spread)
    )


COUNTS = every(
    count=[0, 1, 2, 5, 9, 30, 60, 100, 300, 1000], volume=[1], confidence=[0.5, 0.9, 0.95, 0.99, 0.999]
)

COMPARISONS = [
    Comparison(
        "langelier_index",
        "phreeqpython",
        "four tap waters, 10 to 18 °C",
        tuple(FEEDS.values()),
        calcite,
        0.03,
        PAIRS,
        absolute=True,
    ),
    Comparison(
        "concentrate_langelier_index",
        "phreeqpython",
        "three tap waters, recovery 0.25 to 0.75",
        tuple({**FEEDS[water], "recovery": share} for water in NOT_SOFTENED for share in (0.25, 0.5, 0.75)),
        calcite_of_concentrate,
        0.12,
        PAIRS + " They weigh more in the concentrate.",
        absolute=True,
    ),
    Comparison(
        "free_carbon_dioxide",
        "phreeqpython",
        "four tap waters, 10 to 18 °C",
        tuple(with_conductivity(water) for water in WATERS),
        free_carbon_dioxide,
        0.03,
        PAIRS + " The activity comes from the conductivity, there from every ion.",
    ),
    Comparison(
        "permeate_ph",
        "phreeqpython",
        "bicarbonate 1 to 10 mg/L, carbon dioxide 2 to 20 mg/L, 25 °C",
        permeate_points(),
        permeate,
        0.012,
        "The activity of so few ions is left out.",
        absolute=True,
    ),
    Comparison(
        "carbon_dioxide_in_air_equilibrium",
        "phreeqpython",
        "420 ppm, 5 to 50 °C",
        every(temperature=grid(5, 50, 10), partial_pressure=[420]),
        under_air,
        0.01,
        "The same constant of Henry's law; PHREEQC counts molality, our formula litres.",
    ),
    Comparison(
        "carbon_dioxide_ph",
        "phreeqpython",
        "0.05 to 100 mg/L, 25 °C",
        every(carbon_dioxide=[0.05, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100]),
        lambda point: gas_in_pure_water(point).pH,
        0.006,
        "The activity of so few ions is left out.",
        absolute=True,
    ),
    Comparison(
        "carbon_dioxide_conductivity",
        "phreeqpython",
        "0.05 to 100 mg/L, 25 °C",
        every(carbon_dioxide=[0.05, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100]),
        lambda point: gas_in_pure_water(point).sc,
        0.02,
        "Other limiting conductivities of the ions, and PHREEQC lowers them with the ionic strength.",
    ),
    Comparison(
        "colony_count_upper",
        "scipy",
        "0 to 1000 colonies, confidence 0.5 to 0.999",
        COUNTS,
        lambda point: chi_square(point, (1 - point["confidence"]) / 2, 2),
        1e-11,
        TO_ACCURACY,
    ),
    Comparison(
        "colony_count_lower",
        "scipy",
        "0 to 1000 colonies, confidence 0.5 to 0.999",
        COUNTS,
        lambda point: chi_square(point, 1 - (1 - point["confidence"]) / 2, 0),
        1e-11,
        TO_ACCURACY,
    ),
    Comparison(
        "volume_to_demonstrate",
        "scipy",
        "0 to 100 colonies, limit 0.1 CFU/mL",
        every(count=[0, 1, 2, 3, 10, 40, 100], limit=[0.1]),
        lambda point: chi_square(point, 0.05, 2) / point["limit"],
        1e-11,
        TO_ACCURACY,
    ),
    Comparison(
        "conformance_probability",
        "scipy",
        "readings from 3 below to 3 above an interval of 5 standard uncertainties",
        every(reading=grid(7.8, 12.2, 89), standard_uncertainty=[0.4], lower=[9], upper=[11]),
        between,
        1e-12,
        "The difference of two values near one loses digits.",
        absolute=True,
    ),
    Comparison(
        "coverage_factor",
        "scipy",
        "1 to 100 degrees of freedom",
        every(degrees_of_freedom=range(1, 101)),
        lambda point: float(stats.t.ppf((1 + 0.9545) / 2, point["degrees_of_freedom"])),
        0.025,
        "The guide's table has two decimals; between its rows the next lower one counts.",
        absolute=True,
    ),
]
