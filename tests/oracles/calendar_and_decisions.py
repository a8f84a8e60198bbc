"""Days and instants against dateutil and Python's datetime, uncertainty and limits against scipy."""

import itertools
import math
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

from dateutil.relativedelta import relativedelta
from scipy import optimize, stats
from uncertainties import ufloat

from tests.oracles.comparison import SAME, Comparison, every

EPOCH = date(1970, 1, 1)


def number(day):
    """A date as the formulas have it: whole days since 1970-01-01."""
    return (day - EPOCH).days


def day_of(point, name="start"):
    return EPOCH + timedelta(days=point[name])


ENDS = [
    number(date.fromisoformat(one))
    for one in ("1969-12-31", "2000-02-29", "2023-08-31", "2024-01-31", "2026-11-28", "2099-12-31")
]


def used_up(point):
    """The last day on which not more than the life has been used, walked to day by day."""
    life, used, rate = (Fraction(str(point[name])) for name in ("life", "used", "per_day"))
    walked = itertools.takewhile(lambda days: used + days * rate <= life, itertools.count())
    return point["start"] + max(walked)


def minutes_between(point):
    epoch = datetime(1970, 1, 1, tzinfo=UTC)
    first, last = (epoch + timedelta(milliseconds=point[name]) for name in ("start", "end"))
    return (last - first) / timedelta(minutes=1)


def just_accepted(point):
    """The reading whose own expanded uncertainty, of a rectangular accuracy, just reaches the limit."""
    sign = 1 if point["side"] == "upper" else -1

    def beyond(reading):
        half = point["accuracy_of_reading"] * reading + point["accuracy_absolute"]
        spread = stats.uniform(-half, 2 * half).std() if half else 0.0
        return reading + sign * 2 * spread - point["limit"]

    return optimize.brentq(beyond, 0, 3 * point["limit"] + 10, xtol=1e-14)


def balance_band(point):
    """Twice the standard deviation of the balance, from the three flows with their own."""
    feed, permeate, concentrate = (
        ufloat(point[f"{name}_flow"], point[f"{name}_uncertainty"])
        for name in ("feed", "permeate", "concentrate")
    )
    return max(2 * ((feed - permeate - concentrate) / feed).std_dev, point["least"])


def specified(point):
    """The parts as independent errors: two rectangular ones and the calibration's normal one."""
    half = point["accuracy_of_reading"] * abs(point["reading"]) + point["digits"] * point["resolution"]
    parts = [stats.uniform(-half, 2 * half), stats.uniform(0, point["resolution"])]
    parts.append(stats.norm(0, point["calibration_uncertainty"] / 2))
    return math.hypot(*(part.std() for part in parts))


COMPARISONS = [
    Comparison(
        "date_after",
        "python-dateutil",
        "six days from 1969 to 2099, 0 to 800.9 days later",
        every(start=ENDS, days=[0, 0.9, 1, 60, 365, 800.9]),
        lambda point: number(day_of(point) + relativedelta(days=int(point["days"]))),
        0,
        SAME,
    ),
    Comparison(
        "date_after_months",
        "python-dateutil",
        "six days from 1969 to 2099, 0 to 1199 months later",
        every(start=ENDS, months=[0, 1, 6, 12, 13, 48, 1199]),
        lambda point: number(day_of(point) + relativedelta(months=point["months"])),
        0,
        SAME,
    ),
    Comparison(
        "date_after_use",
        "fractions",
        "a lamp and a cartridge, new to nearly used up",
        (
            {"start": ENDS[4], "life": 9000, "used": 0, "per_day": 24},
            {"start": ENDS[4], "life": 9000, "used": 8999.9, "per_day": 24},
            {"start": ENDS[2], "life": 9000, "used": 2310, "per_day": 24.06},
            {"start": ENDS[1], "life": 0.3, "used": 0.0, "per_day": 0.1},
        ),
        used_up,
        0,
        SAME,
    ),
    Comparison(
        "earliest_date",
        "datetime",
        "two to eight dates in any order",
        (
            {"first": ENDS[3], "second": ENDS[1]},
            {"second": ENDS[5], "eighth": ENDS[4]},
            dict(zip(("first", "third", "fourth", "fifth", "sixth", "seventh"), ENDS[::-1], strict=True)),
        ),
        lambda point: number(min(day_of(point, name) for name in point)),
        0,
        SAME,
    ),
    Comparison(
        "elapsed_minutes",
        "datetime",
        "a second to a year, also backwards, over a leap day",
        every(start=[1709164799000, 1709251200000], end=[1709164800000, 1709251199999, 1740787200000]),
        minutes_between,
        1e-8,
        "Ours turns each instant into minutes before it subtracts: less than a microsecond.",
        absolute=True,
    ),
    Comparison(
        "acceptance_limit",
        "scipy",
        "limits 0.1 to 10, either side, accuracy 0 to 5 % and 0 to 0.02",
        every(
            limit=[0.1, 3.6, 10],
            side=["upper", "lower"],
            accuracy_of_reading=[0, 0.01, 0.05],
            accuracy_absolute=[0, 0.02],
        ),
        just_accepted,
        1e-12,
        "There the reading is searched for, with the spread of a rectangular distribution.",
    ),
    Comparison(
        "flow_balance_band",
        "uncertainties",
        "closed and leaking balances, uncertainties 0.01 to 5 %",
        every(
            feed_flow=[120],
            permeate_flow=[36, 20],
            concentrate_flow=[84],
            feed_uncertainty=[0.01, 3.6, 6],
            permeate_uncertainty=[1.08],
            concentrate_uncertainty=[0.5, 4.2],
            least=[0.02, 0.1],
        ),
        balance_band,
        1e-12,
        SAME,
    ),
    Comparison(
        "standard_uncertainty",
        "scipy",
        "reading -4 to 400, accuracy 0 to 2 % and 0 to 3 digits, calibration 0 and 0.2",
        every(
            reading=[-4, 0, 7.5, 400],
            accuracy_of_reading=[0.005, 0.02],
            digits=[0, 3],
            resolution=[0.01, 1],
            calibration_uncertainty=[0.0001, 0.2],
        ),
        specified,
        1e-12,
        SAME,
    ),
]
