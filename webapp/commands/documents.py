"""Signed documents and what is needed to verify them, whatever they were gathered from."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from checks import procedure as procedures
from webapp.signing import Key, jws
from webapp.store import Confirmation, Store
from webapp.store.copies import Copy

BUNDLE = "firstwater-bundle"
UNSENT = "firstwater-unsent"
TRAIL = "firstwater-audit"


@dataclass(frozen=True)
class Signed:
    """A JWS as it stands in a file, and when the server received it, if the file says so.

    ``has_photos``: the photos that it names stand beside it, but for those in ``Documents.elsewhere``.
    """

    text: str
    place: str
    received_at: str | None = None
    has_photos: bool = False


@dataclass(frozen=True)
class Trail:
    """The entries of an audit trail, the oldest first. ``is_beside``: it tells of the records given here."""

    place: str
    entries: list[dict[str, Any]]
    is_beside: bool = False


@dataclass(frozen=True)
class Confirmed:
    """How a passkey confirmed a document, with that passkey (docs/api.md, Bundle); it may be missing."""

    assertion: Mapping[str, Any]
    verified_at: str
    passkey: Mapping[str, Any] | None


@dataclass
class Documents:
    """`keys` map thumbprints to keys; the person of a key is "" where nothing says whose it is.

    `complete`: every accepted record of the units is there, so that a gap in a chain is a fault.
    `elsewhere`: hashes of photos that are rightly not here. `databases`: what is wrong with each, by place.
    """

    records: list[Signed] = field(default_factory=list)
    decisions: list[Signed] = field(default_factory=list)
    keys: dict[str, Key] = field(default_factory=dict)
    procedures: dict[str, Mapping[str, Any]] = field(default_factory=dict)
    photos: dict[str, bytes] = field(default_factory=dict)
    photo_files: list[Callable[[str], bytes | None]] = field(default_factory=list)
    elsewhere: set[str] = field(default_factory=set)
    confirmed: dict[str, Confirmed] = field(default_factory=dict)
    trails: list[Trail] = field(default_factory=list)
    databases: dict[str, list[str]] = field(default_factory=dict)
    complete: bool = False

    def photo(self, sha256: str) -> bytes | None:
        """Its bytes from the first file that has it, not yet compared with the hash."""
        if sha256 in self.photos:
            return self.photos[sha256]
        found = (find(sha256) for find in self.photo_files)
        return next((data for data in found if data is not None), None)

    def add_signed(self, signed: Signed) -> None:
        """By the `typ` of its header; what cannot be read is taken for a record, and found faulty as one."""
        try:
            is_decision = jws.read(signed.text).typ == jws.DECISION
        except jws.NotValid:
            is_decision = False
        (self.decisions if is_decision else self.records).append(signed)


def own_procedures() -> dict[str, Mapping[str, Any]]:
    """The procedures that this version of the program brings along, by hash."""
    return {procedures.own_hash(name): procedures.load(name) for name in procedures.names()}


def from_store(store: Store) -> Documents:
    """Every signed document in a store."""
    documents = Documents()
    add_kept(documents, store, store.passkeys.confirmations())
    return documents


def add_kept(
    documents: Documents,
    store: Store | Copy,
    confirmations: list[Confirmation],
    place: str = "",
    has_photos: bool = False,
) -> None:
    """What a store or a copy of it keeps, the oldest first."""
    for device in store.devices.all():
        documents.keys[device.thumbprint] = Key(device.jwk, device.person, device.revoked_at)
    for procedure in store.procedures.all():
        content = procedure.content()  # its hash is computed, not believed
        documents.procedures[procedures.procedure_hash(content)] = content
    for record in reversed(store.records.all()):
        signed = Signed(record.jws, f"{place}record {record.sha256}", record.received_at, has_photos)
        documents.records.append(signed)
    for decision in store.decisions.all():
        signed = Signed(decision.jws, f"{place}decision {decision.sha256}", decision.received_at)
        documents.decisions.append(signed)
    for one in confirmations:
        passkey = store.passkeys.find(one.passkey)
        known = asdict(passkey) if passkey else None
        documents.confirmed[one.document] = Confirmed(one.assertion, one.verified_at, known)
    documents.complete = True
