"""What a sender is told, and what all receiving shares."""

from dataclasses import dataclass, field
from typing import Any

from webapp.signing import Finding, Verification
from webapp.signing.canonical import digest
from webapp.store import Device, Person, Store

CLOCK_TOLERANCE = 300  # seconds by which a phone's clock may be ahead without remark


@dataclass(frozen=True)
class Answer:
    """``sha256`` is the identity of what was sent. ``state`` is that of the record, or quarantined."""

    sha256: str
    state: str
    reasons: list[dict[str, Any]] = field(default_factory=list)

    def as_json(self) -> dict[str, Any]:
        return {"sha256": self.sha256, "state": self.state, "reasons": self.reasons}


def quarantine(
    store: Store, kind: str, text: str, person: Person, result: Verification, visit: str | None = None
) -> Answer:
    """Keep a signed document that cannot be accepted, and show it to the supervisor."""
    reasons = [finding.as_json() for finding in result.findings]
    known = store.visits.find(visit) if visit else None
    with store.transaction():
        item = store.quarantine.keep(
            kind,
            text,
            person.id,
            reasons,
            visit=known.id if known else None,
            unit=known.unit if known else None,
        )
        codes = [finding.code for finding in result.findings]
        store.audit.add(f"{kind}_quarantined", person=person.id, subject=str(item.id), codes=codes)
        if known:
            store.listing.refresh(known.id, known.unit)
    return Answer(result.sha256 or digest(text.encode()), "quarantined", reasons)


def note(code: str, detail: str, **more: Any) -> dict[str, Any]:
    """Something that a supervisor should know and that does not keep a record out."""
    return {"code": code, "detail": detail, **more}


def finding_of(code: str, detail: str, place: str | None = None) -> list[Finding]:
    return [Finding(code, detail, place)]


def revoked(known: Device | None) -> list[Finding]:
    """Asked once more where nothing else is written meanwhile: it may have been revoked since verifying."""
    if known is not None and known.revoked_at is None:
        return []
    return finding_of("device_revoked", "The phone that signed this was revoked.", "kid")
