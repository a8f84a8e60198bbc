"""Carbonic acid and lime: free carbon dioxide, pH of permeate, scaling of feed and concentrate."""

from __future__ import annotations

from typing import Any

import sympy

from checks.expressions import root, smaller, step, when
from checks.formula import Input, Refusal, Source, formula

PLUMMER = Source(
    "L. Plummer, E. Busenberg, Geochim. Cosmochim. Acta 46",
    "1982",
    "K1, K2, Henry's constant and calcite from 0 to 90 °C, as open programs have them",
    "seen",
)
DAVIES = Source(
    "Standard Methods for the Examination of Water", "2330 B", "activity, as open programs have it", "seen"
)
SOLIDS = Source(
    "J. Crittenden et al., MWH's Water Treatment", "3rd edition 2012", "equation 5-38, ionic strength", "seen"
)
SALINITY = Source("V. Snoeyink, D. Jenkins, Water Chemistry", "1980", "ionic strength, 1.6e-5", "seen")
D3739 = Source(
    "ASTM D3739, Langelier Saturation Index for Reverse Osmosis",
    "2019",
    "clause 7, read in an earlier edition",
    "seen",
)
HENDERSON = Source("W. Stumm, J. Morgan, Aquatic Chemistry", "3rd edition", "chapter 4", "from memory")

TEMPERATURE = Input("degC", "temperature of the water", minimum=0, maximum=50, symbol="t")
ALKALINITY = Input("mg/L", "total alkalinity as CaCO3", above=0, maximum=5000, symbol="Alk")
SATURATION: dict[str, Any] = {
    "ph": Input("pH", "pH of the feed", minimum=5, maximum=10, symbol="pH"),
    "temperature": TEMPERATURE,
    "calcium": Input("mg/L", "calcium, as Ca", above=0, maximum=5000, symbol="Ca"),
    "alkalinity": ALKALINITY,
    "dissolved_solids": Input("mg/L", "total dissolved solids", above=0, maximum=10000, symbol="TDS"),
}
RECOVERY = Input("1", "recovery", minimum=0, maximum=0.99, symbol="Y")
LARGEST_RECOVERY = 0.99


def kelvin(temperature):
    """Absolute temperature."""
    return temperature + sympy.Float("273.15")


def first_constant(temperature):
    """Negative logarithm of the first constant of carbonic acid."""
    T = kelvin(temperature)
    pk = 356.3094 + 0.06091964 * T - 21834.37 / T - 126.8339 * sympy.log(T, 10) + 1684915 / T**2
    return step("pK_1", "first constant of carbonic acid", "1", pk)


def second_constant(temperature):
    """Negative logarithm of the second constant of carbonic acid."""
    T = kelvin(temperature)
    pk = 107.8871 + 0.03252849 * T - 5151.79 / T - 38.92561 * sympy.log(T, 10) + 563713.9 / T**2
    return step("pK_2", "second constant of carbonic acid", "1", pk)


def calcite_constant(temperature):
    """Negative logarithm of the solubility product of calcite."""
    T = kelvin(temperature)
    pk = 171.9065 + 0.077993 * T - 2839.319 / T - 71.595 * sympy.log(T, 10)
    return step("pK_s", "solubility product of calcite", "1", pk)


def debye(temperature):
    """Factor of the activity coefficient, from the dielectric constant of water."""
    T = kelvin(temperature)
    return step("A", "factor of the activity", "1", 1.82e6 * ((60954 / (T + 116) - 68.937) * T) ** -1.5)


def davies(strength):
    """How the activity coefficient depends on the ionic strength."""
    return sympy.sqrt(strength) / (1 + sympy.sqrt(strength)) - 0.3 * strength


@formula(
    result_unit="mg/L",
    source=(PLUMMER, DAVIES, SALINITY),
    symbol="CO_2",
    alkalinity=Input("mg/L", "total alkalinity as CaCO3", minimum=0, maximum=5000, symbol="Alk"),
    ph=Input("pH", "pH, measured at once", minimum=4.5, maximum=10, symbol="pH"),
    temperature=TEMPERATURE,
    conductivity=Input(
        "uS/cm",
        "conductivity at 25 °C, for the activity; 0 leaves the activity out",
        minimum=0,
        maximum=10000,
        default=0,
        symbol="kappa",
    ),
)
def free_carbon_dioxide(alkalinity, ph, temperature, conductivity):
    """Dissolved carbon dioxide from alkalinity and pH.

    Alkalinity must be carbonate. Above pH 8.3 there is none to speak of: 0. The pH decides: 0.1 too
    low is 26 % too much, and a sample that stands loses its gas.
    Without the conductivity the result is 9 to 11 % too high at 500 µS/cm; with it, within 3 % of PHREEQC.
    """
    strength = step("I", "ionic strength", "mol/L", 1.6e-5 * conductivity)
    activity = step("p_f", "activity, logarithm", "1", debye(temperature) * davies(strength))
    equivalents = step("a", "alkalinity", "mmol/L", alkalinity / 50.04)
    held = 44.01 * equivalents * 10 ** (first_constant(temperature) - activity - ph)
    return when(ph > 8.3, 0, held)


