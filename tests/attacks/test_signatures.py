"""Signatures and chains under attack: nothing is accepted that this person did not sign for this visit."""

import base64
import hmac
import json
from typing import Any

import pytest
import rfc8785
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from joserfc import jwk, jws

from tests.phone import Phone, sha256
from webapp.receiving import receive_decision

ORDER = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551  # of P-256, FIPS 186-4 D.1.2.3
TYP = "firstwater-record+jws"


def encoded(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


def decoded(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def with_part(text: str, place: int, part: str) -> str:
    parts = text.split(".")
    parts[place] = part
    return ".".join(parts)


def with_header(text: str, **members: Any) -> str:
    header = json.loads(decoded(text.split(".")[0])) | members
    return with_part(text, 0, encoded(json.dumps(header).encode()))


def with_payload(text: str, **members: Any) -> str:
    payload = json.loads(decoded(text.split(".")[1])) | members
    return with_part(text, 1, encoded(rfc8785.dumps(payload)))


@pytest.fixture
def record(target) -> str:
    return target.phone.signed_record(target.visit())


def as_der(text: str) -> str:
    raw = decoded(text.split(".")[2])
    r, s = int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big")
    return with_part(text, 2, encoded(encode_dss_signature(r, s)))


def as_shared_secret(text: str, key: bytes) -> str:
    """HS256 with the public key as its secret (RFC 8725, 2.1)."""
    changed = with_header(text, alg="HS256")
    head = changed.rpartition(".")[0]
    return f"{head}.{encoded(hmac.digest(key, head.encode(), 'sha256'))}"


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda text: with_payload(text, meaning="I like it."), "signature_wrong"),
        (lambda text: with_part(text, 2, ""), "signature_wrong"),
        (lambda text: text.rpartition(".")[0], "not_a_jws"),
        (lambda text: with_part(text, 2, encoded(bytes(64))), "signature_wrong"),
        (lambda text: with_part(text, 2, encoded(ORDER.to_bytes(32, "big") * 2)), "signature_wrong"),
        (lambda text: with_header(text, alg="none"), "header_not_allowed"),
        (lambda text: with_part(with_header(text, alg="none"), 2, ""), "header_not_allowed"),
        (lambda text: with_header(text, alg="ES384"), "header_not_allowed"),
        (lambda text: with_header(text, alg="es256"), "header_not_allowed"),
        (lambda text: with_header(text, crit=["b64"], b64=False), "header_not_allowed"),
        (lambda text: with_header(text, jku="https://example.org/keys"), "header_not_allowed"),
        (lambda text: with_header(text, x5c=["MIIB"]), "header_not_allowed"),
        (lambda text: with_header(text, typ="firstwater-decision+jws"), "wrong_type"),
        (lambda text: with_header(text, kid="A" * 43), "device_unknown"),
        (as_der, "signature_wrong"),
        (lambda text: text + "=", "not_a_jws"),
        (lambda text: text.replace(".", ".\n", 1), "not_a_jws"),
        (lambda text: json.dumps({"payload": text.split(".")[1], "signatures": []}), "not_a_jws"),
    ],
)
def test_a_record_with_a_forged_signature_is_kept_apart(target, record, change, code) -> None:
    assert code in target.codes(change(record))
    assert target.store.records.find(sha256(json.loads(decoded(record.split(".")[1])))) is None


def test_the_public_key_as_a_shared_secret_signs_nothing(target, record) -> None:
    forms = [json.dumps(target.phone.public).encode(), target.phone.key.as_pem(private=False)]
    for secret in (*forms, rfc8785.dumps(target.phone.public)):
        assert target.codes(as_shared_secret(record, secret)) == ["header_not_allowed"]


def test_a_key_that_the_record_brings_along_counts_nothing(target) -> None:
    own = jwk.generate_key("EC", "P-256")
    content = target.phone.record(target.visit(), [])
    header = {"alg": "ES256", "kid": target.phone.thumbprint, "typ": TYP}
    for more in ({}, {"jwk": own.as_dict(private=False)}):
        text = jws.serialize_compact({**header, **more}, rfc8785.dumps(content), own, algorithms=["ES256"])
        assert target.codes(text)[0] in {"signature_wrong", "header_not_allowed"}


