"""What the phone signs is what the server reads: the same bytes, and a signature that Python verifies."""

import hashlib
import json
import string

import pytest
import rfc8785
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from joserfc import jws
from joserfc.errors import BadSignatureError
from joserfc.jwk import ECKey

pytestmark = pytest.mark.browser

SAFE = 2**53 - 1
TEXT = some.text(some.characters(exclude_categories=["Cs"]), max_size=12)
NUMBERS = some.integers(-SAFE, SAFE) | some.floats(allow_nan=False, allow_infinity=False)
VALUES = some.recursive(
    some.none() | some.booleans() | NUMBERS | TEXT,
    lambda inner: some.lists(inner, max_size=4) | some.dictionaries(TEXT, inner, max_size=4),
    max_leaves=12,
)

CANONICAL = """async texts => {
  const { canonicalBytes } = await import("/static/signing/jws.js");
  return texts.map(text => new TextDecoder().decode(canonicalBytes(JSON.parse(text))));
}"""

SIGN = """async payload => {
  const { signer } = await import("/tests/prepared.js");
  const { signCompact } = await import("/static/signing/device-key.js");
  const { canonicalHash } = await import("/static/signing/jws.js");
  const { jwk, thumbprint } = await signer();
  return { jws: await signCompact(payload, "firstwater-record+jws"), jwk, thumbprint,
           sha256: await canonicalHash(payload) };
}"""

PROOF = """async () => {
  const { signer, PERSON } = await import("/tests/prepared.js");
  const { proofOf } = await import("/static/signing/device-key.js");
  const key = await signer();
  return { jws: await proofOf(key, PERSON), jwk: key.jwk };
}"""

VERIFIER = """async password => {
  const { makeVerifier } = await import("/static/signing/device-key.js");
  const { salt, iterations, bits } = await makeVerifier(password);
  return { salt: Array.from(salt), iterations, bits: Array.from(bits) };
}"""

PAYLOAD = {
    "site": "Prüfraum",
    "numbers": [0.1, 1e21, 5e-324, -0.0],
    "\u20ac": None,
    "\ufb33": [True, {}],
    "a": "",
}


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(some.lists(VALUES, min_size=20, max_size=20))
def test_phone_and_server_write_the_same_canonical_json(page, values):
    texts = [json.dumps(value) for value in values]
    assert page.evaluate(CANONICAL, texts) == [rfc8785.dumps(value).decode() for value in values]


def test_a_signature_of_the_phone_verifies_with_joserfc(page):
    made = page.evaluate(SIGN, PAYLOAD)
    key = ECKey.import_key(made["jwk"])
    token = jws.deserialize_compact(made["jws"], key, algorithms=["ES256"])
    assert token.headers() == {
        "alg": "ES256",
        "kid": made["thumbprint"],
        "typ": "firstwater-record+jws",
    }
    assert token.payload == rfc8785.dumps(PAYLOAD)
    assert made["sha256"] == hashlib.sha256(token.payload).hexdigest()
    assert key.thumbprint() == made["thumbprint"]


def test_an_altered_payload_does_not_verify(page):
    made = page.evaluate(SIGN, PAYLOAD)
    header, payload, signature = made["jws"].split(".")
    letter = next(other for other in string.ascii_letters if other != payload[10])
    altered = ".".join([header, payload[:10] + letter + payload[11:], signature])
    with pytest.raises(BadSignatureError, match="bad_signature"):
        jws.deserialize_compact(altered, ECKey.import_key(made["jwk"]), algorithms=["ES256"])


def test_the_proof_of_enrolment_names_the_person_and_verifies(page):
    made = page.evaluate(PROOF)
    token = jws.deserialize_compact(made["jws"], ECKey.import_key(made["jwk"]), algorithms=["ES256"])
    payload = json.loads(token.payload)
    assert token.headers()["typ"] == "firstwater-device+jws"
    assert payload | {"at": ""} == {"type": "firstwater-device", "person": "p-1", "at": ""}


def test_the_verifier_is_pbkdf2_with_600000_rounds_of_sha256(page):
    made = page.evaluate(VERIFIER, "correct horse")
    assert made["iterations"] == 600_000
    expected = hashlib.pbkdf2_hmac("sha256", b"correct horse", bytes(made["salt"]), 600_000)
    assert bytes(made["bits"]) == expected
