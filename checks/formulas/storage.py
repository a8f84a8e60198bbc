"""A tank's overflow, a flow timed by hand, how much of a solution makes a dose, and when wear is used up."""

from __future__ import annotations

import sympy

from checks.expressions import completed
from checks.formula import ANY, Input, Refusal, Source, formula
from checks.formulas.dates import date_input
from checks.source import practice

ORIFICE = Source(
    "F. White, Fluid Mechanics", "7th edition", "free discharge of an orifice, coefficient 0.6", "from memory"
)
STRENGTH = Input("g/L", "active agent in the solution", above=0, maximum=2000, symbol="s")
TREATED = Input("L", "volume to be treated", above=0, maximum=1e6, symbol="V")


@formula(
    result_unit="L/min",
    source=ORIFICE,
    symbol="Q",
    bore=Input("mm", "inner diameter of the overflow", above=0, maximum=1000, symbol="D"),
    head=Input("mm", "water above the axis of the overflow", minimum=0, maximum=10000, symbol="h"),
)
def overflow_capacity(bore, head):
    """Flow that an overflow in the wall of a tank passes under a head of water.

    Free outlet, bore covered: the head is at least half the bore. A trap, a screen or a long line
    takes some of it.
    """
    gravity = sympy.Float("9.80665")
    speed = sympy.sqrt(2 * gravity * head / 1000)
    return sympy.Float("0.6") * sympy.pi / 4 * (bore / 1000) ** 2 * speed * 60000


@formula(
    result_unit="L/min",
    source=practice("a vessel is filled and timed"),
    symbol="Q",
    volume=Input("L", "volume caught", minimum=0, symbol="V"),
    time=Input("s", "time it took", above=0, symbol="t"),
)
def timed_flow(volume, time):
    """Flow from a volume caught in a time.

    Half a minute or more keeps the hand's error small. Exact by definition.
    """
    return volume / time * 60


@formula(
    result_unit="mL",
    source=practice("dose times volume, by the strength of the solution"),
    symbol="v",
    dose=Input("mg/L", "dose wanted", minimum=0, maximum=1e5, symbol="C"),
    volume=TREATED,
    strength=STRENGTH,
)
def solution_volume(dose, volume, strength):
    """Volume of a disinfecting solution that gives a dose.

    Take the measured or dated strength: hypochlorite fades within months. What is poured in adds nothing
    to the volume treated. Exact by definition.
    """
    return dose * volume / strength


@formula(
    result_unit="mg/L",
    source=practice("strength times what was added, by the volume treated"),
    symbol="C",
    added=Input("mL", "volume of the solution added", minimum=0, maximum=1e6, symbol="v"),
    strength=STRENGTH,
    volume=TREATED,
)
def solution_dose(added, strength, volume):
    """Dose that a volume of disinfecting solution gives, before anything uses it up. Exact by definition."""
    return added * strength / volume


@formula(
    result_unit="date",
    source=practice("what is left of a life, by what is used in a day"),
    refusals=(Refusal("life_used_up", lambda life, used: used > life),),
    start=date_input("date of the reading", "D"),
    life=Input(ANY, "life, in hours or litres", minimum=0, symbol="L"),
    used=Input(ANY, "used so far", minimum=0, symbol="u"),
    per_day=Input(ANY, "use in a day", above=0, symbol="q"),
)
def date_after_use(start, life, used, per_day):
    """The date on which a part that wears while it runs has used up its life.

    At the same use every day; a part of a day does not count. Whatever ages while it stands still has a
    date of its own.
    """
    return start + completed((life - used) / per_day)
