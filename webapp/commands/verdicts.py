"""Verifying all documents together: each by itself, decisions against records, records as a chain."""

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from webapp.commands.confirmations import check_confirmation
from webapp.commands.documents import Documents, Signed, Trail
from webapp.signing import Finding, Key, chain, jws, order_findings, trail, verify_decision, verify_record
from webapp.signing.canonical import digest
from webapp.signing.judged_again import Judged
from webapp.signing.photos import photos_named

# What the audit trail calls a decision, and what the decision itself says.
DECIDED = {
    "record_accepted": "accepted",
    "record_accepted_with_conditions": "accepted_with_conditions",
    "record_returned": "returned",
    "record_reopened": "returned",
}


@dataclass
class Verified:
    """What was found about one document; `notes` do not make it invalid.

    `is_confirmed`: a passkey of the signer confirmed it, and that was verified. `judged`: what
    judging a record again gave, where its verification came so far.
    """

    kind: str
    place: str
    findings: list[Finding]
    sha256: str | None = None
    content: Mapping[str, Any] | None = None
    notes: list[str] = field(default_factory=list)
    is_confirmed: bool = False
    judged: Judged | None = None

    @property
    def valid(self) -> bool:
        return not self.findings

    def as_json(self) -> dict[str, Any]:
        content = self.content or {}
        summary = {
            name: content[name] for name in ("signer", "signed_at", "decision", "record") if name in content
        }
        if self.kind == "record" and self.content:
            summary |= {
                "unit": content["unit"]["serial"],
                "verdict": content["judgement"]["record"]["verdict"],
            }
        if self.judged:
            summary["judged"] = {
                "formulas": self.judged.formulas,
                "today": self.judged.today,
                "same": self.judged.is_same,
                "differ": list(self.judged.verdicts),
            }
        return {
            "kind": self.kind,
            "file": self.place,
            "sha256": self.sha256,
            "valid": self.valid,
            "findings": [one.as_json() for one in self.findings],
            "notes": self.notes,
            "confirmed": self.is_confirmed,
            **summary,
        }


def verify_all(documents: Documents) -> list[Verified]:
    records = [verified_record(documents, one) for one in documents.records]
    contents = {str(one.sha256): one.content for one in records if one.content}
    decisions = [verified_decision(documents, one, contents) for one in documents.decisions]
    note_order(records, decisions)
    note_corrections(documents, records, decisions)
    for one in distinct([*records, *decisions]):
        check_confirmed(documents, one)
    databases = [database(place, problems) for place, problems in documents.databases.items()]
    found = [*records, *decisions]
    trails = [verified_trail(one, found) for one in documents.trails]
    return [*databases, *found, *chains(documents, records, decisions), *trails]


def first_broken(results: Sequence[Verified]) -> Verified | None:
    """The first of them that is not valid: of the records, the oldest that a file names."""
    return next((one for one in results if not one.valid), None)


def verified_record(documents: Documents, signed: Signed) -> Verified:
    result = verify_record(signed.text, lookup(documents, signed), documents.procedures, signed.received_at)
    found = Verified("record", signed.place, list(result.findings), result.sha256, result.content)
    found.notes += owner_notes(documents, signed)
    found.judged = result.judged
    if result.content:
        found.findings += photo_findings(documents, signed, result.content)
        found.notes += photo_notes(documents, result.content)
    return found


def verified_decision(
    documents: Documents, signed: Signed, contents: Mapping[str, Mapping[str, Any]]
) -> Verified:
    result = verify_decision(signed.text, contents.get, lookup(documents, signed), signed.received_at)
    notes = owner_notes(documents, signed)
    return Verified("decision", signed.place, list(result.findings), result.sha256, result.content, notes)


def lookup(documents: Documents, signed: Signed) -> Any:
    """Keys by thumbprint; where nothing says whose a key is, it is taken to be the signer's."""

    def find(thumbprint: str) -> Key | None:
        key = documents.keys.get(thumbprint)
        if key is None or key.person:
            return key
        return Key(key.jwk, claimed_signer(signed.text), key.revoked_at)

    return find


def claimed_signer(text: str) -> str:
    try:
        return str(json.loads(jws.read(text).payload)["signer"]["id"])
    except (jws.NotValid, ValueError, KeyError, TypeError):
        return ""


def owner_notes(documents: Documents, signed: Signed) -> list[str]:
    try:
        key = documents.keys.get(jws.read(signed.text).kid)
    except jws.NotValid:
        return []
    if key is None or key.person:
        return []
    return ["The key set does not say whose the key is: ask the organisation whether it is the signer's."]


def photo_findings(documents: Documents, signed: Signed, content: Mapping[str, Any]) -> Iterator[Finding]:
    for sha256 in photos_named(content["events"]):
        data = documents.photo(sha256)
        if data is not None and digest(data) != sha256:
            yield Finding("photo_differs", f"The photo {sha256} is not the one that was signed.", "photos")
        elif data is None and signed.has_photos and sha256 not in documents.elsewhere:
            yield Finding("photo_missing", f"The photo {sha256} that was signed is missing.", "photos")


