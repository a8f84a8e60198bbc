"""A supervisor's decision about a record, and what follows from it."""

from calendar import monthrange
from datetime import date
from typing import Any

from checks.entries import date_of
from webapp.passkeys import Place
from webapp.receiving.answer import Answer, finding_of, quarantine, revoked
from webapp.receiving.confirmation import keep_confirmation, unconfirmed
from webapp.signing import Finding, order_findings, verify_decision
from webapp.store import Person, Record, Store
from webapp.store.table import written

AGREED = "next_service.agreed"


def receive_decision(
    store: Store,
    text: str,
    person: Person,
    service_months: int,
    assertion: dict[str, Any] | None = None,
    place: Place | None = None,
) -> Answer:
    """Keep the JWS of a decision, or quarantine it; the same again gives the same answer.

    ``service_months`` is when the next service is due after an acceptance, unless the site says otherwise.
    ``assertion`` is the passkey's confirmation for ``place``; without one the password was asked for.
    The rule that nobody decides on their own work is in :mod:`webapp.signing.verify`.
    """
    result = verify_decision(
        text, lambda key: content_of(store, key), store.devices.find, written(store.clock())
    )
    with store.transaction():
        kept = store.decisions.find(result.sha256) if result.sha256 else None
        if kept is not None:
            return Answer(kept.sha256, kept.decision)
        record = store.records.find(result.content["record"]) if result.content else None
        if result.valid and result.content and record:
            result = result.also(unfit(store, result.content, record, person))
        if result.valid and result.content and result.sha256:
            result = result.also(unconfirmed(store, result.sha256, person.id, assertion, place))
        if not result.valid or not result.content or not result.sha256 or not record:
            return quarantine(store, "decision", text, person, result, record.visit if record else None)
        due = (
            next_service(store, record, service_months) if result.content["decision"] != "returned" else None
        )
        store.decisions.keep(result.sha256, result.content, text, due)
        keep_confirmation(store, result.sha256, assertion)
        follow(store, record, result.content)
    return Answer(result.sha256, result.content["decision"])


def content_of(store: Store, record: str) -> dict[str, Any] | None:
    found = store.records.find(record)
    return found.content() if found else None


def unfit(store: Store, content: dict[str, Any], record: Record, person: Person) -> list[Finding]:
    if content["signer"] != {"id": person.id, "name": person.name, "role": person.role}:
        detail = "The decision names another signer than who sent it, or by a former name or role."
        return finding_of("signer_differs", detail, "signer")
    before = [one.decision for one in record.decisions]
    if found := revoked(store.devices.find(content["device"])) or order_findings(content["decision"], before):
        return found
    last = store.listing.unit_state(record.unit).record
    if record.decisions and record.sha256 != last:
        detail = "A later record of this unit was accepted. What came since belongs into a new visit."
        return finding_of("superseded", detail, "record")
    if content["decision"] != "returned" and record.previous != last:
        detail = (
            "Another record of this unit was accepted meanwhile. Return this one, so that it is signed anew."
        )
        return finding_of("chain_fork", detail, "record")
    return []


def follow(store: Store, record: Record, content: dict[str, Any]) -> None:
    """The states follow; a returned visit is open again, with what came late.

    An accepted unit keeps its state when its record is returned: the corrected record changes it.
    """
    store.listing.refresh(record.visit, record.unit)
    if content["decision"] == "returned":
        store.events.merge_late(record.visit)
    word = "reopened" if record.decisions else content["decision"]
    store.audit.add(f"record_{word}", person=content["signer"]["id"], subject=record.sha256)


def next_service(store: Store, record: Record, service_months: int) -> str:
    """The date by which the unit has to be serviced: the one that the record agrees on, else by the site."""
    agreed = record.content()["judgement"]["quantities"].get(AGREED, {}).get("value")
    if isinstance(agreed, int | float):
        return date_of(agreed)
    site = store.sites.get(store.units.get(record.unit).site)
    own = (site.values.get("service_months") or {}).get("value")
    months = int(own) if isinstance(own, int | float) and own >= 1 else service_months
    return add_months(store.clock().date(), months).isoformat()


def add_months(day: date, months: int) -> date:
    """The same day some months later, or the last of that month."""
    year, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + year, month + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))
