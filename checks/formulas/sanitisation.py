"""Chlorine and heat: dose and tablets, what of it disinfects, contact, neutralising, A0."""

from __future__ import annotations

import sympy

from checks.expressions import completed, pick, root, started, step, when
from checks.formula import Choice, Input, Refusal, Source, formula
from checks.source import practice

MORRIS = Source(
    "J. C. Morris, J. Phys. Chem. 70", "1966", "p. 3798, acid ionisation constant of HOCl", "from memory"
)
OBRIEN = Source(
    "EPA Free Chlorine and Cyanuric Acid Simulator, after J. O'Brien 1974",
    "as read in 2026",
    "equilibrium constants",
    "seen",
)
AVAILABLE = Source(
    "G. White, Handbook of Chlorination", "5th edition 2010", "available chlorine, as Cl2", "from memory"
)
FIRST_ORDER = Source(
    "O. Levenspiel, Chemical Reaction Engineering", "3rd edition", "first-order decay", "from memory"
)
CT_RULE = Source(
    "EPA Disinfection Profiling and Benchmarking, 815-R-20-003", "2020", "CT, residual at the end", "seen"
)
GIARDIA = Source(
    "D. Smith, R. Clark et al., EPA regression for Giardia", "1995", "below and above 12.5 °C", "seen"
)
THIOSULFATE = Source(
    "Molar masses by IUPAC", "2021", "4 Cl2 oxidise one thiosulfate to sulfate", "from memory"
)
FIELD_TABLE = Source("Guide on disinfecting pipelines", "as read in 2026", "table of dechlorination", "seen")
A_ZERO = Source("EN ISO 15883-1, Washer-disinfectors", "2014", "A0", "seen")

PH = Input("pH", "pH", minimum=4, maximum=11, symbol="pH")
START = Input("mg/L", "chlorine at the start", above=0, maximum=1e5, symbol="C_0")
END = Input("mg/L", "chlorine at the end", above=0, maximum=1e5, symbol="C_e")
TIME = Input("min", "time between start and end", above=0, maximum=1e5, symbol="t")
PER_TABLET = Input("mg", "available chlorine of one tablet", above=0, maximum=1e6, symbol="m")
VOLUME = Input("L", "volume to be treated", above=0, maximum=1e6, symbol="V")
RISEN = Refusal("chlorine_has_risen", lambda start, end: end > start)


@formula(
    result_unit="1",
    source=MORRIS,
    symbol="f",
    ph=PH,
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=35, symbol="t"),
)
def hypochlorous_acid_fraction(ph, temperature):
    """Share of the free chlorine that is hypochlorous acid, the part that disinfects.

    For hypochlorite without cyanurate or ammonia; activity is left out.
    """
    T = temperature + sympy.Float("273.15")
    constant = step("pK", "constant of hypochlorous acid", "1", 3000 / T - 10.0686 + 0.0253 * T)
    return 1 / (1 + 10 ** (ph - constant))


@formula(
    result_unit="mg/L",
    source=AVAILABLE,
    symbol="C",
    tablets=Input("1", "number of tablets", minimum=0, maximum=1e5, exact=True, symbol="n"),
    chlorine_per_tablet=PER_TABLET,
    volume=VOLUME,
)
def chlorine_dose(tablets, chlorine_per_tablet, volume):
    """Available chlorine that dissolved tablets give, before anything uses it up.

    Ask whether a label's mass is that of the tablet or of its chlorine: chlorine is at most 64.5 % of
    the isocyanurate. Exact by definition.
    """
    return tablets * chlorine_per_tablet / volume


def fewest(minimum_dose, chlorine_per_tablet, volume, volume_uncertainty):
    """So many tablets reach the lowest dose even in the largest volume."""
    return started(minimum_dose * volume * (1 + volume_uncertainty) / chlorine_per_tablet)


def most(maximum_dose, chlorine_per_tablet, volume, volume_uncertainty):
    """So many tablets stay within the highest dose even in the smallest volume."""
    return completed(maximum_dose * volume * (1 - volume_uncertainty) / chlorine_per_tablet)


