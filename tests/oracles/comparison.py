"""How far a formula lies from an independent library over a range: the largest deviation, and where."""

import math
import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from importlib.metadata import version

from checks.catalogue import FORMULAS

ROUNDING = 1e-11
"""Relative deviations below this are the rounding of floating-point numbers."""

SAME = "The same, in other words."

Point = Mapping[str, object]


@dataclass(frozen=True)
class Comparison:
    """One formula against one library: an independent statement of the same quantity.

    `expected` gives the library's value for a point in the unit of the formula. `bound` is what the tests
    hold: relative, or in the formula's unit where `absolute`.
    """

    formula: str
    library: str
    over: str
    points: tuple[Point, ...]
    expected: Callable[[Point], float]
    bound: float
    why: str
    absolute: bool = False

    @property
    def oracle(self) -> str:
        """The library with its version; a module of Python comes with whichever Python runs."""
        if self.library in sys.stdlib_module_names:
            return f"Python's {self.library}"
        return f"{self.library} {version(self.library)}"

    @cached_property
    def deviation(self) -> "Deviation":
        """What `measured` finds, computed once for the test and the page."""
        return measured(self)


@dataclass(frozen=True)
class Deviation:
    """The largest deviations over all points, each with its point; `relative` leaves out expected zeros."""

    absolute: float
    absolute_at: Point
    relative: float
    relative_at: Point


def measured(comparison: Comparison) -> Deviation:
    """Compute both at every point; AssertionError where the formula has no result."""
    formula = FORMULAS[comparison.formula]
    absolute, relative = [], []
    for place, point in enumerate(comparison.points):
        found = formula.evaluate(point)
        assert found.value is not None, f"{comparison.formula} has no result at {point}: {found.reason}"
        expected = comparison.expected(point)
        off = abs(found.value - expected)
        absolute.append((off, -place))
        if expected != 0:
            relative.append((off / abs(expected), -place))
    worst, at = max(absolute)
    worst_relative, relative_at = max(relative, default=(0.0, 0))
    points = comparison.points
    return Deviation(worst, points[-at], worst_relative, points[-relative_at])


def is_rounding(found: Deviation) -> bool:
    """Whether the two agree but for the last digits of floating-point numbers."""
    return found.relative < ROUNDING


def grid(start: float, stop: float, count: int) -> list[float]:
    """Evenly spaced numbers, both ends included."""
    return [round(start + (stop - start) * step / (count - 1), 10) for step in range(count)]


def powers(start: float, stop: float, count: int) -> list[float]:
    """Numbers whose logarithms are evenly spaced, both ends included, rounded to four digits."""
    slope = math.log10(stop / start) / (count - 1)
    return [float(f"{start * 10 ** (slope * step):.4g}") for step in range(count)]


def every(**values: Iterable[object]) -> tuple[Point, ...]:
    """All combinations of the values of the inputs."""
    points: list[dict[str, object]] = [{}]
    for name, listed in values.items():
        wanted = list(listed)
        points = [{**point, name: value} for point in points for value in wanted]
    return tuple(points)
