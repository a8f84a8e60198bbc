"""From the store to what a record's page and its certificate are made from."""

from typing import Any

from webapp import current
from webapp.certificate import Papers, render, sheet
from webapp.signing.photos import photos_named
from webapp.store import Record


def papers_of(record: Record) -> Papers:
    """The record, its decisions, the procedure of its time, the names of people, and what came late."""
    store = current.store()
    content = record.content()
    return Papers(
        record=content,
        identity=record.sha256,
        procedure=store.procedures.get(content["procedure"]["hash"]).content(),
        decisions=tuple(one.content() for one in record.decisions),
        names={person.id: person.name for person in store.people.all()},
        next_service=record.decision.next_service if record.decision else None,
        late=tuple(event.content() for event in store.events.late(record.visit)),
        replaced_by=replaced_by(record),
        confirmed=tuple(store.passkeys.confirmation(one) is not None for one in documents_of(record)),
    )


def replaced_by(record: Record) -> str | None:
    """The identity of the accepted record that corrects this one."""
    accepted = current.store().records.accepted(record.unit)
    found = [one.sha256 for one in current.store().records.corrections(record.sha256)]
    return next((one for one in found if one in accepted), None)


def sheet_of(record: Record) -> dict[str, Any]:
    return sheet.build(papers_of(record))


def photos_of(record: Record) -> set[str]:
    """The hashes of the photos that the record names."""
    return set(photos_named(record.content()["events"]))


def certificate_of(record: Record) -> bytes:
    """The PDF with the record, the decisions, their confirmations and the signers' public keys inside."""
    signers = [record.device, *(one.device for one in record.decisions)]
    keys = [current.store().devices.get(one) for one in dict.fromkeys(signers)]
    jwks = [{**device.jwk, "alg": "ES256", "kid": device.thumbprint, "use": "sig"} for device in keys]
    evidence = current.store().passkeys.evidence(documents_of(record))
    return render(papers_of(record), record.jws, [one.jws for one in record.decisions], jwks, evidence)


def documents_of(record: Record) -> list[str]:
    """The identities of the record and of its decisions, in order."""
    return [record.sha256, *(one.sha256 for one in record.decisions)]
