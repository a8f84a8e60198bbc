"""A decision whose form carries a passkey's confirmation instead of the password."""

import hashlib
import json

import pytest

from tests.authenticator import Authenticator, base64url
from webapp.office.offer import MEANINGS
from webapp.passkeys import Place, creation_options, verify_new
from webapp.signing import jws


@pytest.fixture
def passkey(store, supervisor) -> Authenticator:
    authenticator, place = Authenticator(), Place.of("http://localhost")
    made = verify_new(place, "abcd", authenticator.make(creation_options(place, supervisor, "abcd", [])))
    store.passkeys.add(made.id, supervisor.id, "desk", made.public_key, made.counter)
    return authenticator


def send(sign_in, supervisor, record, text: str, assertion: str):
    fields = {"decision": "accepted", "reasons": "", "password": "", "jws": text, "assertion": assertion}
    return sign_in(supervisor).press(f"/office/records/{record.sha256}/decision", **fields)


def test_the_passkey_stands_in_for_the_password(sign_in, supervisor, waiting, desk, passkey, store) -> None:
    record = waiting()
    text = desk.signed_decision(record.sha256, meaning=MEANINGS["accepted"])
    challenge = base64url(hashlib.sha256(jws.read(text).payload).digest())
    answer = send(sign_in, supervisor, record, text, json.dumps(passkey.confirm(challenge)))
    assert answer.status_code == 303, answer.text
    decision = store.records.get(record.sha256).decision
    assert store.passkeys.confirmation(decision.sha256) is not None


@pytest.mark.parametrize("what", ["nonsense", "{}", "[]", '{"id": 1}', "other challenge"])
def test_what_does_not_confirm_decides_nothing(
    sign_in, supervisor, waiting, desk, passkey, store, what: str
) -> None:
    """The form must not be a way around the password."""
    record = waiting()
    text = desk.signed_decision(record.sha256, meaning=MEANINGS["accepted"])
    assertion = json.dumps(passkey.confirm("AAAA")) if what == "other challenge" else what
    answer = send(sign_in, supervisor, record, text, assertion)
    assert answer.status_code == 200
    assert "passkey" in answer.text
    assert store.records.get(record.sha256).decision is None