def photo_notes(documents: Documents, content: Mapping[str, Any]) -> Iterator[str]:
    absent = [one for one in photos_named(content["events"]) if documents.photo(one) is None]
    if absent:
        yield f"Photos that are not here and were not compared: {len(absent)}."


def check_confirmed(documents: Documents, one: Verified) -> None:
    confirmed = documents.confirmed.get(str(one.sha256))
    if confirmed is None:
        return
    findings, notes = check_confirmation(str(one.sha256), said(one)["signer"]["id"], confirmed)
    one.findings += findings
    one.notes += notes
    one.is_confirmed = confirmed.passkey is not None and not findings


def database(place: str, problems: Sequence[str]) -> Verified:
    return Verified("database", place, [Finding("database_damaged", one) for one in problems])


def verified_trail(given: Trail, found: Sequence[Verified]) -> Verified:
    """The chain of an audit trail; one that stands beside the documents also tells which there have to be."""
    fault = trail.first_fault(given.entries)
    findings = [Finding(fault.code, fault.detail, f"audit.{fault.place}")] if fault else []
    if given.is_beside and not fault:
        findings += absent_documents(given, found)
    last = given.entries[-1]["sha256"] if given.entries and not fault else None
    notes = [f"Entries: {len(given.entries)}. Compare the last hash with an earlier copy or a note of it."]
    return Verified("audit trail", given.place, findings, last, None, notes)


def absent_documents(given: Trail, found: Sequence[Verified]) -> Iterator[Finding]:
    records = {one.sha256 for one in found if one.kind == "record"}
    decided = {(one["record"], one["decision"]) for one in map(said, found) if "decision" in one}
    for entry in given.entries:
        subject, at = entry["subject"], f"audit.{entry['sequence']}"
        if entry["action"] == "record_received" and subject not in records:
            detail = f"The record {subject}, received at {entry['at']}, is missing."
            yield Finding("record_missing", detail, at)
        elif entry["action"] in DECIDED and (subject, DECIDED[entry["action"]]) not in decided:
            detail = f"The decision of {entry['at']} about the record {subject} is missing."
            yield Finding("decision_missing", detail, at)


def note_order(records: Sequence[Verified], decisions: Sequence[Verified]) -> None:
    """A record has one decision, and after an acceptance perhaps the return that re-opened it.

    Files may be named in any order, so that it does not tell what was decided first.
    """
    before: dict[str, list[str]] = defaultdict(list)
    for one in sorted(distinct(decisions), key=lambda one: is_return(said(one))):
        words = before[said(one)["record"]]
        one.findings += order_findings(said(one)["decision"], words)
        words.append(said(one)["decision"])
    for one in distinct(records):
        if before[str(one.sha256)][1:] == ["returned"]:
            one.notes.append("Accepted, then re-opened for a corrected record.")


def note_corrections(
    documents: Documents, records: Sequence[Verified], decisions: Sequence[Verified]
) -> None:
    """A corrected record stands for a returned one of the same visit; here both name each other."""
    found = {one.sha256: one for one in distinct(records)}
    returned = {said(one)["record"] for one in distinct(decisions) if is_return(said(one))}
    for one in found.values():
        corrects = said(one)["corrects"]
        if corrects is None:
            continue
        one.notes.append(f"Corrects the record {corrects}.")
        before = found.get(corrects)
        if before is not None:
            before.notes.append(f"Corrected by the record {one.sha256}.")
        if before is not None and said(before)["visit"] != said(one)["visit"]:
            one.findings.append(
                Finding("corrects_differs", "It corrects a record of another visit.", "corrects")
            )
        elif documents.complete and corrects not in returned:
            detail = "It corrects a record that was not returned, or that is missing here."
            one.findings.append(Finding("corrects_differs", detail, "corrects"))


def distinct(documents: Sequence[Verified]) -> list[Verified]:
    """Those that could be read, each once: one document may come in several files."""
    return list({one.sha256: one for one in documents if one.content}.values())


def said(one: Verified) -> Mapping[str, Any]:
    return one.content or {}


def is_return(decision: Mapping[str, Any]) -> bool:
    return decision["decision"] == "returned"


def chains(documents: Documents, records: list[Verified], decisions: list[Verified]) -> Iterator[Verified]:
    """The accepted records of each unit, in a row."""
    accepted = {one.content["record"] for one in decisions if one.content and not is_return(one.content)}
    units: dict[str, dict[str, Mapping[str, Any]]] = defaultdict(dict)
    names: dict[str, str] = {}
    for one in records:
        if one.content and one.sha256 in accepted:
            unit = one.content["unit"]
            units[unit["id"]][str(one.sha256)] = one.content
            names[unit["id"]] = unit["serial"]
    for unit, members in units.items():
        order, findings = chain.walk(members)
        faults = [one for one in findings if documents.complete or one.code != "chain_broken"]
        notes = [one.detail for one in findings if one not in faults]
        yield Verified("chain", f"of unit {names[unit]}", faults, order[-1] if order else None, None, notes)
