"""What a formula takes: numbers with a unit and a range, words, series of readings.

The reading of one value (`Input.read` and its kin) has its twin in `static/judging/nodes.js`:
the same value is refused for the same reason on both sides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import sympy

from checks.errors import DeclarationError
from checks.expressions import ChoiceSymbol, OptionalSymbol
from checks.nodes import SLACK
from checks.units import scale

ANY = "any"
LARGEST = 1e15
SMALLEST = 1e-30
"""No quantity of ours lies closer to zero without being zero."""

NUMBERS = (float, int)

Reason = dict[str, Any]


@dataclass(frozen=True)
class Input:
    """A number. `minimum` and `maximum` belong to the range, `above` and `below` do not.

    `unit` is a Pint unit, "1" for a plain number, or ANY: all inputs declared with ANY are
    given in one unit of the caller's choice. `symbol` is how the source writes it. `optional`
    inputs may be left out (`given(...)` tells), `counted` ones are whole numbers, `exact` ones are
    agreed and not measured, `among` names the only values there are; these three have no
    uncertainty.
    """

    unit: str
    meaning: str
    minimum: float | None = None
    maximum: float | None = None
    above: float | None = None
    below: float | None = None
    default: float | None = None
    symbol: str | None = None
    optional: bool = False
    counted: bool = False
    exact: bool = False
    infinite: bool = False
    among: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        if not self.meaning.strip():
            raise DeclarationError("An input needs its meaning in words.")
        if self.unit != ANY:
            try:
                scale(self.unit)
            except KeyError as error:
                raise DeclarationError(f"{self.unit!r} is no unit the registry knows.") from error

    @property
    def uncertain(self) -> bool:
        """Whether a value of this input can carry an uncertainty."""
        return not (self.counted or self.exact or self.among)

    @property
    def lowest(self) -> float | None:
        """The lower end of the range, whether it belongs to it or not."""
        return self.above if self.minimum is None else self.minimum

    @property
    def highest(self) -> float | None:
        """The upper end of the range, whether it belongs to it or not."""
        return self.below if self.maximum is None else self.maximum

    def make_symbol(self, name: str) -> sympy.Symbol:
        """The SymPy symbol that the formula's function is called with."""
        return OptionalSymbol(name) if self.optional else sympy.Symbol(name, real=True)

    @cached_property
    def _usual(self) -> tuple[float, float]:
        """Between these two, the ends included, a number can be used as it is; none if they are crossed."""
        if self.counted or self.among is not None:
            return math.inf, -math.inf
        low, high = -LARGEST, LARGEST
        if self.minimum is not None:
            low = max(low, self.minimum - SLACK * max(1.0, abs(self.minimum)))
        if self.maximum is not None:
            high = min(high, self.maximum + SLACK * max(1.0, abs(self.maximum)))
        if self.above is not None:
            low = max(low, math.nextafter(self.above, math.inf))
        if self.below is not None:
            high = min(high, math.nextafter(self.below, -math.inf))
        return low, high

    def read(self, name: str, value: Any) -> tuple[Any, Reason | None]:
        """The number to compute with, or why it cannot be used."""
        if type(value) in NUMBERS:  # most are in the range, and this is asked thousands of times for a record
            low, high = self._usual
            if low <= value <= high and (value == 0 or not -SMALLEST < value < SMALLEST):
                return value + 0.0, None  # a float, and never -0.0
        if value is None:
            if self.default is not None:
                return self.default, None
            return (0.0, None) if self.optional else (None, {"code": "missing_input", "input": name})
        if self.infinite and value in ("inf", math.inf):
            return math.inf, None
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            return None, {"code": "not_a_number", "input": name, "value": value}
        if self.counted and value != math.floor(value):
            return None, {"code": "not_whole", "input": name, "value": value}
        number = 0.0 if abs(value) < SMALLEST else float(value)
        return number, self._outside(name, number)

    def _outside(self, name: str, value: float) -> Reason | None:
        if self.among is not None:
            if any(abs(value - known) <= SLACK * abs(known) for known in self.among):
                return None
            return {"code": "not_in_table", "input": name, "value": value, "options": list(self.among)}
        if self._inside(value):
            return None
        reason: Reason = {"code": "outside_range", "input": name, "value": value}
        reason["minimum"] = -LARGEST if self.lowest is None else self.lowest
        reason["maximum"] = LARGEST if self.highest is None else self.highest
        if self.above is not None:
            reason["above"] = True
        if self.below is not None:
            reason["below"] = True
        return reason

    def _inside(self, value: float) -> bool:
        """Ends that belong to the range have a slack of 1e-9: 212 degF is 100 degC."""
        if abs(value) > LARGEST:
            return False
        if self.above is not None and value <= self.above:
            return False
        if self.below is not None and value >= self.below:
            return False
        low, high = self.minimum, self.maximum
        return (low is None or value >= low - SLACK * max(1.0, abs(low))) and (
            high is None or value <= high + SLACK * max(1.0, abs(high))
        )


@dataclass(frozen=True)
class Series(Input):
    """Several readings of one quantity, oldest first; at least `at_least` of them.

    `repeats` says that they are repeats of one and the same thing, of which their mean is taken: then their
    scatter tells how uncertain that mean is. Never for readings that drift.
    """

    at_least: int = 1
    repeats: bool = False

    def read(self, name: str, value: Any) -> tuple[Any, Reason | None]:
        """The list to compute with, or why it cannot be used."""
        if value is None:
            return None, {"code": "missing_input", "input": name}
        if not isinstance(value, list | tuple):
            return None, {"code": "not_a_number", "input": name, "value": value}
        if len(value) < self.at_least:
            return None, {
                "code": "too_few_readings",
                "input": name,
                "count": len(value),
                "minimum": self.at_least,
            }
        numbers = []
        for one in value:
            number, reason = super().read(name, one)
            if reason is not None:
                return None, reason
            numbers.append(number)
        return numbers, None


@dataclass(frozen=True)
class Choice:
    """One of several words; inside the expression its place in the list stands for it."""

    options: dict[str, str]
    meaning: str
    default: str | None = None
    symbol: str | None = None

    def __post_init__(self) -> None:
        if self.default is not None and self.default not in self.options:
            raise DeclarationError(f"The default {self.default!r} is not among the options.")

    def make_symbol(self, name: str) -> ChoiceSymbol:
        """The SymPy symbol that `pick` takes."""
        return ChoiceSymbol(name, tuple(self.options))

    def read(self, name: str, value: Any) -> tuple[Any, Reason | None]:
        """The code of the word, or why it cannot be used."""
        if value is None:
            value = self.default
        if value is None:
            return None, {"code": "missing_input", "input": name}
        word = value if isinstance(value, str) else _word(value)
        if word not in self.options:
            options = list(self.options)
            return None, {"code": "unknown_choice", "input": name, "value": value, "options": options}
        return self._codes[word], None

    @cached_property
    def _codes(self) -> dict[str, int]:
        return {word: code for code, word in enumerate(self.options)}


def _word(value: Any) -> str:
    """A number given where a word is expected: 1.0 chooses the option "1"."""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)


AnyInput = Input | Choice
