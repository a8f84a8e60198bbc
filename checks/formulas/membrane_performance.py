"""What a membrane should give at its temperature and pressure, and how to compare it with a reference."""

from __future__ import annotations

import sympy

from checks.expressions import pick, step, when
from checks.formula import ANY, Choice, Input, Refusal, Source, formula
from checks.formulas.membrane import MEAN, RECOVERY, alongside, mean_feed_concentration_factor

D4516 = Source("ASTM D4516, Standardizing Reverse Osmosis Performance Data", "2019a", "6.1", "seen")
D4516_SALT = Source(
    "ASTM D4516, Standardizing Reverse Osmosis Performance Data", "2019a", "6.2, salt passage", "from memory"
)
OSMOTIC = Source(
    "ASTM D4516, Standardizing Reverse Osmosis Performance Data", "2019a", "osmotic pressure", "from memory"
)
TWO_RANGES = Source("Design equations of a maker of membranes", "as read in 2026", "3020 and 2640 K", "seen")
ONE_RANGE = Source(
    "A university's notes on desalination",
    "as read in 2026",
    "constant by membrane; 2700 from memory",
    "seen",
)
PRESSURE_LOSS = Source(
    "A university's notes on desalination", "as read in 2026", "power 1.5 of the mean flow", "seen"
)

TEMPERATURE = Input("degC", "temperature of the feed", minimum=0, maximum=60, symbol="t")
REFERENCE_TEMPERATURE = Input("degC", "temperature at the reference", minimum=0, maximum=60, symbol="t_r")
FORM = Choice(
    {
        "two_range": "3020 K below 25 °C, 2640 K above",
        "single": "one constant",
        "power": "1.03 per kelvin, ASTM D4516 without a maker's factor",
    },
    "how the membrane's permeability follows temperature",
    default="two_range",
)
CONSTANT = Input(
    "K",
    "constant of the membrane, for the form single",
    minimum=1000,
    maximum=5000,
    default=2700,
    exact=True,
    symbol="U",
)
DRIVING = Input("bar", "net driving pressure", above=0, maximum=200, symbol="NDP")
REFERENCE_DRIVING = Input(
    "bar", "net driving pressure at the reference", above=0, maximum=200, symbol="NDP_r"
)
SOLIDS = Input("mg/L", "total dissolved solids", minimum=0, maximum=20000, symbol="TDS")


def permeability(temperature, form, constant):
    """Permeability of a membrane against that at 25 °C."""
    colder = 1 / sympy.Integer(298) - 1 / (temperature + 273)
    return pick(
        form,
        {
            "two_range": when(temperature < 25, sympy.exp(3020 * colder), sympy.exp(2640 * colder)),
            "single": sympy.exp(constant * colder),
            "power": sympy.Float(1.03) ** (temperature - 25),
        },
    )


@formula(
    result_unit="1",
    source=(TWO_RANGES, ONE_RANGE, D4516),
    symbol="TCF",
    temperature=TEMPERATURE,
    form=FORM,
    constant=CONSTANT,
)
def membrane_temperature_factor(temperature, form, constant):
    """Permeability of a membrane as a multiple of that at 25 °C: below 1 when colder.

    A cold flow is divided by it and comes out higher. At 5 °C the forms differ by 15 %, more than
    an alarm of 10 %: take the maker's form and keep it.
    273 and 298 K as the makers print them; 273.15 and 298.15 K differ by less than 0.1 %.
    """
    return permeability(temperature, form, constant)


def osmotic(solids, temperature):
    """Osmotic pressure in bar by the form of D4516."""
    return sympy.Float(0.2654) * solids * (temperature + sympy.Float("273.15")) / (1000 - solids / 1000) / 100


@formula(
    result_unit="bar",
    source=OSMOTIC,
    symbol="pi",
    dissolved_solids=SOLIDS,
    temperature=TEMPERATURE,
    form=Choice(
        {
            "d4516": "sodium chloride, ASTM D4516",
            "natural_water": "average of natural waters, up to 20000 mg/L",
        },
        "kind of the salt",
        default="d4516",
    ),
)
def osmotic_pressure(dissolved_solids, temperature, form):
    """Osmotic pressure of salt water.

    D4516 against Pitzer's equations for sodium chloride at 25 °C: 1.7 % low at 2000 mg/L, 1.5 % high
    at 10000. Up to 800 mg/L all forms agree within 0.1 bar; the same one must serve both visits.
    """
    natural = dissolved_solids * (temperature + 320) / 491000
    return pick(form, {"d4516": osmotic(dissolved_solids, temperature), "natural_water": natural})


