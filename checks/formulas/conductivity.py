"""Conductivity of pure and natural water, its compensation to 25 °C, and carbon dioxide in it."""

from __future__ import annotations

import sympy

from checks.expressions import pick, root, step
from checks.formula import Choice, Input, Refusal, Source, formula
from checks.formulas.hydraulics import water_density
from checks.lookup import tables

ISO_7888 = tables("iso-7888-1985")
LIGHT = Source(
    "T. Light, S. Licht, A. Bevilacqua, K. Morash, Electrochem. Solid-State Lett. 8",
    "2005",
    "p. E16, 0.05501 µS/cm at 25 °C",
    "seen",
)
IAPWS_KW = Source(
    "IAPWS R11-24, Ionization Constant of H2O",
    "2024",
    "equations 3 to 6, as the package iapws has them",
    "seen",
)
SALT = Source(
    "R. Robinson, R. Stokes, Electrolyte Solutions",
    "2nd edition 1959",
    "appendix 6.2, limiting conductances",
    "from memory",
)
LINEAR = Source(
    "ISO 7888, Water quality - Determination of electrical conductivity",
    "1985",
    "temperature compensation",
    "from memory",
)
CARBONIC = Source("L. Plummer, E. Busenberg, Geochim. Cosmochim. Acta 46", "1982", "K1 at 25 °C", "seen")

TEMPERATURE = Input("degC", "temperature of the water", minimum=0, maximum=100, symbol="t")
PURE_AT_25 = 0.05501
PURE_RESISTIVITY_CEILING = 18.3


@formula(result_unit="1", source=IAPWS_KW, symbol="pK_w", temperature=TEMPERATURE)
def water_ion_product(temperature):
    """Negative logarithm of water's ion product, molal scale, saturated liquid.

    From 0 to 100 °C. The density is Kell's at atmospheric pressure, which differs from the
    saturated liquid's by less than 0.005 %: below 0.0004 in the result.
    The coefficients are those of the 2024 release; those of 2007 differ by 0.002 at 100 °C.
    """
    T = temperature + sympy.Float("273.15")
    density = step("rho", "density", "g/cm**3", water_density.on(temperature=temperature) / 1000)
    clusters = step(
        "Q",
        "term of the ion clusters",
        "1",
        density * sympy.exp(-0.702132 + 8681.05 / T - 24145.1 / T**2 * density ** sympy.Rational(2, 3)),
    )
    gas = 0.61415 + 48251.33 / T - 67707.93 / T**2 + 10102100 / T**3
    liquid = sympy.log(1 + clusters, 10) - clusters / (clusters + 1) * density * (
        0.813876 - 51.4471 / T - 0.46992 * density
    )
    return -12 * liquid + gas + 2 * sympy.log(sympy.Float("18.015268") / 1000, 10)


@formula(result_unit="uS/cm", source=LIGHT, symbol="kappa_p", temperature=TEMPERATURE)
def pure_water_conductivity(temperature):
    """Conductivity of water in which nothing is dissolved.

    From 0 to 100 °C. A fit of our own to the ion product (IAPWS) and limiting conductances
    (Robinson and Stokes), set to 0.05501 µS/cm at 25 °C: within 0.03 % of them for 5 to 45 °C
    and 0.11 % for 0 to 100 °C. Against measured water 0.2 % at 25 °C, 0.6 % from 10 to 35 °C,
    2 % elsewhere.
    """
    z = (temperature - 25) / 100
    exponent = 5.2757 * z - 3.3218 * z**2 + 2.1772 * z**3 - 1.7388 * z**4 + 0.7819 * z**5
    return PURE_AT_25 * sympy.exp(exponent)


@formula(result_unit="Mohm cm", source=LIGHT, symbol="R_p", temperature=TEMPERATURE)
def pure_water_resistivity(temperature):
    """Resistivity of water in which nothing is dissolved: no real water is above it by more than 0.6 %.

    From 0 to 100 °C; deviation as for the conductivity of pure water.
    """
    return 1 / pure_water_conductivity.on(temperature=temperature)


def salt_at_25(conductivity, temperature):
    """Conductivity at 25 °C when what is dissolved is a neutral salt."""
    x = temperature - 25
    salt = step("s", "neutral salt at this temperature against 25 °C", "1", 1 + 0.0204 * x + 4.7e-5 * x**2)
    pure = pure_water_conductivity.on(temperature=temperature)
    return (conductivity - pure) / salt + PURE_AT_25


SALT_TEMPERATURE = Input("degC", "temperature of the water", minimum=0, maximum=60, symbol="t")


@formula(
    result_unit="uS/cm",
    source=(SALT, LIGHT),
    symbol="kappa_25",
    refusals=(Refusal("above_pure_water", lambda result: result < 1 / PURE_RESISTIVITY_CEILING),),
    conductivity=Input("uS/cm", "uncompensated conductivity", above=0, maximum=1e4, symbol="kappa"),
    temperature=SALT_TEMPERATURE,
)
def conductivity_at_25(conductivity, temperature):
    """Conductivity of high-purity water at 25 °C: pure-water part and salt part, each compensated.

    From 0 to 60 °C, for neutral salt; with acid or carbon dioxide as the residue it is not exact.
    The salt part is sodium chloride at infinite dilution, within 0.3 % for 10 to 40 °C, 1 % at
    5 °C and 2 % at 0 °C. Purer than pure water there is none: above 18.3 MΩ·cm no result.
    """
    return salt_at_25(conductivity, temperature)


