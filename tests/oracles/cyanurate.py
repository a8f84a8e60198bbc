"""Chlorinated cyanurates in water of 25 degC: each equilibrium of the EPA simulator on its own.

Two unknowns by Levenberg and Marquardt, where the formulas halve for one.
"""

import math
from functools import cache

from scipy import optimize

CHLORINE = 70906  # mg/mol
PK_HYPOCHLOROUS = 7.54


def species(free, ph):
    """mol/L of every species from log HOCl and log H3Cy: HOCl, OCl, rings by the chlorine that they hold."""
    h, hocl, acid = 10.0**-ph, 10.0 ** free[0], 10.0 ** free[1]
    two = acid * 10**-6.88 / h
    one = two * 10**-11.40 / h
    bare = one * 10**-13.5 / h
    mono = one * hocl / 10**-6.90
    mono_h = mono * h / 10**-10.12
    double = mono_h * hocl / 10**-4.51
    double_h = double * h / 10**-3.75
    empty = [acid, two, one, bare]
    single = [mono, mono_h, mono_h * h / 10**-5.33]
    return (
        hocl,
        hocl * 10**-PK_HYPOCHLOROUS / h,
        empty,
        single,
        [double, double_h],
        double_h * hocl / 10**-1.8,
    )


@cache
def solved(dose, ph):
    """HOCl and OCl in mol/L for a dose of dichloroisocyanurate in mg/L of available chlorine."""
    chlorine = dose / CHLORINE

    def balances(unknown):
        hocl, ocl, empty, single, double, triple = species(unknown, ph)
        bound = sum(single) + 2 * sum(double) + 3 * triple
        rings = sum(empty) + sum(single) + sum(double) + triple
        return [(hocl + ocl + bound) / chlorine - 1, 2 * rings / chlorine - 1]

    start = [math.log10(chlorine / 2), math.log10(chlorine / 4)]
    found = optimize.root(balances, start, method="lm", tol=1e-14)
    assert max(map(abs, balances(found.x))) < 1e-10
    return species(found.x, ph)[:2]


def hypochlorous_acid(dose, ph):
    """mg/L as chlorine."""
    return solved(dose, ph)[0] * CHLORINE


def free_chlorine(dose, ph):
    """mg/L as chlorine."""
    return sum(solved(dose, ph)) * CHLORINE