@formula(
    result_unit="1",
    source=(AVAILABLE, practice("the fewest tablets that reach the dose")),
    symbol="n",
    refusals=(
        Refusal(
            "no_tablet_count",
            lambda minimum_dose, maximum_dose, chlorine_per_tablet, volume, volume_uncertainty: (
                fewest(minimum_dose, chlorine_per_tablet, volume, volume_uncertainty)
                > most(maximum_dose, chlorine_per_tablet, volume, volume_uncertainty)
            ),
        ),
    ),
    minimum_dose=Input("mg/L", "lowest dose", above=0, maximum=1e5, exact=True, symbol="C_min"),
    maximum_dose=Input("mg/L", "highest dose", above=0, maximum=1e5, exact=True, symbol="C_max"),
    chlorine_per_tablet=Input(
        "mg", "available chlorine of one tablet", above=0, maximum=1e6, exact=True, symbol="m"
    ),
    volume=Input("L", "volume to be treated", above=0, maximum=1e6, exact=True, symbol="V"),
    volume_uncertainty=Input(
        "1", "share by which the volume may differ", minimum=0, below=1, default=0, exact=True, symbol="v"
    ),
)
def chlorine_tablets(minimum_dose, maximum_dose, chlorine_per_tablet, volume, volume_uncertainty):
    """Fewest whole tablets with which the dose lies between its limits.

    None where no whole number fits: then take smaller tablets. The volume is the reservoir, the loop,
    the housings and the hoses together.
    """
    return fewest(minimum_dose, chlorine_per_tablet, volume, volume_uncertainty)


def bound_chlorine(x, acid):
    """Chlorine and cyanurate, both by mole of HCy2-, at x mol/L of HOCl and hydrogen ions `acid`."""
    one, two, three = (sympy.Float(10.0**power) for power in (6.90, 6.90 + 4.51, 6.90 + 4.51 + 1.8))
    mono = x * one * (1 + acid * 10.0**10.12 * (1 + acid * 10.0**5.33))
    double = x**2 * two * acid * 10.0**10.12 * (1 + acid * 10.0**3.75)
    triple = x**3 * three * acid**2 * 10.0 ** (10.12 + 3.75)
    bare = 1 + acid * 10.0**11.40 * (1 + acid * 10.0**6.88) + 10.0**-13.5 / acid
    return mono + 2 * double + 3 * triple, bare + mono + double + triple


def chlorine_balance(x, acid, chlorine):
    """Free and bound chlorine less all that was dosed; half as much cyanurate as chlorine was dosed."""
    bound, cyanurate = bound_chlorine(x, acid)
    return x * (1 + 10.0**-7.54 / acid) + chlorine / 2 * bound / cyanurate - chlorine


ISOCYANURATE_DOSE = Input("mg/L", "dose as available chlorine", above=0, maximum=1000, symbol="C")
ISOCYANURATE_PH = Input("pH", "pH", minimum=5, maximum=10, symbol="pH")


@formula(result_unit="mg/L", source=OBRIEN, symbol="C_HOCl", dose=ISOCYANURATE_DOSE, ph=ISOCYANURATE_PH)
def isocyanurate_hypochlorous_acid(dose, ph):
    """Hypochlorous acid, as chlorine, that sodium dichloroisocyanurate sets free.

    25 °C, water without demand, nothing but the tablet's own cyanurate. The rest of the dose is held
    as a reservoir, which a DPD test shows as if it were free.
    """
    acid = step("h", "hydrogen ions", "mol/L", 10**-ph)
    chlorine = step("C_T", "available chlorine", "mol/L", dose / 70906)
    found = root("chlorine_balance", chlorine_balance, 0, chlorine, acid=acid, chlorine=chlorine)
    return 70906 * step("x", "hypochlorous acid, from the balance of chlorine", "mol/L", found)


@formula(result_unit="mg/L", source=OBRIEN, symbol="C_free", dose=ISOCYANURATE_DOSE, ph=ISOCYANURATE_PH)
def isocyanurate_free_chlorine(dose, ph):
    """Free chlorine, hypochlorous acid and hypochlorite, that sodium dichloroisocyanurate sets free.

    25 °C, water without demand, nothing but the tablet's own cyanurate. A DPD test shows far more.
    """
    return isocyanurate_hypochlorous_acid.on(dose=dose, ph=ph) * (1 + 10 ** (ph - 7.54))


