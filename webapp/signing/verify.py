"""Verifying a record or a decision: with the server's keys and procedures, or with those of a file.

Needs no server and no database, so that ``firstwater verify`` says the same as the server.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Protocol

from webapp.signing import judged_again, jws, shapes
from webapp.signing.canonical import NotCanonical, digest, parse_canonical
from webapp.signing.findings import Finding, Verification

FILLING_ROLES = ("installer", "supervisor")
DECIDING_ROLES = ("supervisor",)


class EnrolledKey(Protocol):
    """A device as the store keeps it, or :class:`Key`."""

    @property
    def jwk(self) -> dict[str, Any]: ...
    @property
    def person(self) -> str: ...
    @property
    def revoked_at(self) -> str | None: ...


@dataclass(frozen=True)
class Key:
    """An enrolled key known from a file: whose it is, and from when on it is not to be trusted."""

    jwk: dict[str, Any]
    person: str
    revoked_at: str | None = None


class Procedures(Protocol):
    """A dict from hashes to procedures, or anything else that can be asked like one."""

    def get(self, sha256: str, /) -> Mapping[str, Any] | None: ...


DeviceLookup = Callable[[str], EnrolledKey | None]


def verify_record(
    text: str, device_lookup: DeviceLookup, procedures: Procedures, received_at: str | None = None
) -> Verification:
    """Verify the JWS of a record by itself: signature, bytes, shape, signer, procedure, verdicts.

    ``device_lookup`` gives the key of a thumbprint or None, ``procedures`` that of a hash.
    A key revoked before ``received_at`` (now, when it is None) is refused; older signatures stay valid.
    A record of other formulas than today's stays valid where another verdict comes out: ``judged`` says so.
    The place in the unit's chain is checked by :mod:`webapp.signing.chain`, which knows the neighbours.
    """
    result = verify_document(text, jws.RECORD, shapes.RECORD, device_lookup, received_at)
    if result.content is None or not result.valid:
        return result
    content, wrong = result.content, _events(result.content)
    result = result.also([*_role(content, FILLING_ROLES), *wrong])
    return result if wrong else _judgement(result, content, procedures)


def verify_decision(
    text: str,
    record: Callable[[str], Mapping[str, Any] | None],
    device_lookup: DeviceLookup,
    received_at: str | None = None,
) -> Verification:
    """Verify the JWS of a countersignature or return.

    ``record`` gives the content of the record with this identity, or None.
    """
    result = verify_document(text, jws.DECISION, shapes.DECISION, device_lookup, received_at)
    if result.content is None or not result.valid:
        return result
    content = record(result.content["record"])
    if content is None:
        return result.also(
            [Finding("record_unknown", "The record that was decided on is not known.", "record")]
        )
    return result.also(decision_findings(result.content, content))


def verify_document(
    text: str, typ: str, shape: Any, device_lookup: DeviceLookup, received_at: str | None
) -> Verification:
    """What records and decisions have in common: signature, canonical bytes, shape, device and signer."""
    try:
        message = jws.read(text)
    except jws.NotValid as error:
        return Verification((Finding(error.code, str(error)),))
    sha256 = digest(message.payload)
    try:
        content = parse_canonical(message.payload)
    except NotCanonical as error:
        return Verification((Finding("not_canonical", str(error)),), sha256)
    wrong = [
        Finding("shape", f"{place} {what}.", place) for place, what in shapes.wrong_places(shape, content)
    ]
    if message.typ != typ:
        wrong.insert(
            0, Finding("wrong_type", f"The header says typ {message.typ}; here it must be {typ}.", "typ")
        )
    if wrong:
        return Verification(tuple(wrong[:20]), sha256)
    found = _key(message, content, device_lookup(message.kid), received_at)
    return Verification(tuple(found), sha256, content, message.kid)


def _key(
    message: jws.Message, content: Mapping[str, Any], device: EnrolledKey | None, received_at: str | None
) -> list[Finding]:
    if device is None:
        return [Finding("device_unknown", "The phone that signed this is not enrolled.", "kid")]
    try:
        jws.verify(message, device.jwk)
    except jws.NotValid as error:
        return [Finding(error.code, str(error))]
    found = []
    if jws.thumbprint(device.jwk) != message.kid or content["device"] != message.kid:
        found.append(
            Finding("device_differs", "The content names another phone than the signature.", "device")
        )
    if device.person != content["signer"]["id"]:
        found.append(
            Finding("signer_differs", "The phone belongs to another person than the signer.", "signer.id")
        )
    if device.revoked_at is not None and (received_at is None or received_at >= device.revoked_at):
        found.append(Finding("device_revoked", f"The phone was revoked on {device.revoked_at}.", "kid"))
    return found


def _role(content: Mapping[str, Any], roles: tuple[str, ...]) -> list[Finding]:
    if content["signer"]["role"] in roles:
        return []
    return [Finding("role_differs", f"This can be signed by: {', '.join(roles)}.", "signer.role")]


def _events(content: Mapping[str, Any]) -> list[Finding]:
    events = content["events"]
    if len({event["id"] for event in events}) != len(events):
        return [Finding("event_twice", "An entry stands twice in the record.", "events")]
    if any(event["visit"] != content["visit"] for event in events):
        return [Finding("event_elsewhere", "An entry belongs to another visit.", "events")]
    return []


def _judgement(result: Verification, content: Mapping[str, Any], procedures: Procedures) -> Verification:
    named = content["procedure"]
    procedure = procedures.get(named["hash"])
    if procedure is None or (procedure["id"], procedure["version"]) != (named["id"], named["version"]):
        detail = "This version of the procedure is not known here."
        return result.also([Finding("procedure_unknown", detail, "procedure")])
    judged = judged_again.judged_again(content, procedure)
    return replace(result, judged=judged).also(judged_again.findings(judged))


def decision_findings(decision: Mapping[str, Any], content: Mapping[str, Any]) -> list[Finding]:
    """The rules: never about own work, with reasons where they are needed, never against the verdict."""
    found = []
    if decision["signer"]["id"] in authors(content) or decision["device"] == content["device"]:
        detail = "Nobody may decide on a record that they signed or entered something in."
        found.append(Finding("own_work", detail, "signer.id"))
    found += _role(decision, DECIDING_ROLES)
    word, verdict = decision["decision"], content["judgement"]["record"]["verdict"]
    if word != "accepted" and not decision["reasons"].strip():
        found.append(Finding("reasons_missing", "Write the reasons or the conditions.", "reasons"))
    if word != "returned" and verdict == "fail":
        found.append(Finding("record_fails", "A failed record can only be returned.", "decision"))
    if word == "accepted" and verdict == "conditional_pass":
        detail = "A conditional pass can be accepted with its conditions, or returned."
        found.append(Finding("conditions_needed", detail, "decision"))
    return found


def order_findings(decision: str, before: Sequence[str]) -> list[Finding]:
    """Whether a decision may follow those ``before`` it on a record: after an acceptance, only a return."""
    if not before or (decision == "returned" and len(before) == 1 and before[0] != "returned"):
        return []
    return [Finding("already_decided", "A decision about this record was received before.", "record")]


def authors(content: Mapping[str, Any]) -> set[str]:
    """Everybody who signed the record or made an entry in it."""
    return {content["signer"]["id"], *(event["by"] for event in content["events"])}
