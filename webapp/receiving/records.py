"""A signed record: verified by itself, then against everything that the server knows."""

import logging
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain
from typing import Any

from webapp.passkeys import Place
from webapp.receiving.answer import Answer, finding_of, quarantine, revoked
from webapp.receiving.confirmation import keep_confirmation, unconfirmed
from webapp.receiving.examined import EventText, Examined, Examining, KnownProcedures, examine_each
from webapp.receiving.known import Known, ids_of
from webapp.receiving.remarks import formulas_remarks, remarks
from webapp.signing import Finding
from webapp.signing import chain as chain_of_unit
from webapp.signing.judged_again import Judged, listed
from webapp.store import NewEvent, Person, Quarantined, Record, Store, Unavailable, Visit
from webapp.store.table import written

log = logging.getLogger(__name__)

FIELDS_OF_A_VISIT = ("kind", "procedure")


class NotExaminedError(Exception):
    """Looking at a record failed, which is a fault of the server."""


@dataclass(frozen=True)
class Sent:
    """The JWS of a record; ``assertion`` is the passkey's confirmation, None where the password was asked."""

    text: str
    assertion: dict[str, Any] | None = None


def receive_record(
    store: Store,
    text: str,
    person: Person,
    assertion: dict[str, Any] | None = None,
    place: Place | None = None,
    examining: Examining | None = None,
) -> Answer:
    """Keep the JWS of a record, or quarantine it; the same record again gives the same answer.

    The identity is the hash of the payload: another signature over the same content is the same record.
    ``assertion`` is the passkey's confirmation for ``place``; ``examining`` as in :func:`receive_records`.
    """
    (examined,) = chain(*(examining or examining_here(store))([text], written(store.clock())))
    if examined is None:
        raise NotExaminedError
    with store.transaction():
        return settle(Known(store), examined, Sent(text, assertion), person, place)


def receive_records(
    store: Store,
    records: Sequence[Sent],
    person: Person,
    place: Place | None = None,
    examining: Examining | None = None,
) -> list[Answer | None]:
    """Keep or quarantine each of some records; an answer for each, in order, when all are durable.

    None is for one that failed here: nothing of it is kept, and the others are not touched. ``examining``
    verifies and judges, in this process without one; what it gives at once is kept with one commit.
    """
    # Judging again takes the longest and needs no lock; what depends on other documents follows inside.
    examine_all = examining or examining_here(store)
    answers: list[Answer | None] = []
    found = examine_all([one.text for one in records], written(store.clock()))
    for some in filter(None, found):
        with store.transaction():
            known = Known(store)
            while some:  # until those that are ready are kept
                known.look_up_records(acceptable(some))
                sent = records[len(answers) : len(answers) + len(some)]
                pairs = zip(some, sent, strict=True)
                answers += [settle_apart(known, examined, one, person, place) for examined, one in pairs]
                some = next(found, [])
    return answers


def acceptable(some: Iterable[Examined | None]) -> dict[str, Mapping[str, Any]]:
    """The contents of those that are valid by themselves, by identity."""
    results = [one.result for one in some if one is not None and one.result.valid]
    return {one.sha256: one.content for one in results if one.sha256 and one.content is not None}


def examining_here(store: Store) -> Examining:
    """In this process and thread, all at once."""
    each = partial(examine_each, store.devices.find, KnownProcedures(store.procedures))
    return lambda texts, received_at: iter([each(texts, received_at)])


def settle_apart(
    known: Known, examined: Examined | None, sent: Sent, person: Person, place: Place | None
) -> Answer | None:
    """:func:`settle`, whose failure undoes nothing else."""
    if examined is None:
        return None
    try:
        with known.store.transaction():
            return settle(known, examined, sent, person, place)
    except Unavailable:  # the same will befall the others
        raise
    except Exception:
        known.forget()
        if not known.store.in_transaction:  # nor is anything kept of those before it
            raise
        log.exception("Record %s could not be taken in", examined.result.sha256)
        return None


def settle(known: Known, examined: Examined, sent: Sent, person: Person, place: Place | None) -> Answer:
    """Within a transaction: what becomes of a record that was looked at by itself."""
    store, result = known.store, examined.result
    kept = known.record(result.sha256) if result.sha256 else None
    if kept is not None:
        return Answer(kept.sha256, state_for_phone(kept), kept.reasons)
    new: list[NewEvent] = []
    result = result.also(judged_otherwise(result.judged))
    if result.content is not None and result.valid:
        result = result.also(unfit(known, result.content, examined.events, person, new))
    if result.content is not None and result.valid and result.sha256:
        result = result.also(unconfirmed(store, result.sha256, person.id, sent.assertion, place))
    if result.content is None or result.sha256 is None or not result.valid:
        visit = result.content["visit"] if result.content else None
        if visit:
            known.changed(visit)
        return quarantine(store, "record", sent.text, person, result, visit)
    notes = [*formulas_remarks(result.judged), *remarks(known, result.content)]
    record = store.records.keep(result.sha256, result.content, sent.text, notes)
    store.listing.add(record, list(examined.awaited))
    # The phone sends its entries first, but a record that overtook them must not stand without them. They
    # come when the visit is signed already: those of a visit that is open would be counted for its phone.
    store.events.add(new)
    known.kept(record, new)
    store.audit.add("record_received", person=result.content["signer"]["id"], subject=record.sha256)
    keep_confirmation(store, record.sha256, sent.assertion)
    return Answer(record.sha256, record.state, record.reasons)


