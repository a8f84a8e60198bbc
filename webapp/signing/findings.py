"""What a verification found."""

from dataclasses import dataclass
from typing import Any


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
    could not be read that far.
    """

    findings: tuple[Finding, ...]
    sha256: str | None = None
    content: dict[str, Any] | None = None
    device: str | None = None

    @property
    def valid(self) -> bool:
        return not self.findings

    def also(self, findings: list[Finding]) -> "Verification":
        """The same with more findings."""
        return Verification((*self.findings, *findings), self.sha256, self.content, self.device)
