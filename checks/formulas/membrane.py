"""Reverse osmosis: recovery, concentration along the membrane, salt passage, and whether it all adds up."""

from __future__ import annotations

import sympy

from checks.expressions import pick, step, when
from checks.formula import ANY, Choice, Input, Refusal, Source, formula

D4516 = Source(
    "ASTM D4516, Standardizing Reverse Osmosis Performance Data",
    "2019a",
    "mass balance and terms",
    "from memory",
)
BALANCE = Source(
    "ASTM D3739, Langelier Saturation Index for Reverse Osmosis",
    "2019",
    "7.1, balance of a salt over the recovery, read in an earlier edition",
    "seen",
)
TERMS = Source(
    "AWWA and ASCE, Water Treatment Plant Design", "as read in 2026", "chapter 13, p. 13.10, recovery", "seen"
)
MEANS = Source(
    "ASTM D4516, as a university's notes on desalination and a design manual have it",
    "2019a",
    "mean concentration on the feed side",
    "seen",
)

PERMEATE_FLOW = Input(ANY, "flow of permeate", minimum=0, symbol="Q_p")
CONCENTRATE_FLOW = Input(ANY, "flow of concentrate", minimum=0, symbol="Q_c")
FEED_FLOW = Input(ANY, "flow of feed", above=0, symbol="Q_f")
FEED = Input("uS/cm", "conductivity of the feed at 25 °C", above=0, maximum=1e6, symbol="k_f")
PERMEATE = Input("uS/cm", "conductivity of the permeate at 25 °C", minimum=0, maximum=1e6, symbol="k_p")
CONCENTRATE = Input("uS/cm", "conductivity of the concentrate at 25 °C", above=0, maximum=1e6, symbol="k_c")
RECOVERY = Input("1", "recovery", minimum=0, maximum=0.99, symbol="Y")
NOMINAL_RECOVERY = Input(
    "1", "recovery; 0 gives the nominal figure, on the feed", minimum=0, maximum=0.99, default=0, symbol="Y"
)
MEAN = Choice(
    {
        "log": "ln(1/(1 - Y))/Y, along the membrane",
        "arithmetic": "half of feed and concentrate together",
        "log_difference": "logarithmic mean of feed and concentrate",
    },
    "mean concentration on the feed side",
    default="log",
)
NOT_CONCENTRATED = Refusal(
    "concentrate_not_above_feed",
    lambda feed_conductivity, concentrate_conductivity: concentrate_conductivity <= feed_conductivity,
)
NOT_PURIFIED = Refusal(
    "permeate_not_below_feed",
    lambda feed_conductivity, permeate_conductivity: permeate_conductivity >= feed_conductivity,
)
NO_FLOW = Refusal(
    "no_flow", lambda permeate_flow, concentrate_flow: sympy.Eq(permeate_flow + concentrate_flow, 0)
)


@formula(
    result_unit="1",
    source=TERMS,
    symbol="Y",
    refusals=(NO_FLOW,),
    permeate_flow=PERMEATE_FLOW,
    concentrate_flow=CONCENTRATE_FLOW,
)
def recovery(permeate_flow, concentrate_flow):
    """Share of the feed that becomes permeate.

    With an internal recycle the concentrate is the flow to the drain. Exact by definition.
    """
    return permeate_flow / (permeate_flow + concentrate_flow)


@formula(
    result_unit="1",
    source=BALANCE,
    symbol="Y",
    refusals=(NOT_CONCENTRATED, NOT_PURIFIED),
    feed_conductivity=FEED,
    concentrate_conductivity=CONCENTRATE,
    permeate_conductivity=PERMEATE,
)
def recovery_from_conductivity(feed_conductivity, concentrate_conductivity, permeate_conductivity):
    """Recovery from three conductivities, without a flow meter: an independent check.

    All three at 25 °C and by one meter. Conductivity is not quite proportional to concentration:
    3 % less when it doubles.
    """
    gained = concentrate_conductivity - feed_conductivity
    return gained / (concentrate_conductivity - permeate_conductivity)


@formula(
    result_unit="1",
    source=BALANCE,
    symbol="CF",
    recovery=RECOVERY,
    salt_passage=Input("1", "salt passage, permeate by feed", minimum=0, maximum=1, default=0, symbol="SP"),
)
def concentration_factor(recovery, salt_passage):
    """How many times the concentrate is more concentrated than the feed. Exact by definition."""
    return (1 - recovery * salt_passage) / (1 - recovery)