def test_the_key_of_a_colleague_signs_nothing_in_anothers_name(target) -> None:
    content = target.phone.record(target.visit(), [])
    for device in (target.phone.thumbprint, target.desk.thumbprint):
        assert "signer_differs" in target.codes(target.desk.sign({**content, "device": device}, TYP))


def test_the_twin_of_a_signature_is_the_same_record(target, record) -> None:
    """(r, n - s) verifies as well as (r, s): the record is accepted once, whichever comes first."""
    raw = decoded(record.split(".")[2])
    s = ORDER - int.from_bytes(raw[32:], "big")
    twin = with_part(record, 2, encoded(raw[:32] + s.to_bytes(32, "big")))
    first, second = target.send(twin), target.send(record)
    assert first == second
    assert target.store.records.get(first["sha256"]).jws == twin


@pytest.mark.parametrize(
    "payload",
    [
        lambda data: data.replace(b'{"app":', b'{"app":"other","app":', 1),
        lambda data: data.replace(b":", b": ", 1),
        lambda data: data + b"\n",
        lambda data: b"\xef\xbb\xbf" + data,
        lambda data: data.replace(b'"schema":1', b'"schema":1.0'),
        lambda data: data.replace(b'"offset":60', b'"offset":6e1'),
        lambda data: data.replace(b"trial", b"tri\\u0061l", 1),
    ],
    ids=["a name twice", "a space", "a line", "a byte order mark", "1.0", "6e1", "an escape"],
)
def test_bytes_that_two_readers_could_take_differently_are_kept_apart(target, payload) -> None:
    data = payload(rfc8785.dumps(target.phone.record(target.visit(), [])))
    header = {"alg": "ES256", "kid": target.phone.thumbprint, "typ": TYP}
    text = jws.serialize_compact(header, data, target.phone.key, algorithms=["ES256"])
    assert target.codes(text) == ["not_canonical"]


def test_a_record_is_not_moved_to_another_unit_or_visit(target) -> None:
    phone, visit, other = target.phone, target.visit(), target.visit()
    entries = phone.entries(visit.id)
    unit = phone.record(other, [])["unit"]
    assert "visit_differs" in target.codes(phone.signed_record(visit, entries, unit=unit))
    elsewhere = phone.record(visit, entries) | {"visit": other.id}
    assert target.codes(phone.sign(elsewhere, TYP)) == ["event_elsewhere"]
    assert target.send(phone.signed_record(visit, entries))["state"] == "signed"
    moved = [{**one, "visit": other.id} for one in entries]
    assert "event_differs" in target.codes(phone.signed_record(other, moved))


def test_a_record_sent_again_after_its_return_changes_nothing(target, record) -> None:
    sha = target.send(record)["sha256"]
    returned = target.desk.signed_decision(sha, "returned", "Wrong room.")
    receive_decision(target.store, returned, target.desk.person, 12)
    assert target.send(record)["state"] == "returned"
    visit = target.store.records.get(sha).visit
    assert target.store.visits.get(visit).state == "returned"


def test_the_chain_of_a_unit_is_neither_cut_nor_forked(target) -> None:
    phone, unit = target.phone, target.unit()
    first = target.send(phone.signed_record(phone.start(unit)))["sha256"]
    receive_decision(target.store, target.desk.signed_decision(first), target.desk.person, 12)
    for previous in (None, "0" * 64):
        assert target.codes(phone.signed_record(phone.start(unit), previous=previous))[0].startswith("chain")
    assert target.send(phone.signed_record(phone.start(unit), previous=first))["state"] == "signed"


def test_a_record_for_somebody_elses_visit_names_who_signed_it(target) -> None:
    """Anybody may finish a visit, but only with entries that are their own or had come from their owner."""
    visit = target.desk.start(target.unit())
    theirs = target.desk.entries(visit.id)
    assert "event_unknown" in target.codes(target.phone.signed_record(visit, theirs))
    record = target.phone.signed_record(visit)
    assert target.send(record)["state"] == "signed"
    assert target.store.records.of_visit(visit.id)[0].person == target.phone.person.id


def test_entries_in_a_record_are_not_those_of_a_revoked_phone(target) -> None:
    old = Phone(target.store, target.phone.person, "old phone")
    visit = target.visit()
    entries = old.entries(visit.id)
    target.store.devices.revoke(old.thumbprint)
    assert "event_device" in target.codes(target.phone.signed_record(visit, entries))
