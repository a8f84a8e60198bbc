"""Invented tap waters, and what PHREEQC says about them: for the tests and the page of deviations."""

from functools import cache

import phreeqpython

# mg/L: pH, degC, Ca, Mg, Na, K, alkalinity as CaCO3, sulfate, chloride, nitrate; total dissolved solids
WATERS = {
    "hard": (7.4, 12, 100, 8, 20, 3, 230, 45, 35, 20, 511),
    "moderate": (7.7, 15, 60, 6, 18, 2, 140, 35, 30, 10, 332),
    "soft": (7.9, 10, 15, 3, 10, 1, 35, 15, 12, 0, 99),
    "softened": (7.5, 18, 2, 0.2, 150, 2, 230, 45, 35, 0, 515),
}


@cache
def phreeqc():
    return phreeqpython.PhreeqPython(database="phreeqc.dat")


def solution(water, factor=1.0, ph=None):
    own_ph, temperature, ca, mg, na, k, alkalinity, sulfate, chloride, nitrate, _ = WATERS[water]
    return phreeqc().add_solution(
        {
            "units": "mg/L",
            "temp": temperature,
            "pH": own_ph if ph is None else ph,
            "Ca": ca * factor,
            "Mg": mg * factor,
            "Na": na * factor,
            "K": k * factor,
            "Alkalinity": f"{alkalinity * factor} as CaCO3",
            "S(6)": f"{sulfate * factor} as SO4",
            "Cl": chloride * factor,
            "N(5)": f"{nitrate * factor} as NO3",
        }
    )


def concentrated(water, factor):
    """The water with its salts concentrated and its carbon dioxide held: the pH is found by halving."""
    held = solution(water).species["CO2"]
    low, high = 6.0, 10.0
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if solution(water, factor, middle).species["CO2"] > held else (low, middle)
    return solution(water, factor, low)


def feed(water):
    ph, temperature, calcium, *_, solids = WATERS[water]
    return {
        "ph": ph,
        "temperature": temperature,
        "calcium": calcium,
        "alkalinity": WATERS[water][6],
        "dissolved_solids": solids,
    }
