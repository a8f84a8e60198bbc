"""Ultraviolet light, chlorine and masses against scipy's integrals and solvers, pint and iapws."""

import math

import pint
from iapws._iapws import _Liquid
from scipy import integrate, optimize

from tests.oracles.comparison import SAME, Comparison, every
from tests.oracles.cyanurate import free_chlorine, hypochlorous_acid

UNITS = pint.get_application_registry()


def mean(function, low, high):
    return integrate.quad(function, low, high, epsabs=0, epsrel=1e-12)[0] / (high - low)


def annular(point):
    """Beer and Lambert from shell to shell of a long chamber, weighted by the volume of each."""
    inner, outer, length = point["inner_radius"], point["outer_radius"], point["length"]
    volume = math.pi * (outer**2 - inner**2) * length

    def light_of_shell(radius):
        surface = 2 * math.pi * radius * length
        reaching = 1000 * point["uvc_power"] / surface * point["transmittance_10mm"] ** (radius - inner)
        return reaching * surface

    seconds = (UNITS.Quantity(volume, "cm**3") / UNITS.Quantity(point["flow"], "L/min")).to("s").magnitude
    return mean(light_of_shell, inner, outer) * (outer - inner) / volume * seconds


def dish(point):
    """The light at each depth, by what absorbs above it and by the square of its distance, averaged."""
    distance = point["distance"]

    def at(depth):
        return 10 ** (-point["absorbance"] * depth) * (distance / (distance + depth)) ** 2

    entering = point["surface_irradiance"] * point["petri_factor"] * (1 - point["reflection"])
    return entering * mean(at, 0, point["depth"])


def certified(point):
    """Irradiance of the certificate, as the sensor sees it now, for the time in a chamber of 1 L."""
    litre = UNITS.Quantity(1, "L")
    then = litre / UNITS.Quantity(point["certified_flow"], "L/min")
    now = min(then, litre / UNITS.Quantity(point["flow"], "L/min"))
    irradiance = UNITS.Quantity(point["certified_fluence"], "mJ/cm**2") / then
    return (irradiance * now * point["sensor_ratio"]).to("mJ/cm**2").magnitude


def contact(point):
    """The area under a first-order decay, or the rectangle below its lowest point."""
    rate = -math.log(point["end"] / point["start"]) / point["time"]

    def chlorine(minute):
        return point["start"] * math.exp(-rate * minute)

    if point["method"] == "exponential":
        return mean(chlorine, 0, point["time"]) * point["time"]
    return min(chlorine(0), chlorine(point["time"])) * point["time"]


def fewest_tablets(point):
    """A mixed-integer program: as few as possible, while both ends of the volume keep to the doses."""
    share = point["volume_uncertainty"]
    least, most = ((1 - share) * point["volume"], (1 + share) * point["volume"])
    each = point["chlorine_per_tablet"]
    doses = optimize.LinearConstraint(
        [[each / most], [each / least]], [point["minimum_dose"], 0], [math.inf, point["maximum_dose"]]
    )
    return float(optimize.milp([1], constraints=doses, integrality=[1], bounds=(0, math.inf)).x[0])


def poured(point):
    """The volume that holds the mass which the dose asks for."""
    mass = UNITS.Quantity(point["dose"], "mg/L") * UNITS.Quantity(point["volume"], "L")
    return (mass / UNITS.Quantity(point["strength"], "g/L")).to("mL").magnitude


def dosed(point):
    mass = UNITS.Quantity(point["added"], "mL") * UNITS.Quantity(point["strength"], "g/L")
    return (mass / UNITS.Quantity(point["volume"], "L")).to("mg/L").magnitude


def run(point):
    """Litres until the equivalents that the resin takes have flowed in."""
    taken = UNITS.Quantity(point["resin_volume"], "L") * UNITS.Quantity(point["capacity"], "mol/L")
    return (taken * point["utilisation"] / UNITS.Quantity(point["load"], "mmol/L")).to("L").magnitude


def heaviest(point):
    """Filled with water at its densest."""
    return point["empty_mass"] + point["water_volume"] / 1000 * _Liquid(277.13)["rho"]


def solids(point):
    return (
        (UNITS.Quantity(point["conductivity"], "uS/cm") * UNITS.Quantity(point["factor"], "mg/L/(uS/cm)"))
        .to("mg/L")
        .magnitude
    )


def heating(point):
    """Joule's heat of the fault, held against what the conductor may take up: the section by a root."""

    def spare(section):
        return (point["k"] * section) ** 2 - integrate.quad(
            lambda _: point["current"] ** 2, 0, point["time"]
        )[0]

    return optimize.brentq(spare, 0, 1e4, xtol=1e-12)


SAME_BALANCE = "There two unknowns are searched for, by another method."
TABLET = every(dose=[1, 10, 50, 100, 500], ph=[5.5, 6.5, 7, 8, 9.5])

