"""A signed record: verified by itself, then against everything that the server knows."""

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any

from webapp.passkeys import Place
from webapp.read_at_unit import values_read
from webapp.receiving.answer import (
    CLOCK_TOLERANCE,
    Answer,
    KnownProcedures,
    finding_of,
    note,
    quarantine,
    revoked,
)
from webapp.receiving.confirmation import keep_confirmation, unconfirmed
from webapp.receiving.known import Known, ids_of
from webapp.signing import Finding, chain, verify_record
from webapp.signing.canonical import canonical, digest
from webapp.signing.judged_again import Judged, listed
from webapp.store import NewEvent, NotInStore, Person, Quarantined, Record, Store, Visit
from webapp.store.table import written

FIELDS_OF_A_VISIT = ("kind", "procedure")
CLOCK_OFF = 60_000  # milliseconds by which a phone's clock may be wrong without remark


def receive_record(
    store: Store,
    text: str,
    person: Person,
    assertion: dict[str, Any] | None = None,
    place: Place | None = None,
) -> Answer:
    """Keep the JWS of a record, or quarantine it; the same record again gives the same answer.

    The identity is the hash of the payload: another signature over the same content is the same record.
    ``assertion`` is the passkey's confirmation for ``place``; without one the phone asked for the password.
    """
    # Judging again takes the longest and needs no lock; what depends on other documents follows inside.
    result = verify_record(text, store.devices.find, KnownProcedures(store), written(store.clock()))
    with store.transaction():
        kept = store.records.find(result.sha256) if result.sha256 else None
        if kept is not None:
            return Answer(kept.sha256, state_for_phone(kept), kept.reasons)
        new: list[NewEvent] = []
        result = result.also(judged_otherwise(result.judged))
        if result.content is not None and result.valid:
            result = result.also(unfit(store, result.content, person, new))
        if result.content is not None and result.valid and result.sha256:
            result = result.also(unconfirmed(store, result.sha256, person.id, assertion, place))
        if result.content is None or result.sha256 is None or not result.valid:
            visit = result.content["visit"] if result.content else None
            return quarantine(store, "record", text, person, result, visit)
        record = keep(store, result.sha256, result.content, text, new, list(formulas_remarks(result.judged)))
        keep_confirmation(store, result.sha256, assertion)
    return Answer(record.sha256, record.state, record.reasons)


def state_for_phone(record: Record) -> str:
    """A record that was re-opened is a returned one to the phone: its visit may be worked on."""
    return "returned" if record.reopening else record.state


def keep(
    store: Store,
    sha256: str,
    content: dict[str, Any],
    text: str,
    new: list[NewEvent],
    more: list[dict[str, Any]],
) -> Record:
    # The phone sends its entries first, but a record that overtook them must not stand without them.
    store.events.add(new)
    store.records.keep(sha256, content, text, [*more, *remarks(store, content)])
    store.listing.refresh(content["visit"], content["unit"]["id"])
    store.audit.add("record_received", person=content["signer"]["id"], subject=sha256)
    return store.records.get(sha256)