@formula(
    result_unit="bar",
    source=D4516,
    symbol="NDP",
    refusals=(Refusal("no_driving_pressure", lambda result: result <= 0),),
    feed_pressure=Input("bar", "pressure of the feed at the membrane", minimum=0, maximum=200, symbol="p_f"),
    pressure_drop=Input("bar", "pressure drop from feed to concentrate", minimum=0, maximum=50, symbol="dp"),
    permeate_pressure=Input("bar", "pressure of the permeate", minimum=0, maximum=50, symbol="p_p"),
    feed_dissolved_solids=Input(
        "mg/L", "total dissolved solids of the feed", minimum=0, maximum=10000, symbol="C_f"
    ),
    permeate_dissolved_solids=Input(
        "mg/L", "total dissolved solids of the permeate", minimum=0, maximum=10000, default=0, symbol="C_p"
    ),
    recovery=Input("1", "recovery", minimum=0, maximum=0.9, symbol="Y"),
    temperature=TEMPERATURE,
    mean=MEAN,
)
def net_driving_pressure(
    feed_pressure,
    pressure_drop,
    permeate_pressure,
    feed_dissolved_solids,
    permeate_dissolved_solids,
    recovery,
    temperature,
    mean,
):
    """Pressure that is left to drive water through the membrane.

    One stage; brackish water. A full reservoir or a closed valve is permeate pressure and counts.
    Osmotic pressure by ASTM D4516, at the mean concentration along the membrane.
    """
    beside = mean_feed_concentration_factor.on(recovery=recovery, mean=mean)
    outside = step(
        "pi_fb",
        "osmotic pressure along the membrane",
        "bar",
        osmotic(feed_dissolved_solids * beside, temperature),
    )
    inside = step(
        "pi_p", "osmotic pressure of the permeate", "bar", osmotic(permeate_dissolved_solids, temperature)
    )
    return feed_pressure - pressure_drop / 2 - permeate_pressure - (outside - inside)


@formula(
    result_unit=ANY,
    source=D4516,
    symbol="Q_exp",
    rated_flow=Input(ANY, "rated flow of permeate at 25 °C", minimum=0, symbol="Q_r"),
    rated_driving_pressure=Input(
        "bar", "net driving pressure of the rating", above=0, maximum=200, symbol="NDP_r"
    ),
    driving_pressure=DRIVING,
    temperature=TEMPERATURE,
    form=FORM,
    constant=CONSTANT,
)
def expected_permeate_flow(rated_flow, rated_driving_pressure, driving_pressure, temperature, form, constant):
    """Flow of permeate that the rating leads to expect at this pressure and temperature.

    A rating at 25 °C. Single membranes lie within 15 to 20 % of their rating (from memory).
    """
    factor = membrane_temperature_factor.on(temperature=temperature, form=form, constant=constant)
    return rated_flow * driving_pressure / rated_driving_pressure * factor


def against_reference(temperature, reference_temperature, form, constant):
    """Permeability at the reference's temperature by that at the actual one."""
    actual = step("TCF", "temperature factor now", "1", permeability(temperature, form, constant))
    reference = permeability(reference_temperature, form, constant)
    return step("TCF_r", "temperature factor at the reference", "1", reference) / actual


@formula(
    result_unit=ANY,
    source=D4516,
    symbol="Q_n",
    flow=Input(ANY, "flow of permeate", minimum=0, symbol="Q"),
    driving_pressure=DRIVING,
    temperature=TEMPERATURE,
    reference_driving_pressure=REFERENCE_DRIVING,
    reference_temperature=REFERENCE_TEMPERATURE,
    form=FORM,
    constant=CONSTANT,
)
def normalised_permeate_flow(
    flow, driving_pressure, temperature, reference_driving_pressure, reference_temperature, form, constant
):
    """Flow of permeate as it would be at the pressure and temperature of the reference.

    To be compared with the flow at the reference: 10 % less asks for cleaning (a trade checklist).
    The form of the temperature factor can decide, so keep the one of the reference.
    """
    pressures = reference_driving_pressure / driving_pressure
    return flow * pressures * against_reference(temperature, reference_temperature, form, constant)


@formula(
    result_unit="1",
    source=D4516_SALT,
    symbol="SP_n",
    salt_passage=Input("1", "nominal salt passage, on the feed", minimum=0, maximum=1, symbol="SP"),
    flow=Input(ANY, "flow of permeate", above=0, symbol="Q"),
    temperature=TEMPERATURE,
    recovery=RECOVERY,
    reference_flow=Input(ANY, "flow of permeate at the reference", above=0, symbol="Q_r"),
    reference_temperature=REFERENCE_TEMPERATURE,
    reference_recovery=Input("1", "recovery at the reference", minimum=0, maximum=0.99, symbol="Y_r"),
    mean=MEAN,
    form=FORM,
    constant=CONSTANT,
)
def normalised_salt_passage(
    salt_passage,
    flow,
    temperature,
    recovery,
    reference_flow,
    reference_temperature,
    reference_recovery,
    mean,
    form,
    constant,
):
    """Salt passage as it would be at the flow, temperature and recovery of the reference.

    To be compared with the nominal salt passage of the reference: a tenth more, of its value, is the
    usual alarm. Salt is taken to follow temperature as water does.
    """
    now = step("c_fb", "mean concentration now", "1", alongside(recovery, mean))
    then = step("c_r", "mean concentration at the reference", "1", alongside(reference_recovery, mean))
    warmth = against_reference(temperature, reference_temperature, form, constant)
    return salt_passage * flow / reference_flow * warmth * then / now


@formula(
    result_unit="bar",
    source=PRESSURE_LOSS,
    symbol="dp_n",
    pressure_drop=Input("bar", "pressure drop from feed to concentrate", minimum=0, maximum=50, symbol="dp"),
    mean_flow=Input(ANY, "mean of the flows of feed and concentrate", above=0, symbol="Q"),
    reference_mean_flow=Input(ANY, "the same at the reference", above=0, symbol="Q_r"),
    exponent=Input("1", "power of the flow", minimum=1, maximum=2, default=1.5, exact=True, symbol="n"),
)
def normalised_pressure_drop(pressure_drop, mean_flow, reference_mean_flow, exponent):
    """Pressure drop along the membrane as it would be at the flow of the reference.

    Makers take a power from 1.4 to 1.5. Temperature is left out: cold water raises the drop a little.
    """
    return pressure_drop * (reference_mean_flow / mean_flow) ** exponent
