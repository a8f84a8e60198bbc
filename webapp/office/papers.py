"""From the store to what a record's page and its certificate are made from."""

from typing import Any

from webapp import current
from webapp.certificate import Papers, render, sheet
from webapp.store import Record


def papers_of(record: Record) -> Papers:
    """The record, its decision, the procedure of its time, the names of people, and what came late."""
    store = current.store()
    content = record.content()
    return Papers(
        record=content,
        identity=record.sha256,
        procedure=store.procedures.get(content["procedure"]["hash"]).content(),
        decision=record.decision.content() if record.decision else None,
        names={person.id: person.name for person in store.people.all()},
        next_service=record.decision.next_service if record.decision else None,
        late=tuple(event.content() for event in store.events.late(record.visit)),
    )


def sheet_of(record: Record) -> dict[str, Any]:
    return sheet.build(papers_of(record))


def photos_of(record: Record) -> set[str]:
    """The hashes of the photos that the record names."""
    return {
        event["content"]["sha256"]
        for event in record.content()["events"]
        if event["content"] and "sha256" in event["content"]
    }


def certificate_of(record: Record) -> bytes:
    """The PDF with the signed record, the decision and the signers' public keys inside."""
    decision = record.decision
    signers = [record.device] + ([decision.device] if decision else [])
    keys = [current.store().devices.get(one) for one in dict.fromkeys(signers)]
    jwks = [{**device.jwk, "alg": "ES256", "kid": device.thumbprint, "use": "sig"} for device in keys]
    return render(papers_of(record), record.jws, decision.jws if decision else None, jwks)
