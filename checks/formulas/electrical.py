"""Protective earth: resistance of conductors, and what a continuity reading may be."""

from __future__ import annotations

from checks.expressions import ChoiceSymbol, completed, larger, pick, smaller, started, step, total
from checks.formula import ANY, Choice, Input, Series, Source, formula
from checks.lookup import tables
from checks.source import practice

IEC_60228 = tables("iec-60228-2004")
COPPER = Source("IEC 60228, Conductors of insulated cables", "2004", "temperature correction", "from memory")
BS_7671 = Source("BS 7671, Requirements for Electrical Installations", "2018", "appendix 4, 6.1", "seen")
IEC_61010 = Source("IEC 61010-1, Safety of laboratory equipment", "edition 3", "6.5.2.5", "from memory")
EN_50699 = Source(
    "EN 50699, Recurrent test of electrical equipment", "2020", "protective conductor resistance", "seen"
)

FORM = Choice(
    {
        "linear": "0.00393 per kelvin from 20 °C, copper",
        "230": "(230 + t), as in BS 7671 and IEC 60364",
    },
    "how copper's resistance follows temperature",
    default="linear",
)
RESISTANCE = Input("ohm", "resistance", minimum=0, symbol="R")
LENGTH = Input("m", "length of the conductor, one way", above=0, maximum=10000, symbol="L")
CONDUCTOR_TEMPERATURE = Input(
    "degC", "temperature of the conductor", minimum=-50, maximum=150, default=20, symbol="t"
)
CROSS_SECTION = Input("mm**2", "cross-section of the conductor", among=IEC_60228["fixed"].keys, symbol="S")
CLASS = Choice({"1": "solid", "2": "stranded, fixed wiring", "5": "flexible cord"}, "class of the conductor")


def heated(temperature_form: ChoiceSymbol, temperature):
    """Resistance at a temperature as a multiple of that at 20 °C."""
    return pick(
        temperature_form, {"linear": 1 + 0.00393 * (temperature - 20), "230": (230 + temperature) / 250}
    )


@formula(
    result_unit="ohm",
    source=(IEC_60228["fixed"].source, IEC_60228["flexible"].source, COPPER),
    symbol="R_c",
    cross_section=CROSS_SECTION,
    length=LENGTH,
    conductor_class=CLASS,
    temperature=CONDUCTOR_TEMPERATURE,
    temperature_form=FORM,
)
def conductor_resistance(cross_section, length, conductor_class, temperature, temperature_form):
    """Highest resistance that a sound copper conductor of this size and length may have.

    Not for tinned or aluminium conductors, and not for sizes outside the standard's table.
    The table gives maximum values: a sound conductor reads at or a little below. The two
    temperature forms differ by less than 0.3 % from 20 to 70 °C.
    """
    fixed, flexible = (IEC_60228[name](cross_section) for name in ("fixed", "flexible"))
    per_km = step(
        "r_20",
        "resistance per kilometre at 20 °C",
        "ohm/km",
        pick(conductor_class, {"1": fixed, "2": fixed, "5": flexible}),
    )
    factor = step("k", "factor from 20 °C", "1", heated(temperature_form, temperature))
    return per_km / 1000 * length * factor


@formula(
    result_unit="ohm",
    source=(COPPER, BS_7671),
    symbol="R_2",
    resistance=RESISTANCE,
    temperature=Input("degC", "temperature at the measurement", minimum=-50, maximum=150, symbol="t_1"),
    target_temperature=Input("degC", "temperature wanted", minimum=-50, maximum=150, symbol="t_2"),
    temperature_form=FORM,
)
def resistance_at_temperature(resistance, temperature, target_temperature, temperature_form):
    """Resistance of a copper conductor at another temperature.

    For copper only. The two forms differ by less than 0.3 % between 20 and 70 °C.
    """
    return resistance * heated(temperature_form, target_temperature) / heated(temperature_form, temperature)


@formula(
    result_unit="ohm",
    source=(IEC_60228["fixed"].source, practice("an allowance for the unit's own bonding and the contacts")),
    symbol="R_max",
    cross_section=CROSS_SECTION,
    length=LENGTH,
    conductor_class=CLASS,
    temperature=CONDUCTOR_TEMPERATURE,
    temperature_form=FORM,
    allowance=Input(
        "ohm",
        "allowance for the unit's own bonding and the contacts",
        minimum=0,
        default=0.1,
        exact=True,
        symbol="a",
    ),
)
def continuity_limit(cross_section, length, conductor_class, temperature, temperature_form, allowance):
    """Highest acceptable reading of protective earth continuity, from the conductor's own resistance.

    Where a product standard gives a fixed figure for the unit, that figure decides.
    The allowance is the site's choice: 0.1 Ω is what IEC 61010-1 allows inside a unit (from memory).
    """
    conductor = conductor_resistance.on(
        cross_section=cross_section,
        length=length,
        conductor_class=conductor_class,
        temperature=temperature,
        temperature_form=temperature_form,
    )
    return conductor + allowance


@formula(
    result_unit="ohm",
    source=IEC_61010,
    symbol="R_max",
    breaker_rating=Input("A", "rating of the building's overcurrent device", above=0, symbol="I_n"),
)
def permanent_bonding_limit(breaker_rating):
    """Highest bonding resistance of a permanently connected unit: 10 V at twice the breaker's rating.

    For laboratory equipment that is permanently connected; plug-connected units have a fixed limit.
    """
    return 10 / (2 * breaker_rating)


@formula(
    result_unit="ohm",
    source=EN_50699,
    symbol="R_max",
    length=Input("m", "length of the cord", above=0, maximum=1000, symbol="l"),
    step_rule=Choice(
        {
            "started": "every step of 7.5 m that was begun counts",
            "completed": "only whole steps of 7.5 m count",
        },
        "how the length above 5 m is counted",
        default="started",
    ),
)
def cord_bonding_limit(length, step_rule):
    """Highest protective-conductor resistance of a unit with a cord: 0.3 Ω, more for long cords.

    For cords up to 1.5 mm²; thicker cords are computed from their conductor. Never above 1 Ω.
    0.1 Ω per further 7.5 m beyond 5 m; that tables in use count every step begun is from memory.
    """
    steps = step("n", "steps of 7.5 m beyond 5 m", "1", larger(0, length - 5) / 7.5)
    counted = pick(step_rule, {"started": started(steps), "completed": completed(steps)})
    return smaller(1, 0.3 + 0.1 * counted)


@formula(
    result_unit=ANY,
    source=Source("IEC 60050-131, circuit theory", "2002", "conductances in parallel add", "from memory"),
    symbol="R_p",
    resistances=Series(ANY, "resistances", above=0, symbol="R_i"),
)
def parallel_resistance(resistances):
    """Resistance of several resistances in parallel. Exact by definition."""
    return 1 / total("conductance_sum", lambda resistance: 1 / resistance, resistances)
