"""What is wrong in a procedure file, and where."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NoReturn

from checks.errors import CheckError


class ProcedureError(CheckError):
    """A procedure file is wrong at `place`; the sentence says what would be right."""

    code = "procedure_error"

    def __init__(self, file: str, place: str, problem: str) -> None:
        super().__init__(f"{file}, {place}: {problem}")
        self.file, self.place, self.problem = file, place, problem


@dataclass(frozen=True)
class Place:
    """A spot in a procedure file."""

    file: str
    where: str

    def inside(self, kind: str, name: str) -> Place:
        """The spot of a part within this one."""
        return Place(self.file, f"{self.where}, {kind} {name!r}" if self.where else f"{kind} {name!r}")

    def wrong(self, problem: str) -> NoReturn:
        """Raise the error for this spot."""
        raise ProcedureError(self.file, self.where or "procedure", problem)