@formula(
    result_unit="1/min", source=FIRST_ORDER, symbol="k", refusals=(RISEN,), start=START, end=END, time=TIME
)
def chlorine_decay_rate(start, end, time):
    """Rate of first-order decay between two readings of chlorine.

    More than half lost in the hold: something uses chlorine up; find it and repeat.
    """
    return sympy.log(start / end) / time


@formula(
    result_unit="mg min/L",
    source=(CT_RULE, FIRST_ORDER),
    symbol="CT",
    refusals=(RISEN,),
    start=START,
    end=END,
    time=TIME,
    method=Choice(
        {"conservative": "end times time", "exponential": "mean of a first-order decay, times time"},
        "how the decay is counted",
        default="conservative",
    ),
)
def contact_value(start, end, time, method):
    """Contact value: concentration of chlorine times time.

    Necessary, not sufficient: tables of contact values are for organisms in suspension, not for
    biofilm. Where the end reads zero, take the least that the test can show.
    """
    half = (start - end) / (start + end)
    nearly = (start + end) / 2 * (1 - half**2 / 3)
    mean = when(half < sympy.Float(1e-3), nearly, (start - end) / sympy.log(start / end))
    return pick(method, {"conservative": end * time, "exponential": mean * time})


@formula(
    result_unit="mg min/L",
    source=GIARDIA,
    symbol="CT",
    inactivation_log=Input("1", "powers of ten of inactivation", above=0, maximum=3, exact=True, symbol="n"),
    ph=Input("pH", "pH", minimum=6, maximum=9, symbol="pH"),
    temperature=Input("degC", "temperature of the water", minimum=0.5, maximum=25, symbol="t"),
    chlorine=Input("mg/L", "free chlorine", above=0, maximum=3, symbol="C"),
)
def giardia_contact_value(inactivation_log, ph, temperature, chlorine):
    """Contact value that inactivates Giardia cysts by so many powers of ten.

    A check of the order of magnitude, not the rule for sanitising. The published regression is 0 to
    17 % above the tables, safe. Above 3 mg/L take 3.
    """
    cold = 0.353 * (12.006 + sympy.exp(2.46 - 0.073 * temperature + 0.125 * chlorine + 0.389 * ph))
    warm = 0.361 * (-2.261 + sympy.exp(2.69 - 0.065 * temperature + 0.111 * chlorine + 0.361 * ph))
    return inactivation_log * when(temperature < sympy.Float(12.5), cold, warm)


@formula(
    result_unit="g",
    source=(THIOSULFATE, FIELD_TABLE),
    symbol="m",
    volume=Input("L", "volume to be neutralised", minimum=0, maximum=1e6, symbol="V"),
    chlorine=Input("mg/L", "chlorine in it", minimum=0, maximum=1e5, symbol="C"),
    basis=Choice(
        {
            "theoretical": "oxidised to sulfate, the least there is",
            "field": "table for disinfected pipelines",
        },
        "how much per gram of chlorine",
    ),
)
def thiosulfate_needed(volume, chlorine, basis):
    """Sodium thiosulfate, as pentahydrate, that takes the chlorine away.

    In a drain tank, never inside the unit. The need depends on the pH: to sulfate 0.875 g per gram of
    chlorine, to tetrathionate 7. Start with the field table's 1.9, test, add.
    """
    per_gram = pick(basis, {"theoretical": 248.18 / (4 * 70.906), "field": 1.9})
    return step("r", "grams per gram of chlorine", "1", per_gram) * volume * chlorine / 1000


@formula(
    result_unit="s",
    source=A_ZERO,
    symbol="A_0",
    temperature=Input("degC", "temperature at the coldest point", minimum=0, maximum=150, symbol="t"),
    time=Input("s", "time at this temperature", minimum=0, maximum=1e7, symbol="dt"),
    z=Input(
        "K",
        "temperature rise for ten times the effect",
        minimum=5,
        maximum=20,
        default=10,
        exact=True,
        symbol="z",
    ),
)
def heat_a0(temperature, time, z):
    """Heat that disinfects, as seconds at 80 °C.

    Below 65 °C nothing counts. At the coldest point, less the sensor's uncertainty: 1 K too much
    is a quarter more. Levels: 60, 600, 3000 s.
    """
    return when(temperature < 65, 0, time * 10 ** ((temperature - 80) / z))
