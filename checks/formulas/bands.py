"""The ends of a band around a prediction, and how far a balance of flows may miss."""

from __future__ import annotations

import sympy

from checks.expressions import larger
from checks.formula import ANY, Input, Source, formula
from checks.source import practice

PROPAGATION = Source(
    "JCGM 100, Guide to the expression of uncertainty in measurement", "2008", "5.1.2", "from memory"
)
VALUE = Input(ANY, "value in the middle of the band", symbol="x")
SHARE = Input("1", "half-width, as a share of the value", minimum=0, maximum=1, symbol="s")


@formula(result_unit=ANY, source=practice("a share is taken off the value"), value=VALUE, share=SHARE)
def band_lower(value, share):
    """Lower end of a band around a value above zero. Exact by definition."""
    return value * (1 - share)


@formula(
    result_unit=ANY,
    source=practice("a share is added to the value"),
    value=VALUE,
    share=Input("1", "half-width, as a share of the value", minimum=0, maximum=100, symbol="s"),
)
def band_upper(value, share):
    """Upper end of a band around a value above zero. Exact by definition."""
    return value * (1 + share)


@formula(
    result_unit="1",
    source=(PROPAGATION, practice("a balance that misses by a tenth is left alone")),
    symbol="B",
    feed_flow=Input(ANY, "flow of feed", above=0, symbol="Q_f"),
    permeate_flow=Input(ANY, "flow of permeate", minimum=0, symbol="Q_p"),
    concentrate_flow=Input(ANY, "flow of concentrate", minimum=0, symbol="Q_c"),
    feed_uncertainty=Input(ANY, "standard uncertainty of the feed's flow", minimum=0, symbol="u_f"),
    permeate_uncertainty=Input(ANY, "standard uncertainty of the permeate's flow", minimum=0, symbol="u_p"),
    concentrate_uncertainty=Input(
        ANY, "standard uncertainty of the concentrate's flow", minimum=0, symbol="u_c"
    ),
    least=Input("1", "share that is left alone in any case", minimum=0, maximum=1, default=0.1, symbol="B_0"),
)
def flow_balance_band(
    feed_flow,
    permeate_flow,
    concentrate_flow,
    feed_uncertainty,
    permeate_uncertainty,
    concentrate_uncertainty,
    least,
):
    """How far the balance of three flows may miss before something must be wrong.

    The expanded uncertainty of the balance (k = 2, meters independent of one another), but not less
    than what practice leaves alone. Float meters cannot prove the 5 % that are often asked for.
    """
    leaving = (permeate_flow + concentrate_flow) / feed_flow * feed_uncertainty
    variance = leaving**2 + permeate_uncertainty**2 + concentrate_uncertainty**2
    return larger(least, 2 * sympy.sqrt(variance) / feed_flow)
