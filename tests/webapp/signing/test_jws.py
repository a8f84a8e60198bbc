"""Signatures: published vectors, what joserfc makes of ours, and what must be refused."""

import base64
import hashlib
import hmac
import json
from pathlib import Path

import pytest
import rfc8785
from joserfc import jwk
from joserfc import jws as jose

from webapp.signing import jws
from webapp.signing.jws import NotValid

VECTORS = Path(__file__).parents[2] / "vectors"
ORDER = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551  # of P-256, FIPS 186-4 D.1.2.3
A3 = json.loads((VECTORS / "rfc7515" / "a3.json").read_text())
KEY = A3["key"]
PUBLIC = {name: KEY[name] for name in ("kty", "crv", "x", "y")}


def encoded(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


def decoded(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def made(header: dict, payload: bytes = b"{}", signature: bytes = bytes(64)) -> str:
    return ".".join((encoded(json.dumps(header).encode()), encoded(payload), encoded(signature)))


HEADER = {"alg": "ES256", "kid": jws.thumbprint(KEY), "typ": jws.RECORD}


@pytest.fixture
def signed() -> str:
    return jws.sign({"a": 1}, KEY, jws.RECORD)


def test_the_signature_of_rfc_7515_a3_verifies() -> None:
    """Its header lacks kid and typ, so it is taken apart here and verified by the same call as ours."""
    message = jws.Message(A3["jws"], "", "", *map(decoded, A3["jws"].split(".")[1:]))
    assert jws.verify(message, PUBLIC) == A3["payload"].encode()


def test_the_header_of_rfc_7515_a3_is_not_one_of_ours() -> None:
    with pytest.raises(NotValid, match="must hold alg ES256, kid and typ"):
        jws.read(A3["jws"])


def test_the_thumbprint_of_rfc_7638_ignores_other_members() -> None:
    vector = json.loads((VECTORS / "rfc7638" / "3.1.json").read_text())
    assert jws.thumbprint(vector["key"]) == vector["thumbprint"]


def test_the_thumbprint_of_a_p_256_key_is_the_hash_of_its_four_members() -> None:
    key = json.loads((VECTORS / "rfc7517" / "a1.json").read_text())["key"]
    members = '{{"crv":"P-256","kty":"EC","x":"{x}","y":"{y}"}}'.format(**key)  # RFC 7638 3.2 and 3.3
    assert jws.thumbprint(key) == encoded(hashlib.sha256(members.encode()).digest())


def test_joserfc_verifies_what_we_sign(signed: str) -> None:
    found = jose.deserialize_compact(signed, jwk.import_key(PUBLIC), algorithms=["ES256"])
    assert found.payload == rfc8785.dumps({"a": 1})
    assert found.headers() == HEADER


def test_what_we_sign_verifies(signed: str) -> None:
    message = jws.read(signed)
    assert (message.typ, message.kid) == (jws.RECORD, jws.thumbprint(PUBLIC))
    assert jws.verify(message, PUBLIC) == b'{"a":1}'


def test_a_large_record_can_be_signed() -> None:
    value = {"text": "x" * 500_000}
    assert jws.verify(jws.read(jws.sign(value, KEY, jws.RECORD)), PUBLIC) == rfc8785.dumps(value)


@pytest.mark.parametrize(
    "header",
    [
        HEADER | {"alg": "none"},
        HEADER | {"alg": "HS256"},
        HEADER | {"alg": "ES384"},
        HEADER | {"jwk": PUBLIC},
        HEADER | {"jku": "https://example.org/keys"},
        HEADER | {"x5c": ["MIIB"]},
        HEADER | {"crit": ["exp"], "exp": 1},
        {"alg": "ES256", "typ": jws.RECORD},
        HEADER | {"kid": 7},
        [],
    ],
)
def test_other_headers_are_refused(header: dict) -> None:
    with pytest.raises(NotValid) as error:
        jws.read(made(header))
    assert error.value.code == "header_not_allowed"


def test_the_public_key_as_a_shared_secret_is_refused() -> None:
    """The confusion of keys of RFC 8725 2.1: HS256 with the public key as its secret."""
    head = ".".join(made(HEADER | {"alg": "HS256"}).split(".")[:2])
    secret = hmac.digest(json.dumps(PUBLIC).encode(), head.encode(), "sha256")
    with pytest.raises(NotValid, match="must hold alg ES256"):
        jws.read(f"{head}.{encoded(secret)}")


@pytest.mark.parametrize("text", ["", "a.b", "a.b.c.d", "!.b.c", "e30.e30.é", "e30=.e30.e30", "e31.e30.e30"])
def test_text_that_is_no_jws_is_refused(text: str) -> None:
    with pytest.raises(NotValid) as error:
        jws.read(text)
    assert error.value.code in {"not_a_jws", "header_not_allowed"}


def test_a_der_signature_is_refused() -> None:
    head, payload, _ = A3["jws"].split(".")
    der = bytes.fromhex(A3["signature_der_hex"])
    text = ".".join((encoded(json.dumps(HEADER).encode()), payload, encoded(der)))
    with pytest.raises(NotValid, match="64 bytes"):
        jws.read(text)
    with pytest.raises(NotValid, match="does not fit"):
        jws.verify(jws.Message(f"{head}.{payload}.{encoded(der)}", "", "", b"", der), PUBLIC)


@pytest.mark.parametrize("part", [0, 1, 2])
def test_one_changed_bit_anywhere_is_noticed(signed: str, part: int) -> None:
    parts = [bytearray(decoded(one)) for one in signed.split(".")]
    parts[part][-3] ^= 1
    with pytest.raises(NotValid):
        jws.verify(jws.read(".".join(encoded(bytes(one)) for one in parts)), PUBLIC)


def test_another_key_does_not_verify(signed: str) -> None:
    with pytest.raises(NotValid, match="does not fit"):
        jws.verify(jws.read(signed), jws.new_key())


def test_the_other_form_of_a_signature_verifies_and_signs_the_same_payload(signed: str) -> None:
    """(r, n - s) is as good as (r, s): a record is named by its payload, never by its signature."""
    head, payload, signature = signed.split(".")
    r, s = decoded(signature)[:32], int.from_bytes(decoded(signature)[32:], "big")
    twin = f"{head}.{payload}.{encoded(r + (ORDER - s).to_bytes(32, 'big'))}"
    assert twin != signed
    assert jws.verify(jws.read(twin), PUBLIC) == jws.verify(jws.read(signed), PUBLIC)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"kty": "RSA"}, "elliptic-curve key on P-256"),
        ({"crv": "P-384"}, "elliptic-curve key on P-256"),
        ({"x": KEY["x"][:-1]}, "32 bytes each"),
        ({"y": None}, "32 bytes each"),
        ({"y": "x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a1"}, "not a point on P-256"),
        ({"y": KEY["x"]}, "not a point on P-256"),
    ],
)
def test_only_points_on_p_256_are_keys(change: dict, sentence: str) -> None:
    with pytest.raises(NotValid, match=sentence):
        jws.public(PUBLIC | change)


def test_the_public_part_of_a_key_holds_no_secret() -> None:
    assert jws.public(KEY) == PUBLIC