def unfit(store: Store, content: Mapping[str, Any], person: Person, new: list[NewEvent]) -> list[Finding]:
    """Why a record that is valid by itself cannot be accepted here and now.

    Its events that the store does not have are added to ``new``.
    """
    if content["signer"]["id"] != person.id:
        return finding_of(
            "signer_differs", "The record was signed by somebody else than who sent it.", "signer.id"
        )
    visit = store.visits.find(content["visit"])
    if visit is None:
        return finding_of("visit_unknown", "The visit of this record is not known here.", "visit")
    known = Known(store, ids_of(content["events"]))
    return [
        *revoked(known.device(content["device"])),
        *disabled(person),
        *fits_visit(content, visit),
        *fits_chain(store, content),
        *(finding for event in content["events"] for finding in fits_event(known, event, person, new)),
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


def formulas_remarks(judged: Judged | None) -> Iterator[dict[str, Any]]:
    """Other formulas that gave the same verdicts keep no record out, and are told."""
    if judged is None or judged.has_own_formulas:
        return
    detail = "The phone judged with other formulas than the server; the verdicts are the same."
    if judged.values:
        shown = listed(judged.values)
        detail = (
            "The phone judged with other formulas than the server; the verdicts are the same, "
            f"values differ at {shown}."
        )
    yield note("formulas_differ", detail)


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


def fits_chain(store: Store, content: Mapping[str, Any]) -> list[Finding]:
    unit = content["unit"]["id"]
    last = store.listing.unit_state(unit).record
    return chain.link(content, last, store.records.accepted(unit))


def fits_event(known: Known, event: dict[str, Any], person: Person, new: list[NewEvent]) -> Iterator[Finding]:
    """What came before must be the same; new entries can only be the signer's own."""
    text = canonical(event)
    sha256 = digest(text)
    kept = known.hashes.get(event["id"])
    if kept is not None:
        if kept != sha256:
            yield Finding("event_differs", "An entry is not as it was received before.", event["field"])
        return
    new.append(NewEvent(event, text, sha256, late=False))
    device = known.device(event["device"])
    if event["by"] != person.id:
        yield Finding(
            "event_unknown", "An entry of somebody else was never received from them.", event["field"]
        )
    elif device is None or device.person != person.id or device.revoked_at is not None:
        yield Finding(
            "event_device", "An entry was made on a phone that is not the signer's.", event["field"]
        )


def remarks(store: Store, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """What the supervisor should know before deciding."""
    signer = store.people.get(content["signer"]["id"])
    if (signer.name, signer.role) != (content["signer"]["name"], content["signer"]["role"]):
        yield note("signer_changed", f"Here the signer is {signer.name}, {signer.role}.")
    # Entries of others may have come that the signer had not fetched: kept, and shown to the supervisor.
    named = {event["id"] for event in content["events"]}
    left_out = [one for one in store.events.merged_ids(content["visit"]) if one not in named]
    if left_out:
        detail = f"{len(left_out)} entries of this visit are not in the record."
        yield note("events_left_out", detail, events=left_out)
    yield from plate_remarks(store, content)
    yield from clock_remarks(content, store.clock())
    yield from reference_remarks(store, content)


def plate_remarks(store: Store, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Values of plate and site that the limits rest on and that the visit gave instead of the office."""
    read = values_read(content, procedure_of(store, content))
    if read:
        detail = f"Read at the unit: {'; '.join(one.line for one in read)}."
        yield note("plate_read_at_unit", detail, fields=[one.name for one in read])


def clock_remarks(content: Mapping[str, Any], now: datetime) -> Iterator[dict[str, Any]]:
    signed_at = content["signed_at"]
    if signed_at > written(now + timedelta(seconds=CLOCK_TOLERANCE)):
        yield note("clock_ahead", "The phone's clock was ahead when the record was signed.")
    offset = content.get("clock_offset") or 0
    if abs(offset) >= CLOCK_OFF:
        off = f"{round(abs(offset) / 60_000)} min {'slow' if offset > 0 else 'fast'}"
        yield note("clock_off", f"The phone's clock was {off} when it last met the server.")
    if any(event["at"] > signed_at for event in content["events"]):
        yield note("entries_after_signing", "An entry has a later time than the signature.")


def reference_remarks(store: Store, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Data plate, site and instruments travel in the record; here they are compared with the server's."""
    unit = store.units.get(content["unit"]["id"])
    places = [f"plate.{name}" for name in changed_cells(content["unit"]["plate"], unit.plate)]
    places += [f"baseline.{name}" for name in changed_baseline(store, content)]
    site = store.sites.get(unit.site)
    places += [f"site.{name}" for name in changed_cells(content["site"]["values"], site.values)]
    instruments = store.instruments.find_all(content["instruments"])
    for key, instrument in content["instruments"].items():
        known = instruments.get(key)
        if known is None or known.as_json() != instrument:
            places.append(f"instrument {instrument.get('name', key)}")
    if content["site"]["id"] != site.id:
        places.append("site")
    if places:
        detail = f"The record was judged with other reference data than the server's: {', '.join(places)}."
        yield note("reference_differs", detail, places=places)


def changed_baseline(store: Store, content: Mapping[str, Any]) -> list[str]:
    """Where a visit that compares was judged against another baseline than the server's."""
    ours = (content["unit"].get("baseline") or {}).get("values", {})
    compares = procedure_of(store, content).get("compares")
    theirs = store.baselines.of_unit(content["unit"]["id"])["values"] if compares else {}
    return changed_cells(ours, theirs)


def procedure_of(store: Store, content: Mapping[str, Any]) -> Mapping[str, Any]:
    sha256 = content["procedure"]["hash"]
    found = store.procedures.shared(sha256)
    if found is None:
        raise NotInStore("procedure", sha256)
    return found


def changed_cells(ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> list[str]:
    return sorted(
        name
        for name in ours.keys() | theirs.keys()
        if (ours.get(name) or {}).get("value") != (theirs.get(name) or {}).get("value")
    )


def reopen_quarantined(store: Store, item: int, person: Person, text: str) -> Quarantined:
    """A supervisor has looked at a quarantined document; a visit that it held up goes back with ``text``."""
    with store.transaction():
        found = store.quarantine.note_seen(item, person.id, text)
        store.audit.add("quarantine_seen", person=person.id, subject=str(item))
        if found.visit and found.unit:
            store.listing.refresh(found.visit, found.unit)
    return found
