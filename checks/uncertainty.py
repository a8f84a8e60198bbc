"""How far a computed value can be off: what its readings bring in, put together, and how well that is known.

Free of domain words; `static/judging/uncertainty.js` is the twin. Readings of one instrument share the error
of its accuracy and its calibration: it adds up in a sum and falls out of a difference (GUM 5.2.2). What the
display rounds away, and the scatter of repeated readings, is each reading's own.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from checks.instrument import finite
from checks.nodes import completed


@dataclass(frozen=True)
class Contribution:
    """A standard uncertainty: a reading's `own`, and what it has in `common` with its instrument's others.

    The common part has a sign. `degrees` are the degrees of freedom of an observed scatter, None of a
    specification.
    """

    own: float
    common: float = 0.0
    instrument: str | None = None
    degrees: int | None = None


UNKNOWN = Contribution(math.nan)
Slopes = Mapping[str, tuple[float, Contribution]]


def combined(slopes: Slopes, formulas: Mapping[str, Any]) -> tuple[float | None, float | None]:
    """The combined standard uncertainty (None: unknown) and its degrees of freedom (None: no limit)."""
    shared: dict[str, float] = {}
    specified = 0.0
    observed: list[tuple[float, int]] = []
    for slope, brought in slopes.values():
        own = slope * brought.own
        if brought.degrees is None:
            specified += own * own
        else:
            observed.append((abs(own), brought.degrees))
        if brought.instrument is not None:
            shared[brought.instrument] = shared.get(brought.instrument, 0.0) + slope * brought.common
    for together in shared.values():
        specified += together * together
    total = specified
    for u, _ in observed:
        total += u * u
    return finite(math.sqrt(total)), _degrees(math.sqrt(specified), observed, formulas)


def repeated(values: Sequence[float], formulas: Mapping[str, Any]) -> Contribution | None:
    """What the scatter of repeated readings brings into their mean (GUM 4.2.3); None for a single one."""
    if len(values) < 2:
        return None
    u = formulas["series_mean_uncertainty"].evaluate({"readings": values}).value
    return Contribution(math.nan if u is None else u, degrees=len(values) - 1)


def _degrees(
    specified: float, observed: Iterable[tuple[float, int]], formulas: Mapping[str, Any]
) -> float | None:
    """Effective degrees of freedom, truncated to the next lower integer (GUM G.4.1)."""
    listed = list(observed)
    if not listed:
        return None
    uncertainties = [specified, *(u for u, _ in listed)]
    degrees = ["inf", *(degrees for _, degrees in listed)]
    found = formulas["effective_degrees_of_freedom"].evaluate(
        {"uncertainties": uncertainties, "degrees": degrees}
    )
    return None if found.value is None else completed(found.value)
