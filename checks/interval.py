"""One reading against one interval: verdict, guarded limits, probability, margin.

Free of domain words; `static/judging/interval.js` is the twin. The uncertainty of the limits themselves is
not counted: a limit is what the standard and the entered data say it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from checks.instrument import finite
from checks.nodes import at_most

COVERAGE = 2.0
"""Coverage factor k for 95.45 % where the degrees of freedom have no limit (GUM 6.3.3)."""

NUMBERS = (
    "reading",
    "unit",
    "u",
    "expanded",
    "k",
    "nu",
    "lower",
    "upper",
    "accept_lower",
    "accept_upper",
    "margin",
    "probability",
)
RULES = {"guarded": "binary", "non_binary": "non_binary", "simple": "simple"}


@dataclass(frozen=True)
class Found:
    """What a limit rule has to judge; None where there is nothing yet.

    `uncertainty_at` gives the standard uncertainty that a reading of a certain value would have; `least` and
    `most` are what is physically possible. `nu` are the degrees of freedom of `u`, None without limit.
    """

    reading: float | None
    u: float | None
    lower: float | None
    upper: float | None
    unit: str | None = None
    uncertainty_at: Callable[[float], float | None] | None = None
    least: float | None = None
    most: float | None = None
    nu: float | None = None


def blank(verdict: str) -> dict[str, Any]:
    """The result of a rule of which only the verdict is known."""
    return {"verdict": verdict, **dict.fromkeys(NUMBERS), "missing": [], "reasons": []}


def judge_interval(rule: Mapping[str, Any], found: Found, formulas: Mapping[str, Any]) -> dict[str, Any]:
    """The result of a limit rule (docs/api.md, "Case and judgement")."""
    k = _coverage(found.nu, formulas)
    result = blank("not_measured") | {"reading": found.reading, "unit": found.unit, "u": found.u}
    if found.u is not None:
        result |= {"expanded": k * found.u, "k": k, "nu": found.nu}
    result |= {"lower": found.lower, "upper": found.upper}
    if found.lower is not None and found.upper is not None and not at_most(found.lower, found.upper):
        return result | {"verdict": "no_valid_setting", "reasons": [_crossed(found)]}
    guard = 0 if rule["decision"] == "simple" else rule["guard"]
    result["accept_lower"] = _accept(found.lower, guard * k, found)
    result["accept_upper"] = _accept(found.upper, -guard * k, found)
    hopeless = _hopeless(result, found) if guard else None
    if hopeless is not None:
        return result | {"verdict": "instrument_not_good_enough", "reasons": [hopeless]}
    if found.reading is None:
        return result
    return _judge(rule, found, result, guard, formulas)


def _judge(
    rule: Mapping[str, Any], found: Found, result: dict[str, Any], guard: float, formulas: Mapping[str, Any]
) -> dict[str, Any]:
    if guard and found.u is None:
        result["reasons"] = [{"code": "uncertainty_unknown"}]
        return result | {"verdict": "instrument_not_good_enough"}
    outcome = formulas["guarded_verdict"].evaluate(
        {
            "reading": found.reading,
            "expanded_uncertainty": result["expanded"] or 0,
            "lower": found.lower,
            "upper": found.upper,
            "guard": rule["guard"],
            "rule": RULES[rule["decision"]],
        }
    )
    if outcome.value is None:
        return result | {"reasons": [outcome.reason]}
    result["verdict"] = outcome.value
    if rule["strict"] and outcome.value in ("pass", "conditional_pass") and _at_limit(found):
        result["verdict"] = "conditional_fail" if rule["decision"] == "non_binary" else "fail"
    result["margin"] = _margin(found, result)
    result["probability"] = _probability(found, formulas)
    return result


def _crossed(found: Found) -> dict[str, Any]:
    return {"code": "lower_above_upper", "lower": found.lower, "upper": found.upper, "unit": found.unit}


def _coverage(nu: float | None, formulas: Mapping[str, Any]) -> float:
    """The factor of the expanded uncertainty: Student's t at the degrees of freedom (GUM G.6.4)."""
    if nu is None:
        return COVERAGE
    k: float | None = formulas["coverage_factor"].evaluate({"degrees_of_freedom": nu}).value
    return COVERAGE if k is None else k


def _accept(limit: float | None, times: float, found: Found) -> float | None:
    """The reading that is just accepted: the limit moved by so many standard uncertainties."""
    if limit is None or not times:
        return limit
    if found.uncertainty_at is not None:
        return _solve(limit, times, found.uncertainty_at)
    return None if found.u is None else finite(limit + times * found.u)


def _solve(limit: float, times: float, uncertainty_at: Callable[[float], float | None]) -> float | None:
    """y = limit + times * u(y), by secants: u is nearly a straight line, so that a few steps are exact."""
    before, u = limit, uncertainty_at(limit)
    if u is None:
        return None
    off_before = -times * u
    here = limit + times * u
    for _ in range(8):
        u = uncertainty_at(here)
        if u is None:
            return None
        off = here - limit - times * u
        if off == off_before or abs(off) <= 1e-15 * abs(limit):
            break
        before, here, off_before = here, here - off * (here - before) / (off - off_before), off
    return finite(here)


def _hopeless(result: Mapping[str, Any], found: Found) -> dict[str, Any] | None:
    """Why no reading at all could pass with this uncertainty, if so."""
    low, high = result["accept_lower"], result["accept_upper"]
    if found.lower is not None and found.upper is not None:
        if low is None or high is None or at_most(low, high):
            return None
        details = {"expanded": _wanting(result, found), "needed": (found.upper - found.lower) / 2}
        return {"code": "window_too_narrow", **details, "unit": found.unit}
    too_low = high is not None and found.least is not None and not at_most(found.least, high)
    too_high = low is not None and found.most is not None and not at_most(low, found.most)
    if not too_low and not too_high:
        return None
    return {"code": "no_reading_can_pass", "expanded": _wanting(result, found), "unit": found.unit}


def _wanting(result: Mapping[str, Any], found: Found) -> float | None:
    """The expanded uncertainty that is too large: at the reading, or else at the limit."""
    if result["expanded"] is not None and found.reading is not None:
        return result["expanded"]
    limit, accept = ("upper", "accept_upper") if found.upper is not None else ("lower", "accept_lower")
    return abs(result[accept] - result[limit])


def _at_limit(found: Found) -> bool:
    ends = [end for end in (found.lower, found.upper) if end is not None]
    return any(at_most(found.reading, end) and at_most(end, found.reading) for end in ends)  # type: ignore[arg-type]


def _margin(found: Found, result: Mapping[str, Any]) -> float | None:
    """Distance from the nearer acceptance limit, below zero outside."""
    rooms = []
    if result["accept_upper"] is not None:
        rooms.append(result["accept_upper"] - found.reading)
    if result["accept_lower"] is not None:
        rooms.append(found.reading - result["accept_lower"])
    return min(rooms) if rooms else None


def _probability(found: Found, formulas: Mapping[str, Any]) -> float | None:
    """How likely the true value conforms; None where no uncertainty is known."""
    if not found.u:
        return None
    values = {"reading": found.reading, "standard_uncertainty": found.u}
    values |= {"lower": found.lower, "upper": found.upper, "degrees_of_freedom": found.nu}
    return formulas["conformance_probability"].evaluate(values).value