COMPARISONS = [
    Comparison(
        "annular_uv_fluence",
        "scipy",
        "3 to 60 L/min, transmittance 0.7 to 1, two chambers",
        every(
            uvc_power=[6],
            flow=[3, 60],
            transmittance_10mm=[0.7, 0.98, 1],
            inner_radius=[1.2],
            outer_radius=[2.7, 6],
            length=[20],
        ),
        annular,
        1e-9,
        "There the light is integrated from the sleeve to the wall; ours takes a series for clear water.",
    ),
    Comparison(
        "bench_uv_irradiance",
        "scipy",
        "absorbance 0 to 0.3 per cm, depth 0.5 to 2 cm, distance 20 to 60 cm",
        every(
            surface_irradiance=[0.2],
            petri_factor=[0.94],
            reflection=[0.025],
            absorbance=[0, 0.08, 0.3],
            depth=[0.5, 1, 2],
            distance=[20, 60],
        ),
        dish,
        0.025,
        "The protocol multiplies the means of absorption and divergence, which is at most too low; "
        "there both are in one integral.",
    ),
    Comparison(
        "scaled_uv_fluence",
        "pint",
        "certified at 3 L/min; 1.5 to 6 L/min, sensor 0.5 to 1.1",
        every(certified_fluence=[40], certified_flow=[3], flow=[1.5, 3, 4, 6], sensor_ratio=[0.5, 0.72, 1.1]),
        certified,
        1e-12,
        SAME,
    ),
    Comparison(
        "contact_value",
        "scipy",
        "50 mg/L falling to 50, 49.99, 30 and 0.1 mg/L in 60 min",
        every(start=[50], end=[50, 49.99, 30, 0.1], time=[60], method=["conservative", "exponential"]),
        contact,
        1e-11,
        "There the decay is integrated; near no decay ours takes a series.",
    ),
    Comparison(
        "chlorine_tablets",
        "scipy",
        "20 to 500 mg a tablet, 73 and 1000 L, volume known to 0 and 10 %",
        every(
            minimum_dose=[50],
            maximum_dose=[80],
            chlorine_per_tablet=[20, 100, 500],
            volume=[73, 1000],
            volume_uncertainty=[0, 0.1],
        ),
        fewest_tablets,
        0,
        "Whole numbers in both.",
    ),
    Comparison(
        "solution_volume",
        "pint",
        "1 to 100 mg/L, 73 and 1000 L, 40 to 150 g/L",
        every(dose=[1, 50, 100], volume=[73, 1000], strength=[40, 125, 150]),
        poured,
        1e-12,
        SAME,
    ),
    Comparison(
        "solution_dose",
        "pint",
        "1 to 400 mL, 73 and 1000 L, 40 to 150 g/L",
        every(added=[1, 29.2, 400], volume=[73, 1000], strength=[40, 125, 150]),
        dosed,
        1e-12,
        SAME,
    ),
    Comparison(
        "isocyanurate_hypochlorous_acid",
        "scipy",
        "1 to 500 mg/L, pH 5.5 to 9.5",
        TABLET,
        lambda point: hypochlorous_acid(point["dose"], point["ph"]),
        1e-8,
        SAME_BALANCE,
    ),
    Comparison(
        "isocyanurate_free_chlorine",
        "scipy",
        "1 to 500 mg/L, pH 5.5 to 9.5",
        TABLET,
        lambda point: free_chlorine(point["dose"], point["ph"]),
        1e-8,
        SAME_BALANCE,
    ),
    Comparison(
        "deioniser_run_volume",
        "pint",
        "2 and 10 L of resin, 0.41 and 0.55 eq/L, load 0.1 to 2 meq/L",
        every(resin_volume=[2, 10], capacity=[0.41, 0.55], utilisation=[0.85, 1], load=[0.1, 0.6, 2]),
        run,
        1e-12,
        SAME,
    ),
    Comparison(
        "full_mass",
        "iapws",
        "2 to 95 kg empty, 0 to 150 L",
        every(empty_mass=[2, 95], water_volume=[0, 20, 150]),
        heaviest,
        3e-5,
        "A litre is taken as a kilogram; water at its densest has 0.03 g less.",
    ),
    Comparison(
        "dissolved_solids",
        "pint",
        "0 to 2000 uS/cm, 0.5 to 0.7 mg/L for each",
        every(conductivity=[0, 55, 2000], factor=[0.5, 0.64, 0.7]),
        solids,
        1e-12,
        SAME,
    ),
    Comparison(
        "fault_withstand_cross_section",
        "scipy",
        "90 to 1500 A, 0.1 to 5 s, k 115 and 143",
        every(current=[90, 200, 1500], time=[0.1, 0.4, 5], k=[115, 143]),
        heating,
        1e-11,
        "There the heat is integrated and the section searched for that just holds it.",
    ),
]
