"""From a feed to its permeate: dissolved solids, silica that stays dissolved, conductivity that passes."""

from __future__ import annotations

import sympy

from checks.expressions import step, when
from checks.formula import Input, Source, formula

IONIC = Source(
    "J. Crittenden et al., MWH's Water Treatment",
    "3rd edition 2012",
    "equation 5-38, with 1.6e-5 from Snoeyink and Jenkins 1980",
    "seen",
)
SILICA = Source(
    "R. Fournier, Geothermics 5",
    "1977",
    "amorphous silica, lg C = 4.52 - 731/T, as the database phreeqc.dat has it in mol/kg",
    "seen",
)
CARBONIC = Source("L. Plummer, E. Busenberg, Geochim. Cosmochim. Acta 46", "1982", "K1 at 25 °C", "seen")
CHARGES = Source(
    "W. Stumm, J. Morgan, Aquatic Chemistry", "3rd edition", "chapter 4, charge balance", "from memory"
)


@formula(
    result_unit="mg/L",
    source=IONIC,
    symbol="TDS",
    conductivity=Input("uS/cm", "conductivity at 25 °C", minimum=0, maximum=2e4, symbol="kappa"),
    factor=Input("1", "mg/L for each µS/cm", minimum=0.4, maximum=1, default=0.64, exact=True, symbol="f"),
)
def dissolved_solids(conductivity, factor):
    """Total dissolved solids from the conductivity.

    0.64 for mains water and concentrate, 0.5 for permeate; natural waters lie from 0.55 to 0.7, some
    reach 0.9. A laboratory's figure is better.
    """
    return conductivity * factor


@formula(
    result_unit="mg/L",
    source=SILICA,
    symbol="SiO_2",
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=60, symbol="t"),
)
def silica_solubility(temperature):
    """Most silica, as SiO2, that stays dissolved at equilibrium with amorphous silica.

    For pH up to 8; more stays dissolved above. mg/kg is taken as mg/L. Within 0.5 % of PHREEQC from
    5 to 30 °C.
    """
    return 10 ** (sympy.Float("4.52") - 731 / (temperature + sympy.Float("273.15")))


@formula(
    result_unit="uS/cm",
    source=(CARBONIC, CHARGES),
    symbol="k_p",
    feed_conductivity=Input("uS/cm", "conductivity of the feed at 25 °C", above=0, maximum=2e4, symbol="k_f"),
    salt_passage=Input("1", "salt passage, permeate by feed", minimum=0, maximum=1, symbol="SP"),
    alkalinity=Input("mg/L", "total alkalinity of the feed as CaCO3", minimum=0, maximum=5000, symbol="Alk"),
    carbon_dioxide=Input("mg/L", "carbon dioxide", minimum=0, maximum=500, symbol="CO_2"),
)
def permeate_conductivity_expected(feed_conductivity, salt_passage, alkalinity, carbon_dioxide):
    """Conductivity of permeate at 25 °C: the salt that passes, and the acid of the carbon dioxide.

    The gas passes whole; the hydrogen carbonate that comes with the salt holds its acid back. All
    salts are taken to pass alike. Against PHREEQC, 2 to 30 mg/L of carbon dioxide: within 2 % from
    0.01 mmol/L of hydrogen carbonate on, up to 5 % too high without any.
    """
    salt = step("k_S", "salt that passes", "uS/cm", feed_conductivity * salt_passage)
    buffer = step("b", "hydrogen carbonate", "mol/L", salt_passage * alkalinity / 50040)
    acid = step(
        "a", "acid strength, K1 times concentration", "1", sympy.Float(10**-6.352) * carbon_dioxide / 44010
    )
    ions = step(
        "h",
        "hydrogen ions, from the charge balance",
        "mol/L",
        # The usual (root - b) / 2 loses its digits where hydrogen carbonate rules.
        when(carbon_dioxide > 0, 2 * acid / (sympy.sqrt(buffer**2 + 4 * acid) + buffer), 0),
    )
    return salt + (349650 + 44500) * ions