def state_for_phone(record: Record) -> str:
    """A record that was re-opened is a returned one to the phone: its visit may be worked on."""
    return "returned" if record.reopening else record.state


def unfit(
    known: Known,
    content: Mapping[str, Any],
    texts: Sequence[EventText],
    person: Person,
    new: list[NewEvent],
) -> list[Finding]:
    """Why a record that is valid by itself cannot be accepted here and now.

    Its events that the store does not have are added to ``new``.
    """
    if content["signer"]["id"] != person.id:
        return finding_of(
            "signer_differs", "The record was signed by somebody else than who sent it.", "signer.id"
        )
    visit = known.visit(content["visit"])
    if visit is None:
        return finding_of("visit_unknown", "The visit of this record is not known here.", "visit")
    known.look_up(ids_of(content["events"]))
    events = zip(content["events"], texts, strict=True)
    return [
        *revoked(known.device(content["device"])),
        *disabled(person),
        *fits_visit(content, visit),
        *fits_chain(known, content),
        *(finding for event, text in events for finding in fits_event(known, event, text, person, new)),
    ]


def judged_otherwise(judged: Judged | None) -> list[Finding]:
    """Other formulas than the server's, mostly of an app that awaits its update, may not change a verdict."""
    if judged is None or judged.has_own_formulas or judged.is_same:
        return []
    if not judged.verdicts:
        detail = "The phone judged with other formulas than the server's, which give no result here."
        return finding_of("formulas_differ", detail, "events")
    shown = listed(judged.verdicts)
    detail = f"The phone judged with other formulas than the server's, which differ at {shown}."
    return finding_of("formulas_differ", detail, judged.verdicts[0])


def disabled(person: Person) -> Iterator[Finding]:
    """Nobody who is disabled is signed in; their work may be carried in by a supervisor."""
    if not person.active:
        yield Finding("account_disabled", f"The account of {person.name} is disabled.", "signer.id")


def fits_visit(content: Mapping[str, Any], visit: Visit) -> Iterator[Finding]:
    if content["unit"]["id"] != visit.unit or any(
        content[name] != getattr(visit, name) for name in FIELDS_OF_A_VISIT
    ):
        yield Finding("visit_differs", "Unit, kind or procedure are not those of the visit.", "visit")
    if not visit.is_open:
        yield Finding("already_signed", "The visit was signed before, perhaps on another phone.", "visit")
    elif content["corrects"] != visit.record:
        yield Finding(
            "corrects_differs", "The record does not name the returned one that it replaces.", "corrects"
        )


def fits_chain(known: Known, content: Mapping[str, Any]) -> list[Finding]:
    unit = known.unit(content["unit"]["id"])
    last = unit.previous if unit else None
    is_last = content["previous"] == last
    accepted = [] if is_last or unit is None else known.store.records.accepted(unit.id)
    return chain_of_unit.link(content, last, accepted)


def fits_event(
    known: Known, event: dict[str, Any], text: EventText, person: Person, new: list[NewEvent]
) -> Iterator[Finding]:
    """What came before must be the same; new entries can only be the signer's own."""
    kept = known.hashes.get(event["id"])
    if kept is not None:
        if kept != text.sha256:
            yield Finding("event_differs", "An entry is not as it was received before.", event["field"])
        return
    new.append(NewEvent(event, text.text, text.sha256, late=False))
    device = known.device(event["device"])
    if event["by"] != person.id:
        yield Finding(
            "event_unknown", "An entry of somebody else was never received from them.", event["field"]
        )
    elif device is None or device.person != person.id or device.revoked_at is not None:
        yield Finding(
            "event_device", "An entry was made on a phone that is not the signer's.", event["field"]
        )


def reopen_quarantined(store: Store, item: int, person: Person, text: str) -> Quarantined:
    """A supervisor has looked at a quarantined document; a visit that it held up goes back with ``text``."""
    with store.transaction():
        found = store.quarantine.note_seen(item, person.id, text)
        store.audit.add("quarantine_seen", person=person.id, subject=str(item))
        if found.visit and found.unit:
            store.listing.refresh(found.visit, found.unit)
    return found
