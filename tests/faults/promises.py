"""What must hold after whatever happened; each promise is a function that gives the sentences it breaks."""

import random
from collections.abc import Iterable, Iterator

from checks.fold import fold
from tests.faults.handset import Handset, canonical
from tests.phone import PROCEDURE, sha256
from webapp.commands.documents import from_store
from webapp.commands.verdicts import verify_all
from webapp.signing import jws
from webapp.signing.verify import authors
from webapp.store import Record, Store


def broken_promises(store: Store, handsets: Iterable[Handset]) -> list[str]:
    handsets = list(handsets)
    found = [text for handset in handsets for text in (*lost(store, handset), *unknown_fate(handset))]
    return [*found, *invented(store, handsets), *forbidden(store), *order_matters(store), *damaged(store)]


def lost(store: Store, handset: Handset) -> Iterator[str]:
    """Whatever was acknowledged is there, byte for byte."""
    for key, held in handset.held.visits.items():
        if held.state == "received" and store.visits.find(key) is None:
            yield f"visit {key} was acknowledged and is not there"
    for key, held in handset.held.events.items():
        kept = store.events.find(key) if held.state == "received" else None
        if held.state == "received" and (kept is None or kept.json.encode() != canonical(held.content)):
            yield f"entry {key} was acknowledged and is not there as it was"
        if held.answer in ("device_revoked", "id_taken") and not put_aside(store, key):
            yield f"entry {key} was to be kept apart and is not there"
    for key, held in handset.held.photos.items():
        if held.state == "received" and store.photos.read_bytes(key) != held.content:
            yield f"photo {key} was acknowledged and is not there"
    apart = {jws.read(one.document).payload for one in store.quarantine.all() if one.kind == "record"}
    for key, held in handset.held.records.items():
        if held.state == "received" and canonical(held.content) not in apart | signed_bytes(store, key):
            yield f"record {key} was acknowledged as {held.answer['state']} and is not there"


def put_aside(store: Store, event: str) -> bool:
    return any(one.kind == "event" and event in one.document for one in store.quarantine.all())


def signed_bytes(store: Store, record: str) -> set[bytes]:
    found = store.records.find(record)
    return {jws.read(found.jws).payload} if found else set()


def unknown_fate(handset: Handset) -> Iterator[str]:
    """What was not acknowledged is still on the phone, to be sent again or shown with its reason."""
    for held in handset.held.everything():
        if held.state not in {"waiting", "received", "refused"} or held.content is None:
            yield f"{held} is neither on the phone nor on the server"


def invented(store: Store, handsets: list[Handset]) -> Iterator[str]:
    """Nothing is on the server that no phone made."""
    made = {key for one in handsets for key in one.held.events}
    signed = {key for one in handsets for key in one.held.records}
    for event in store.events.select(order="id"):
        if event.id not in made:
            yield f"entry {event.id} was never made"
    for record in store.records.all():
        if record.sha256 not in signed:
            yield f"record {record.sha256} was never signed"


def forbidden(store: Store) -> Iterator[str]:
    """What the rules do not allow was not accepted."""
    devices = {one.thumbprint: one for one in store.devices.all()}
    for event in store.events.select(order="id"):
        device = devices[event.device]
        if device.person != event.person or (device.revoked_at or "9") < event.received_at:
            yield f"entry {event.id} came from a phone that was not its author's"
    for visit in store.visits.all():
        yield from wrong_row(store.records.of_visit(visit.id)[::-1])
    for record in store.records.all():
        device = devices[record.device]
        if device.person != record.person or (device.revoked_at or "9") < record.received_at:
            yield f"record {record.sha256} was signed by a phone that was not the signer's"
        for decision in record.decisions:
            if decision.person in authors(record.content()):
                yield f"record {record.sha256} was decided by one of its authors"


def wrong_row(records: list[Record]) -> Iterator[str]:
    """The records of a visit: each but the last was returned, and the next one names it."""
    for before, after in zip([None, *records], records, strict=False):
        if after.corrects != (before.sha256 if before else None):
            yield f"record {after.sha256} does not name the one before it"
        if before and (not before.decisions or before.decisions[-1].decision != "returned"):
            yield f"record {after.sha256} stands beside {before.sha256}, which was not returned"


def order_matters(store: Store) -> Iterator[str]:
    """The state that the entries give is the same in whatever order they came."""
    for visit in store.visits.all():
        events = [one.content() for one in store.events.of_visit(visit.id)]
        folded = fold(PROCEDURE, events)
        for seed in range(2):
            random.Random(seed).shuffle(events)
            if sha256(fold(PROCEDURE, [*events, *events[:3]])) != sha256(folded):
                yield f"the entries of visit {visit.id} give another state in another order"


def damaged(store: Store) -> list[str]:
    """Database, hashes, audit trail, signatures, chains and verdicts, as `firstwater check` finds them."""
    findings = [
        f"{one.place}: {finding.detail}" for one in verify_all(from_store(store)) for finding in one.findings
    ]
    return [*store.check(), *findings]
