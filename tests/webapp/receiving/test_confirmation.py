"""A passkey's confirmation that travels with a record or a decision."""

import hashlib

import pytest

from tests.authenticator import PRESENT, Authenticator, base64url
from tests.phone import Phone
from webapp.passkeys import Place, creation_options, verify_new
from webapp.receiving import receive_decision, receive_record
from webapp.signing import jws
from webapp.store import Store

PLACE = Place.of("https://water.example:8443/app")


def with_passkey(store: Store, person, **options) -> Authenticator:
    authenticator = Authenticator("https://water.example:8443", "water.example", **options)
    made = verify_new(PLACE, "abcd", authenticator.make(creation_options(PLACE, person, "abcd", [])))
    store.passkeys.add(made.id, person.id, "phone", made.public_key, made.counter)
    return authenticator


@pytest.fixture
def passkey(store: Store, people) -> Authenticator:
    return with_passkey(store, people["installer"], counter=0)


@pytest.fixture
def signed(phone: Phone, unit) -> str:
    return phone.signed_record(phone.start(unit))


def hash_in(text: str) -> str:
    """The challenge as docs/api.md states it: the SHA-256 of the payload, as base64url of its bytes."""
    return base64url(hashlib.sha256(jws.read(text).payload).digest())


def send(store: Store, phone: Phone, text: str, assertion: dict):
    return receive_record(store, text, phone.person, assertion, PLACE)


def test_a_confirmed_record_is_kept_with_its_confirmation(store, phone: Phone, passkey, signed) -> None:
    assertion = passkey.confirm(hash_in(signed))
    answer = send(store, phone, signed, assertion)
    assert answer.state == "signed", answer.reasons
    kept = store.passkeys.confirmation(answer.sha256)
    assert (kept.passkey, kept.assertion) == (assertion["id"], assertion)
    assert send(store, phone, signed, assertion).state == "signed", "sent again, it is the same record"


def test_without_a_confirmation_the_password_was_asked_for(store, phone: Phone, passkey, signed) -> None:
    answer = receive_record(store, signed, phone.person, None, PLACE)
    assert answer.state == "signed"
    assert store.passkeys.confirmation(answer.sha256) is None


@pytest.mark.parametrize(
    "changes", [{"flags": PRESENT}, {"origin": "https://elsewhere.example"}, {"type": "webauthn.create"}]
)
def test_a_confirmation_that_does_not_hold_quarantines_the_record(
    store, phone: Phone, passkey, signed, changes: dict
) -> None:
    answer = send(store, phone, signed, passkey.confirm(hash_in(signed), **changes))
    assert answer.state == "quarantined"
    assert [(reason["code"], reason["field"]) for reason in answer.reasons] == [
        ("assertion_invalid", "assertion")
    ]


def test_the_confirmation_of_another_record_does_not_hold(store, phone: Phone, passkey, signed, unit) -> None:
    other = passkey.confirm(base64url(hashlib.sha256(b"another document").digest()))
    assert send(store, phone, signed, other).reasons[0]["code"] == "assertion_invalid"


def test_somebody_elses_passkey_does_not_confirm(store, phone: Phone, people, signed) -> None:
    theirs = with_passkey(store, people["supervisor"])
    answer = send(store, phone, signed, theirs.confirm(hash_in(signed)))
    assert answer.reasons[0]["code"] == "assertion_unknown"


def test_a_removed_passkey_does_not_confirm(store, phone: Phone, passkey, signed) -> None:
    assertion = passkey.confirm(hash_in(signed))
    store.passkeys.remove(assertion["id"])
    answer = send(store, phone, signed, assertion)
    assert "was removed on 2026-11-25" in answer.reasons[0]["detail"]


def test_confirmations_without_signal_may_arrive_in_another_order(store, phone: Phone, passkey, unit) -> None:
    first, second = (phone.signed_record(phone.start(unit)) for _ in range(2))
    early, late = passkey.confirm(hash_in(first)), passkey.confirm(hash_in(second))
    assert send(store, phone, second, late).state == "signed"
    assert send(store, phone, first, early).state == "signed"
    assert store.passkeys.get(late["id"]).counter == 3, "one for its making, then two"


def test_a_decision_is_confirmed_alike(store, phone: Phone, desk: Phone, people, signed) -> None:
    record = receive_record(store, signed, phone.person).sha256
    passkey = with_passkey(store, people["supervisor"])
    text = desk.signed_decision(record)
    forged = passkey.confirm(hash_in(text), origin="https://elsewhere.example")
    refused = receive_decision(store, text, desk.person, 12, forged, PLACE)
    assert (refused.state, refused.reasons[0]["code"]) == ("quarantined", "assertion_invalid")
    answer = receive_decision(store, text, desk.person, 12, passkey.confirm(hash_in(text)), PLACE)
    assert answer.state == "accepted", answer.reasons
    assert store.passkeys.confirmation(answer.sha256) is not None


def test_nobody_countersigns_own_work_in_another_role_or_on_a_colleagues_phone(
    store, phone: Phone, people, signed
) -> None:
    ilse = people["installer"]
    record = receive_record(store, signed, ilse).sha256
    store.people.set_role(ilse.id, "supervisor")
    again = Phone(store, store.people.get(ilse.id), "office desk")
    own = receive_decision(store, again.signed_decision(record), again.person, 12)
    assert (own.state, own.reasons[0]["code"]) == ("quarantined", "own_work")
    theirs = Phone(store, people["supervisor"])
    theirs.person = store.people.get(ilse.id)  # signs with the colleague's phone, in the own name
    borrowed = receive_decision(store, theirs.signed_decision(record), theirs.person, 12)
    assert borrowed.state == "quarantined"
    assert "signer_differs" in {reason["code"] for reason in borrowed.reasons}
