# ruff: noqa: N818 - the names say what is wrong, and the base class says that it is an error
"""What can go wrong in `checks`, as one tree.

    CheckError
      DeclarationError     a formula, table or source was declared wrongly; raised at import
      UnknownFormula       no formula has this name
      InputError           an input cannot be used; `input` names it
        UnknownInput       the formula has no such input
        MissingInput       an input without a default was not given
        NotANumber         the value is not a finite number
        NotWhole           something counted was not given as a whole number
        TooFewReadings     the series is too short for this formula
        NotInTable         the source tabulates no such value
        UnknownChoice      the word is not one of the choices
        WrongUnit          the unit is unknown or measures something else
        OutsideRange       the formula does not hold there
      NoResult             the inputs are fine, and the answer does not exist

Each class has a stable `code`; the parts of the sentence are attributes.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


class CheckError(Exception):
    """Anything that `checks` refuses; `str()` is one sentence that says what to do."""

    code = "check_error"


class DeclarationError(CheckError):
    """A formula, table or source that cannot be right as it is written."""

    code = "declaration_error"


class UnknownFormula(CheckError):
    """No formula has this name; the sentence offers near ones."""

    code = "unknown_formula"

    def __init__(self, name: str, known: Iterable[str]) -> None:
        self.name = name
        self.near = get_close_matches(name, list(known), n=3)
        super().__init__(name)

    def __str__(self) -> str:
        hint = f" Did you mean {' or '.join(self.near)}?" if self.near else ""
        return f"There is no formula named {self.name!r}.{hint}"


class InputError(CheckError):
    """An input of a formula that cannot be used."""

    code = "input_error"

    def __init__(self, input: str, **details: object) -> None:  # noqa: A002 - the word of the contract
        self.input = input
        self.details = details
        super().__init__(input)


class UnknownInput(InputError):
    """The formula has no input of that name."""

    code = "unknown_input"

    def __str__(self) -> str:
        names = ", ".join(self.details["inputs"])  # type: ignore[arg-type]
        return f"There is no input named {self.input!r}. The inputs are: {names}."


class MissingInput(InputError):
    """An input without a default was not given."""

    code = "missing_input"

    def __str__(self) -> str:
        return f"Give a value for {self.input}{_in_brackets(self.details.get('meaning'))}."


class NotANumber(InputError):
    """The value is not a finite number."""

    code = "not_a_number"

    def __str__(self) -> str:
        return f"{self.input} must be a number, like 6.5; it was {self.details.get('value')!r}."


class NotWhole(InputError):
    """Something that is counted was not given as a whole number."""

    code = "not_whole"

    def __str__(self) -> str:
        return f"{self.input} is counted, so give a whole number; it was {_plain(self.details['value'])}."


class TooFewReadings(InputError):
    """The series is too short for this formula."""

    code = "too_few_readings"

    def __str__(self) -> str:
        least, present = self.details["minimum"], self.details["count"]
        return f"{self.input} needs at least {least} readings; there are {present}."


class NotInTable(InputError):
    """The source tabulates no such value, and nothing is interpolated."""

    code = "not_in_table"

    def __str__(self) -> str:
        options = ", ".join(_plain(option) for option in self.details["options"])  # type: ignore[attr-defined]
        return f"{self.input} cannot be {_plain(self.details['value'])}. The table has: {options}."


class UnknownChoice(InputError):
    """The word is not one of the choices."""

    code = "unknown_choice"

    def __str__(self) -> str:
        options = ", ".join(self.details["options"])  # type: ignore[arg-type]
        return f"{self.input} cannot be {self.details['value']!r}. Choose one of: {options}."


class WrongUnit(InputError):
    """The unit is unknown, or it measures something else."""

    code = "wrong_unit"

    def __str__(self) -> str:
        return f"{self.input} is given in {self.details['unit']}; give it in {self.details['wanted']}."


class OutsideRange(InputError):
    """The formula does not hold for this value."""

    code = "outside_range"

    def __str__(self) -> str:
        unit = self.details.get("unit")
        unit = f" {unit}" if unit and unit != "1" else ""
        return (
            f"{self.input} is {_plain(self.details['value'])}{unit}; the formula holds "
            f"{self._range()}{unit}. Check the value and its unit."
        )

    def _range(self) -> str:
        low, high = self.details["minimum"], self.details["maximum"]
        first = f"{'above' if self.details.get('above') else 'from'} {_plain(low)}"
        second = f"{'below' if self.details.get('below') else 'up to'} {_plain(high)}"
        return f"{first} {second}"


class NoResult(CheckError):
    """The inputs are fine, and the answer does not exist; `code` says why."""

    def __init__(self, code: str, sentence: str) -> None:
        self.code = code
        self.sentence = sentence
        super().__init__(sentence)


def _plain(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _in_brackets(text: object) -> str:
    return f" ({text})" if text else ""
