"""Entry events: each is kept once, whatever the order and however often it comes."""

import json
from typing import Any

from webapp.receiving.known import Known, event_id, ids_of
from webapp.signing.canonical import NotCanonical, canonical, digest
from webapp.signing.shapes import EVENT, wrong_places
from webapp.store import NewEvent, Person, Store

LARGEST = 64 * 1024


# Refused, and quarantined all the same: somebody has to look at them.
KEPT_APART = frozenset({"id_taken", "device_revoked", "account_disabled", "altered"})


class NotTaken(Exception):  # noqa: N818 - an answer, not a failure
    """Why one event was refused."""

    def __init__(self, code: str, detail: str):
        super().__init__(detail)
        self.code = code


def receive_events(store: Store, events: list[Any], person: Person) -> dict[str, list[dict[str, Any]]]:
    """Keep what can be kept, in one transaction.

    The answer is ``{received: [{id, sha256}], refused: [{id, code, detail}]}``.
    """
    received, refused = [], []
    new: list[NewEvent] = []
    with store.transaction():
        known = Known(store, ids_of(events))
        for event in events:
            try:
                received.append({"id": event_id(event), "sha256": take(known, event, person, new)})
            except NotTaken as error:
                if error.code in KEPT_APART:
                    put_aside(store, event, person, error)
                refused.append({"id": event_id(event), "code": error.code, "detail": str(error)})
        store.events.add(new)
    return {"received": received, "refused": refused}


def take(known: Known, event: dict[str, Any], person: Person, new: list[NewEvent]) -> str:
    """The hash of the event as stored, or :class:`NotTaken`; one that is new is added to ``new``."""
    text = checked(event)
    sha256 = digest(text)
    if event["by"] != person.id:
        raise NotTaken("not_yours", "This entry was made by somebody else, who has to sign in to send it.")
    visit = known.visit(event["visit"])
    if visit is None:
        raise NotTaken("visit_unknown", "The visit has not arrived yet. It is sent first, then its entries.")
    # Before the device is asked: what was acknowledged once stays so, also after the phone was revoked.
    kept = known.hashes.get(event["id"])
    if kept is None:
        check_device(known, event["device"], person.id)
        if not person.active:
            raise NotTaken("account_disabled", f"The account of {person.name} is disabled. It is kept apart.")
        known.hashes[event["id"]] = sha256
        new.append(NewEvent(event, text, sha256, late=not visit.is_open))
    elif kept != sha256:
        raise NotTaken("id_taken", "Another entry with the same id was received before.")
    return sha256


def checked(event: Any) -> bytes:
    """The canonical text of an event that has the right shape and size."""
    for place, what in wrong_places(EVENT, event):
        raise NotTaken("shape", f"{place or 'The entry'} {what}.")
    try:
        text = canonical(event)
    except NotCanonical as error:
        raise NotTaken("not_canonical", str(error)) from error
    if len(text) > LARGEST:
        raise NotTaken("too_large", f"An entry may have {LARGEST} bytes; this one has {len(text)}.")
    return text


def check_device(known: Known, thumbprint: str, person: str) -> None:
    device = known.device(thumbprint)
    if device is None or device.person != person:
        detail = "The phone that made this entry is not prepared for you. Prepare it, then send again."
        raise NotTaken("device_unknown", detail)
    if device.revoked_at is not None:
        detail = "This phone was revoked. The entry is kept apart; speak to your supervisor."
        raise NotTaken("device_revoked", detail)


def put_aside(store: Store, event: dict[str, Any], person: Person, error: NotTaken) -> None:
    visit = store.visits.find(event["visit"])
    store.quarantine.keep(
        "event",
        json.dumps(event, sort_keys=True),
        person.id,
        [{"code": error.code, "detail": str(error), "field": event["field"]}],
        visit=event["visit"],
        unit=visit.unit if visit else None,
    )
