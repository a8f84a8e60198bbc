"""Where a number comes from: nothing in `checks` can be declared without it."""

from __future__ import annotations

from dataclasses import dataclass

from checks.errors import DeclarationError

SEEN = "seen"
FROM_MEMORY = "from memory"
COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Source:
    """A published work and how we know what it says.

    `seen` is "seen" (read in the work or in a page that reproduces it), "from memory",
    or "common practice, no source" for a rule of thumb. A blank part is refused.
    """

    work: str
    edition: str
    place: str
    seen: str

    def __post_init__(self) -> None:
        for part in ("work", "edition", "place"):
            if not str(getattr(self, part)).strip():
                raise DeclarationError(f"A source needs its {part}; write where the number comes from.")
        if self.seen not in (SEEN, FROM_MEMORY, COMMON_PRACTICE):
            raise DeclarationError(
                f"A source says how we know it: {SEEN!r}, {FROM_MEMORY!r} or {COMMON_PRACTICE!r}, "
                f"not {self.seen!r}."
            )

    def __str__(self) -> str:
        return f"{self.work}, {self.edition}, {self.place} ({self.seen})"


def practice(place: str) -> Source:
    """A rule of thumb of the trade; `place` says which one."""
    return Source("Common practice", "no edition", place, COMMON_PRACTICE)