def alongside(recovery, mean):
    """The three means; near no recovery their first terms, because 0 by 0 is no number."""
    factor = 1 / (1 - recovery)
    tiny = recovery < sympy.Float(1e-4)
    logarithm = -sympy.log(1 - recovery)
    return pick(
        mean,
        {
            "log": when(tiny, 1 + recovery / 2 + recovery**2 / 3, logarithm / recovery),
            "arithmetic": (1 + factor) / 2,
            "log_difference": when(tiny, 1 + recovery / 2 + 5 * recovery**2 / 12, (factor - 1) / logarithm),
        },
    )


@formula(result_unit="1", source=MEANS, symbol="c_fb", recovery=RECOVERY, mean=MEAN)
def mean_feed_concentration_factor(recovery, mean):
    """How many times the mean concentration along the membrane is that of the feed.

    For salt that stays on the feed side. The three means differ by 2 % at a recovery of 30 % and by
    35 % at 75 %: use one and the same for the reference and for every later visit.
    """
    return alongside(recovery, mean)


@formula(
    result_unit="1",
    source=MEANS,
    symbol="SP",
    feed_conductivity=FEED,
    permeate_conductivity=PERMEATE,
    recovery=NOMINAL_RECOVERY,
    mean=MEAN,
)
def salt_passage(feed_conductivity, permeate_conductivity, recovery, mean):
    """Share of the salt that passes the membrane.

    Nominal, on the feed, without a recovery; on the mean concentration along the membrane with one.
    Carbon dioxide in the permeate counts as if it were salt: below 5 µS/cm the figure says little.
    """
    beside = mean_feed_concentration_factor.on(recovery=recovery, mean=mean)
    return permeate_conductivity / (feed_conductivity * beside)


@formula(
    result_unit="1",
    source=MEANS,
    symbol="R",
    feed_conductivity=FEED,
    permeate_conductivity=PERMEATE,
    recovery=NOMINAL_RECOVERY,
    mean=MEAN,
)
def salt_rejection(feed_conductivity, permeate_conductivity, recovery, mean):
    """Share of the salt that the membrane holds back.

    Nominal without a recovery, on the mean concentration along the membrane with one. Carbon dioxide
    in the permeate counts as if it were salt. Negative when the permeate is worse than the feed.
    """
    passing = salt_passage.on(
        feed_conductivity=feed_conductivity,
        permeate_conductivity=permeate_conductivity,
        recovery=recovery,
        mean=mean,
    )
    return 1 - passing


@formula(
    result_unit="uS/cm",
    source=BALANCE,
    symbol="k_c",
    refusals=(NOT_PURIFIED,),
    feed_conductivity=FEED,
    permeate_conductivity=PERMEATE,
    recovery=RECOVERY,
)
def concentrate_conductivity(feed_conductivity, permeate_conductivity, recovery):
    """Conductivity of the concentrate that feed, permeate and recovery lead to expect.

    At 25 °C. The reading is up to 3 % lower for twice the feed, because conductivity is not quite
    proportional to concentration.
    """
    return (feed_conductivity - recovery * permeate_conductivity) / (1 - recovery)


@formula(
    result_unit="1",
    source=D4516,
    symbol="e_Q",
    feed_flow=FEED_FLOW,
    permeate_flow=PERMEATE_FLOW,
    concentrate_flow=CONCENTRATE_FLOW,
)
def flow_balance_error(feed_flow, permeate_flow, concentrate_flow):
    """Share of the feed's flow that is in neither permeate nor concentrate.

    All three flows measured. Beyond what the meters explain: a wrong reading, or a stream not listed.
    """
    return (feed_flow - permeate_flow - concentrate_flow) / feed_flow


@formula(
    result_unit="1",
    source=D4516,
    symbol="e_S",
    feed_flow=FEED_FLOW,
    permeate_flow=PERMEATE_FLOW,
    concentrate_flow=CONCENTRATE_FLOW,
    feed_conductivity=FEED,
    permeate_conductivity=PERMEATE,
    concentrate_conductivity=CONCENTRATE,
)
def salt_balance_error(
    feed_flow,
    permeate_flow,
    concentrate_flow,
    feed_conductivity,
    permeate_conductivity,
    concentrate_conductivity,
):
    """Share of the feed's salt that is in neither permeate nor concentrate.

    Conductivities at 25 °C. Float meters leave about 10 %. Beyond it: a wrong reading, a stream not
    listed, or not yet steady.
    """
    entering = step("s", "salt in the feed, flow times conductivity", "1", feed_flow * feed_conductivity)
    leaving = permeate_flow * permeate_conductivity + concentrate_flow * concentrate_conductivity
    return (entering - leaving) / entering
