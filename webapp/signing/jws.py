"""Compact JWS with ES256 (RFC 7515, RFC 7518 3.4), and nothing else.

The header holds ``alg``, ``kid`` and ``typ`` and no more: a key, or the place of one, inside the message
(``jwk``, ``jku``, ``x5c``, ``x5u``) and ``crit`` are refused: a message must not choose its own key.
"""

import base64
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from joserfc import jwk as jose_keys
from joserfc import jws as jose
from joserfc.errors import JoseError

from webapp.signing.canonical import NotCanonical, canonical, parse

RECORD = "firstwater-record+jws"
DECISION = "firstwater-decision+jws"
DEVICE = "firstwater-device+jws"

LARGEST = 8 * 1024 * 1024
MEMBERS = ("kty", "crv", "x", "y")  # of a public key
COORDINATE = re.compile(r"[A-Za-z0-9_-]{43}")

REGISTRY = jose.JWSRegistry(algorithms=["ES256"])
REGISTRY.max_payload_length = LARGEST  # joserfc stops at 128 kB; a record with long series is larger
ES256 = REGISTRY.get_alg("ES256")


class NotValid(ValueError):  # noqa: N818 - says what the signature is
    """``code`` says what is wrong with the message or the key."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code


@dataclass(frozen=True)
class Message:
    """A JWS taken apart; nothing about it is verified yet."""

    text: str
    typ: str
    kid: str
    payload: bytes
    signature: bytes


def read(text: str) -> Message:
    """Take a compact JWS apart, or say why it is none of ours (:class:`NotValid`)."""
    parts = text.split(".")
    if len(text) > LARGEST or len(parts) != 3:
        raise NotValid("not_a_jws", "This is not a signed message of three parts.")
    header_bytes, payload, signature = (_decoded(part) for part in parts)
    header = _header(header_bytes)
    if len(signature) != 64:
        raise NotValid("signature_wrong", "An ES256 signature has 64 bytes: r and s, 32 each.")
    return Message(text, header["typ"], header["kid"], payload, signature)


def _header(data: bytes) -> dict[str, str]:
    try:
        header = parse(data)
    except NotCanonical as error:
        raise NotValid("not_a_jws", "The header of the signed message is not JSON.") from error
    if not isinstance(header, dict) or set(header) != {"alg", "kid", "typ"} or header["alg"] != "ES256":
        raise NotValid("header_not_allowed", "The header must hold alg ES256, kid and typ, and nothing else.")
    if not all(isinstance(value, str) for value in header.values()):
        raise NotValid("header_not_allowed", "kid and typ must be texts.")
    return header


def _decoded(part: str) -> bytes:
    try:
        text = part.encode("ascii")
        data = base64.urlsafe_b64decode(text + b"=" * (-len(part) % 4))
    except ValueError as error:
        raise NotValid("not_a_jws", "A part of the signed message is not base64url.") from error
    # Python skips stray bits, padding and strange characters: two texts for the same bytes would pass.
    if base64.urlsafe_b64encode(data).rstrip(b"=") != text:
        raise NotValid("not_a_jws", "A part of the signed message is not plain base64url.")
    return data


def verify(message: Message, jwk: dict[str, Any]) -> bytes:
    """The payload, if ``jwk`` signed it; :class:`NotValid` otherwise."""
    signed = message.text.rpartition(".")[0].encode("ascii")
    # Not through deserialize_compact, which would take the text apart once more.
    if not ES256.verify(signed, message.signature, _key(**public(jwk))):
        raise NotValid("signature_wrong", "The signature does not fit the content and the key.")
    return message.payload


def sign(value: Any, key: dict[str, Any], typ: str) -> str:
    """The JWS over the canonical bytes of ``value``; ``key`` is a private JWK on P-256."""
    header = {"alg": "ES256", "kid": thumbprint(key), "typ": typ}
    return jose.serialize_compact(header, canonical(value), jose_keys.import_key(key), registry=REGISTRY)


def new_key() -> dict[str, Any]:
    """A private JWK on P-256, for the demo and for tests: a phone makes its own and never gives it away."""
    return dict(jose_keys.generate_key("EC", "P-256").as_dict(private=True))


def public(jwk: dict[str, Any]) -> dict[str, str]:
    """The required members of a public P-256 key, checked; :class:`NotValid` for anything else."""
    members = {name: str(jwk.get(name)) for name in MEMBERS}
    if members["kty"] != "EC" or members["crv"] != "P-256":
        raise NotValid("key_not_allowed", "The key must be an elliptic-curve key on P-256.")
    if not all(COORDINATE.fullmatch(members[name]) for name in ("x", "y")):
        raise NotValid("key_not_allowed", "The coordinates of the key must be 32 bytes each, in base64url.")
    try:
        _key(**members)
    except (JoseError, ValueError) as error:
        raise NotValid("key_not_allowed", "The coordinates are not a point on P-256.") from error
    return members


@lru_cache(maxsize=1000)  # a server meets the same phones again and again
def _key(kty: Any, crv: Any, x: Any, y: Any) -> jose_keys.Key:
    """A public key, ready for use; JoseError or ValueError for a point off the curve."""
    key = jose_keys.import_key({"kty": kty, "crv": crv, "x": x, "y": y})
    key.public_key  # noqa: B018 - made on access, and kept
    return key


def thumbprint(jwk: dict[str, Any]) -> str:
    """The name of a key (RFC 7638)."""
    if jwk.get("kty") == "EC":
        return _thumbprint(*(jwk.get(name) for name in MEMBERS))
    return jose_keys.import_key(jwk).thumbprint()


@lru_cache(maxsize=1000)
def _thumbprint(kty: Any, crv: Any, x: Any, y: Any) -> str:
    return _key(kty, crv, x, y).thumbprint()
