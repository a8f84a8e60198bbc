"""Before the membrane and behind it: silt density, contact with carbon, the load and life of a deioniser."""

from __future__ import annotations

from checks.expressions import given, step, when
from checks.formula import Input, Refusal, Source, formula
from checks.source import practice

D4189 = Source("ASTM D4189, Silt Density Index of Water", "2007 (2014)", "calculation", "seen")
CONTACT = Source(
    "Trade pages on carbon filters", "as read in 2026", "bed volume by flow, voids included", "seen"
)
CONDUCTANCE = Source(
    "CRC Handbook of Chemistry and Physics",
    "97th edition",
    "ionic conductivities at infinite dilution",
    "from memory",
)
CAPACITY = Source(
    "Trade pages on service deionisation", "as read in 2026", "equivalents by volume of resin", "seen"
)


@formula(
    result_unit="%/min",
    source=(D4189, practice("a filter plugged by more than 75 % says nothing")),
    symbol="SDI",
    refusals=(
        Refusal("sdi_times_swapped", lambda first_time, last_time: last_time < first_time),
        Refusal(
            "filter_plugged",
            lambda first_time, last_time, plugging_limit: 1 - first_time / last_time > plugging_limit,
        ),
    ),
    first_time=Input("s", "time of the first 500 mL", above=0, maximum=1e5, symbol="t_i"),
    last_time=Input("s", "time of the last 500 mL", above=0, maximum=1e5, symbol="t_f"),
    interval=Input("min", "time between their beginnings", above=0, maximum=60, default=15, symbol="T"),
    plugging_limit=Input(
        "1",
        "share of the flow that may be lost",
        above=0,
        maximum=1,
        default=0.75,
        exact=True,
        symbol="P_max",
    ),
)
def silt_density_index(first_time, last_time, interval, plugging_limit):
    """Silt density index of a feed: by how many percent a minute it plugs a fine filter.

    0.45 µm, 47 mm, 207 kPa held, water below 1 NTU; not for permeate. An index over 5 min is not one
    over 15 min. Beyond the plugging limit shorten to 10 or 5 min. Some pages take 50 % for the limit.
    """
    lost = step("P", "share of the flow that was lost", "%", 100 * (1 - first_time / last_time))
    return lost / interval


@formula(
    result_unit="min",
    source=CONTACT,
    symbol="EBCT",
    bed_volume=Input("L", "volume of the bed, voids included", minimum=0, maximum=1e6, symbol="V"),
    flow=Input("L/min", "flow", above=0, maximum=1e6, symbol="Q"),
)
def empty_bed_contact_time(bed_volume, flow):
    """Time that water would spend in the empty bed of a carbon filter.

    Granular carbon: 2 min for free chlorine; 6 or 10 min for chloramine, where sources disagree.
    Carbon blocks work far faster: there the rated capacity counts. Exact by definition.
    """
    return bed_volume / flow


def hydrogen_conductivity(ph):
    """Conductivity of the hydrogen ions alone, µS/cm."""
    return 349.7e3 * 10**-ph


@formula(
    result_unit="meq/L",
    source=CONDUCTANCE,
    symbol="c",
    refusals=(
        Refusal(
            "more_acid_than_conductivity",
            lambda conductivity, ph: given(ph) & (hydrogen_conductivity(ph) > conductivity),
        ),
    ),
    conductivity=Input("uS/cm", "conductivity at 25 °C", minimum=0, maximum=1000, symbol="kappa"),
    carbon_dioxide=Input("mg/L", "carbon dioxide", minimum=0, maximum=1000, symbol="CO_2"),
    silica=Input("mg/L", "silica, as SiO2", minimum=0, maximum=1000, default=0, symbol="SiO_2"),
    equivalent_conductance=Input(
        "S cm**2/eq",
        "equivalent conductance of the salts",
        minimum=80,
        maximum=430,
        default=105,
        symbol="Lambda",
    ),
    ph=Input("pH", "pH", minimum=4, maximum=10, optional=True, symbol="pH"),
)
def deioniser_load(conductivity, carbon_dioxide, silica, equivalent_conductance, ph):
    """What each litre puts on the anion side of a deioniser, which is the one that ends first.

    Carbon dioxide passes a membrane whole and is often three quarters of the load. With a pH the
    hydrogen ions of carbonic acid are taken off the conductivity. Permeate: 95 to 125 S cm2/eq.
    One equivalent per mole for carbon dioxide and for silica.
    """
    acid = step("k_H", "hydrogen ions", "uS/cm", when(given(ph), hydrogen_conductivity(ph), 0))
    salts = step("c_S", "salts", "meq/L", (conductivity - acid) / equivalent_conductance)
    return salts + carbon_dioxide / 44.01 + silica / 60.08


@formula(
    result_unit="L",
    source=(CAPACITY, practice("0.7 to 0.9 of a resin's capacity can be used")),
    symbol="V",
    resin_volume=Input("L", "volume of mixed resin", minimum=0, maximum=1e5, symbol="V_R"),
    capacity=Input("eq/L", "capacity of the mixed bed", minimum=0, maximum=5, symbol="C"),
    utilisation=Input("1", "share that can be used", above=0, maximum=1, default=0.85, symbol="u"),
    load=Input("meq/L", "load of the water", above=0, maximum=1000, symbol="c"),
)
def deioniser_run_volume(resin_volume, capacity, utilisation, load):
    """How much water a deioniser makes until it is used up.

    Counts the water that is made up, not what circulates. A mixed bed has 0.41 to 0.55 eq/L. Silica and
    carbon dioxide break through first, while the resistivity still looks good.
    """
    return resin_volume * capacity * utilisation * 1000 / load