@formula(
    result_unit="Mohm cm",
    source=(SALT, LIGHT),
    symbol="R_25",
    refusals=(
        Refusal("above_pure_water", lambda result: (result > PURE_RESISTIVITY_CEILING) | (result <= 0)),
    ),
    resistivity=Input("Mohm cm", "uncompensated resistivity", above=0, maximum=1e4, symbol="R"),
    temperature=SALT_TEMPERATURE,
)
def resistivity_at_25(resistivity, temperature):
    """Resistivity of high-purity water at 25 °C: pure-water part and salt part, each compensated.

    From 0 to 60 °C, for neutral salt; deviation as for the conductivity at 25 °C. Above
    18.3 MΩ·cm no result: then the temperature sensor, the cell constant, a bubble in the cell
    or an open circuit is the likely cause.
    """
    return 1 / salt_at_25(1 / resistivity, temperature)


@formula(
    result_unit="uS/cm",
    source=LINEAR,
    symbol="kappa",
    conductivity=Input("uS/cm", "conductivity as the meter shows it", above=0, maximum=1e6, symbol="kappa_s"),
    temperature=TEMPERATURE,
    meter_mode=Choice(
        {
            "linear": "the meter compensates by a fixed share per kelvin",
            "uncompensated": "the meter shows the value at the water's temperature",
        },
        "what the meter does with the temperature",
        default="linear",
    ),
    coefficient=Input(
        "1/K",
        "share per kelvin that the meter is set to",
        minimum=0,
        below=0.04,
        default=0.02,
        symbol="alpha",
    ),
)
def uncompensated_conductivity(conductivity, temperature, meter_mode, coefficient):
    """Conductivity at the water's temperature, from what a meter with linear compensation shows.

    Undoes the meter's own arithmetic, so it is exact for such a meter and wrong for any other.
    """
    return pick(
        meter_mode,
        {"linear": conductivity * (1 + coefficient * (temperature - 25)), "uncompensated": conductivity},
    )


@formula(
    result_unit="uS/cm",
    source=ISO_7888["factor"].source,
    symbol="kappa_25",
    conductivity=Input("uS/cm", "uncompensated conductivity", minimum=60, maximum=1000, symbol="kappa"),
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=35, symbol="t"),
)
def natural_conductivity_at_25(conductivity, temperature):
    """Conductivity of natural water at 25 °C, by the standard's table of factors.

    For tap and ground water of about 60 to 1000 µS/cm. Not for permeate or pure water.
    Between whole degrees the factor is interpolated: at most 0.03 % from the table in tenths.
    """
    return conductivity * step("f_25", "factor to 25 °C", "1", ISO_7888["factor"](temperature))


CARBON_DIOXIDE = Input("mg/L", "dissolved carbon dioxide", minimum=0, maximum=100, symbol="c")


def hydrogen_ions(carbon_dioxide):
    """Hydrogen ions in mol/L, ion product, acid and its constant: charge balance at 25 °C."""
    product = step(
        "K_w", "ion product that gives pure water its conductivity", "1", (PURE_AT_25 / 548150) ** 2
    )
    constant = step("K_1", "first constant of carbonic acid", "mol/L", sympy.Float(10**-6.352))
    acid = step("C", "carbon dioxide", "mol/L", carbon_dioxide / 44010)
    balance = root(
        "charge_balance",
        lambda x, w, k, c: x - w / x - k * c / (x + k),
        sympy.sqrt(product) / 2,
        2 * sympy.sqrt(product + constant * acid),
        w=product,
        k=constant,
        c=acid,
    )
    return step("h", "hydrogen ions, from the charge balance", "mol/L", balance), product, acid, constant


@formula(result_unit="uS/cm", source=(CARBONIC, SALT), symbol="kappa", carbon_dioxide=CARBON_DIOXIDE)
def carbon_dioxide_conductivity(carbon_dioxide):
    """Conductivity at 25 °C of pure water that holds carbon dioxide and nothing else.

    Not additive: with a little bicarbonate beside it the conductivity is lower at first.
    Carbonate ions are left out (below 0.01 %). Limiting conductances 349.65 (hydrogen ion), 198.5
    (hydroxide) and 44.5 S cm2/mol (hydrogen carbonate); activity is taken as 1, which is within
    0.5 % up to 50 mg/L.
    """
    h, product, acid, constant = hydrogen_ions(carbon_dioxide)
    bicarbonate = acid * constant / (h + constant)
    return 1000 * (349.65 * h + 198.5 * product / h + 44.5 * bicarbonate)


@formula(result_unit="pH", source=CARBONIC, symbol="pH", carbon_dioxide=CARBON_DIOXIDE)
def carbon_dioxide_ph(carbon_dioxide):
    """pH at 25 °C of pure water that holds carbon dioxide and nothing else.

    Carbonate ions are left out (below 0.01 %); activity is taken as 1: within 0.005 up to 50 mg/L.
    """
    h, *_ = hydrogen_ions(carbon_dioxide)
    return -sympy.log(h, 10)