@formula(
    result_unit="mg/L",
    source=PLUMMER,
    symbol="CO_2",
    temperature=TEMPERATURE,
    partial_pressure=Input(
        "ppm", "carbon dioxide in the air, millionths of 1 atm", minimum=0, maximum=1e5, symbol="p"
    ),
)
def carbon_dioxide_in_air_equilibrium(temperature, partial_pressure):
    """Carbon dioxide that water takes up from air until it is in equilibrium.

    Partial pressure at 1 atm: moist air at 25 °C has 3 % less than the dry figure says, a mountain
    still less. mol/kg is taken as mol/L, which is within 0.5 %.
    """
    T = kelvin(temperature)
    henry = 108.3865 + 0.01985076 * T - 6919.53 / T - 40.45154 * sympy.log(T, 10) + 669365 / T**2
    constant = step("K_H", "Henry's constant", "mol/(kg atm)", 10**henry)
    return 44010 * constant * partial_pressure * 1e-6


@formula(
    result_unit="pH",
    source=(HENDERSON, PLUMMER),
    symbol="pH",
    bicarbonate=Input("mg/L", "hydrogen carbonate in the permeate", above=0, maximum=1000, symbol="HCO_3"),
    carbon_dioxide=Input("mg/L", "carbon dioxide in the permeate", above=0, maximum=1000, symbol="CO_2"),
    temperature=TEMPERATURE,
)
def permeate_ph(bicarbonate, carbon_dioxide, temperature):
    """pH of permeate, from the hydrogen carbonate and the carbon dioxide in it.

    Carbon dioxide passes the membrane whole, so a permeate of pH 5.5 to 6 is normal. For dilute water
    from pH 5 to 8.5, without activity: within 0.02 of PHREEQC. Below 2 mg/L of hydrogen carbonate count
    also what the acid itself splits into.
    """
    return first_constant(temperature) + sympy.log(bicarbonate / 61.017 / (carbon_dioxide / 44.01), 10)


def unsalted_index(ph, temperature, calcium, alkalinity):
    """The index as it would be without salts."""
    saturated = second_constant(temperature) - calcite_constant(temperature)
    logarithms = sympy.log(calcium / 40078, 10) + sympy.log(alkalinity / 50040, 10)
    return step("L_0", "index without activity", "1", ph - saturated + logarithms)


def ionic_strength(dissolved_solids):
    """Of natural water, mol/L."""
    return step("I", "ionic strength", "mol/L", 2.5e-5 * dissolved_solids)


@formula(result_unit="1", source=(D3739, PLUMMER, DAVIES, SOLIDS), symbol="LSI", **SATURATION)
def langelier_index(ph, temperature, calcium, alkalinity, dissolved_solids):
    """Langelier saturation index: above 0 the water can deposit lime.

    Calcium carbonate only: not gypsum, barium sulfate, phosphate or silica. Thermodynamic form; the
    short form with four rounded terms is 0.2 to 0.3 too low on cold, dilute water.
    Within 0.03 of PHREEQC's index for calcite on mains water from 10 to 20 °C.
    """
    activity = debye(temperature) * davies(ionic_strength(dissolved_solids))
    return unsalted_index(ph, temperature, calcium, alkalinity) - 5 * activity


@formula(
    result_unit="1", source=(D3739, PLUMMER, DAVIES, SOLIDS), symbol="LSI_c", **SATURATION, recovery=RECOVERY
)
def concentrate_langelier_index(ph, temperature, calcium, alkalinity, dissolved_solids, recovery):
    """Langelier saturation index of the concentrate of a membrane.

    Salts stay on the feed side whole and carbon dioxide passes, so that the pH rises with the
    logarithm of the concentration: up to 0.1 above PHREEQC at 75 %, safe. At the membrane's wall the
    concentration is higher still.
    """
    factor = step("CF", "concentration factor", "1", 1 / (1 - recovery))
    activity = debye(temperature) * davies(ionic_strength(dissolved_solids * factor))
    feed = unsalted_index(ph, temperature, calcium, alkalinity)
    return feed + 3 * sympy.log(factor, 10) - 5 * activity


def index_at(x, base, slope, solids):
    """The concentrate's index at a recovery; 3 powers of the concentration: calcium, alkalinity, pH."""
    return base - 3 * sympy.log(1 - x, 10) - 5 * slope * davies(2.5e-5 * solids / (1 - x))


@formula(
    result_unit="1",
    source=(D3739, PLUMMER, DAVIES, SOLIDS),
    symbol="Y_max",
    refusals=(
        Refusal(
            "no_recovery_allowed",
            lambda ph, temperature, calcium, alkalinity, dissolved_solids, index_limit: (
                index_at(
                    0,
                    unsalted_index(ph, temperature, calcium, alkalinity),
                    debye(temperature),
                    dissolved_solids,
                )
                > index_limit
            ),
        ),
    ),
    **SATURATION,
    index_limit=Input(
        "1", "highest index of the concentrate", minimum=-3, maximum=3, exact=True, symbol="L_max"
    ),
)
def maximum_recovery(ph, temperature, calcium, alkalinity, dissolved_solids, index_limit):
    """Highest recovery at which the concentrate's Langelier index stays within its limit.

    None where the feed is above the limit already. Never above 0.99. The limit is 0 without an
    inhibitor and up to 1.8 with one (from memory): the maker's word counts.
    1 to 3 points below PHREEQC, safe.
    """
    base = unsalted_index(ph, temperature, calcium, alkalinity)
    slope = debye(temperature)
    found = root(
        "index_reached",
        lambda x, base, slope, solids, limit: index_at(x, base, slope, solids) - limit,
        0,
        0.999,  # past the largest, so that a limit that is never reached gives the largest
        base=base,
        slope=slope,
        solids=dissolved_solids,
        limit=index_limit,
    )
    return smaller(LARGEST_RECOVERY, found)
