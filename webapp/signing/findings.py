"""What a verification found."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from webapp.signing.judged_again import Judged


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong: a stable code, a sentence, and the place in the document."""

    code: str
    detail: str
    field: str | None = None

    def as_json(self) -> dict[str, str]:
        members = {"code": self.code, "detail": self.detail}
        return members if self.field is None else members | {"field": self.field}


@dataclass(frozen=True)
class Verification:
    """The result for one signed document: valid if nothing was found.

    ``sha256`` is the document's identity, the hash of its payload; it and ``content`` are None when the text
    could not be read that far. ``judged`` is what judging again gave, None where that was not reached.
    """

    findings: tuple[Finding, ...]
    sha256: str | None = None
    content: dict[str, Any] | None = None
    device: str | None = None
    judged: "Judged | None" = None

    @property
    def valid(self) -> bool:
        return not self.findings

    def also(self, findings: list[Finding]) -> "Verification":
        """The same with more findings."""
        return self if not findings else replace(self, findings=(*self.findings, *findings))
