"""The audit trail as a chain: each entry holds the hash of the one before it.

Entries cut off at the end leave a whole, shorter chain: compare the hash of the last entry with a copy of it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from webapp.signing.canonical import NotCanonical, identity

FIRST = "0" * 64


@dataclass(frozen=True)
class Fault:
    """Where a trail is broken: ``place`` counts from 1, ``code`` is audit_changed or audit_missing."""

    place: int
    code: str
    detail: str


def hash_of(entry: Mapping[str, Any]) -> str:
    """What ``sha256`` of an entry has to be: the hash of everything else."""
    return identity({name: value for name, value in entry.items() if name != "sha256"})


def first_fault(entries: Iterable[Mapping[str, Any]]) -> Fault | None:
    """The first entry that was changed or that does not follow the one before it; None for a whole trail."""
    previous = FIRST
    for place, entry in enumerate(entries, start=1):
        sequence = entry.get("sequence")
        if sequence != place:
            detail = f"Entry {place} of the audit trail is missing: entry {sequence} stands in its place."
            return Fault(place, "audit_missing", detail)
        if not is_own(entry):
            return Fault(place, "audit_changed", f"Entry {place} of the audit trail was changed.")
        if entry["previous"] != previous:
            detail = f"Entry {place} of the audit trail does not follow: the one before it was exchanged."
            return Fault(place, "audit_changed", detail)
        previous = entry["sha256"]
    return None


def is_own(entry: Mapping[str, Any]) -> bool:
    """Whether the hash is that of this content."""
    try:
        return "previous" in entry and entry.get("sha256") == hash_of(entry)
    except NotCanonical:
        return False
