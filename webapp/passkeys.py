"""Passkeys (W3C Web Authentication, level 2): what a browser is asked, and whether its answer holds.

An answer counts only with user verification (finger, face or the device's code), for our own address and
our own challenge. The challenge of a signature is the hash of the document that is signed, so that the
confirmation of one document can never stand for another.
"""

import secrets
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

from webauthn import (
    generate_registration_options,
    verify_authentication_response,
    verify_registration_response,
)
from webauthn.helpers import (
    base64url_to_bytes,
    bytes_to_base64url,
    options_to_json_dict,
    parse_client_data_json,
)
from webauthn.helpers.exceptions import WebAuthnException
from webauthn.helpers.structs import (
    AuthenticationCredential,
    AuthenticatorAssertionResponse,
    AuthenticatorSelectionCriteria,
    PublicKeyCredentialDescriptor,
    ResidentKeyRequirement,
    UserVerificationRequirement,
)

from webapp.signing.shapes import Optional, Text
from webapp.store import Passkey, Person

BYTES = r"[A-Za-z0-9_-]+"
ID = Text("a credential id in base64url", 1400, BYTES, 1)

# The names are those of the standard: any tool that knows it can verify what is kept.
ASSERTION = {
    "id": ID,
    "clientDataJSON": Text("base64url", 8000, BYTES, 1),
    "authenticatorData": Text("base64url", 4000, BYTES, 1),
    "signature": Text("base64url", 4000, BYTES, 1),
    "userHandle": Optional((Text("base64url", 100, BYTES, 1), type(None))),
}
NEW_CREDENTIAL = {
    "id": ID,
    "clientDataJSON": Text("base64url", 8000, BYTES, 1),
    "attestationObject": Text("base64url", 40_000, BYTES, 1),
}


class NotConfirmed(ValueError):  # noqa: N818 - named as what it says, like NotInStore
    """What the browser answered does not hold; ``code`` is stable, the sentence says what to do."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code


@dataclass(frozen=True)
class Place:
    """Where passkeys are valid: the host name that they belong to, and the address that may ask for them."""

    rp_id: str
    origin: str

    @classmethod
    def of(cls, base_url: str) -> "Place":
        parts = urlsplit(base_url)
        return cls(parts.hostname or "", f"{parts.scheme}://{parts.netloc}")


@dataclass(frozen=True)
class NewKey:
    """``id`` and ``public_key`` in base64url."""

    id: str
    public_key: str
    counter: int


def new_challenge() -> str:
    """256 random bits in base64url."""
    return secrets.token_urlsafe(32)


def challenge_of(sha256: str) -> str:
    """The challenge that confirms the document with this identity: the hash itself, in base64url."""
    return bytes_to_base64url(bytes.fromhex(sha256))


def handle_of(person: str) -> str:
    """What an authenticator keeps to say whose passkey it is: the id, which says nothing about the person."""
    return bytes_to_base64url(person.encode())


def creation_options(
    place: Place, person: Person, challenge: str, known: Iterable[Passkey]
) -> dict[str, Any]:
    """``PublicKeyCredentialCreationOptions`` in JSON: a discoverable credential, without attestation."""
    options = generate_registration_options(
        rp_id=place.rp_id,
        rp_name="Firstwater",
        user_id=person.id.encode(),
        user_name=person.login,
        user_display_name=person.name,
        challenge=base64url_to_bytes(challenge),
        authenticator_selection=AuthenticatorSelectionCriteria(
            resident_key=ResidentKeyRequirement.REQUIRED,
            user_verification=UserVerificationRequirement.REQUIRED,
        ),
        exclude_credentials=[PublicKeyCredentialDescriptor(base64url_to_bytes(one.id)) for one in known],
    )
    return options_to_json_dict(options)


def verify_new(place: Place, challenge: str, answer: Mapping[str, str]) -> NewKey:
    """The key that an authenticator has made; ``answer`` has the shape ``NEW_CREDENTIAL``."""
    refuse_embedded(answer["clientDataJSON"])
    response = {name: answer[name] for name in ("clientDataJSON", "attestationObject")}
    try:
        made = verify_registration_response(
            credential={
                "id": answer["id"],
                "rawId": answer["id"],
                "type": "public-key",
                "response": response,
            },
            expected_challenge=base64url_to_bytes(challenge),
            expected_rp_id=place.rp_id,
            expected_origin=place.origin,
            require_user_verification=True,
        )
    except (WebAuthnException, ValueError) as error:
        raise NotConfirmed("passkey_not_valid", f"The new passkey does not verify: {error}.") from error
    return NewKey(
        bytes_to_base64url(made.credential_id),
        bytes_to_base64url(made.credential_public_key),
        made.sign_count,
    )


def verify_assertion(
    place: Place, challenge: str, passkey: Passkey, answer: Mapping[str, Any], *, in_order: bool
) -> int:
    """The authenticator's counter, if ``answer`` (shape ``ASSERTION``) confirms ``challenge``.

    ``in_order``: the counter must have grown since it was last seen. A confirmation that was made without
    signal may arrive after a later one, so that its counter says nothing.
    """
    if passkey.removed_at is not None:
        raise NotConfirmed(
            "passkey_removed", f"The passkey {passkey.name} was removed on {passkey.removed_at}."
        )
    if answer.get("userHandle") not in (None, handle_of(passkey.person)):
        raise NotConfirmed("passkey_not_valid", "The passkey names somebody else.")
    refuse_embedded(answer["clientDataJSON"])
    try:
        seen = verify_authentication_response(
            credential=as_credential(answer),
            expected_challenge=base64url_to_bytes(challenge),
            expected_rp_id=place.rp_id,
            expected_origin=place.origin,
            credential_public_key=base64url_to_bytes(passkey.public_key),
            credential_current_sign_count=0,
            require_user_verification=True,
        )
    except (WebAuthnException, ValueError) as error:
        raise NotConfirmed("passkey_not_valid", f"The passkey's answer does not verify: {error}.") from error
    # Zero for good is what passkeys say that are kept on several devices.
    if in_order and max(seen.new_sign_count, passkey.counter) > 0 and seen.new_sign_count <= passkey.counter:
        raise NotConfirmed(
            "passkey_counter", "The passkey's counter went back: it may have been copied. Use your password."
        )
    return seen.new_sign_count


def as_credential(answer: Mapping[str, Any]) -> AuthenticationCredential:
    raw = {name: base64url_to_bytes(value) for name, value in answer.items() if value is not None}
    response = AuthenticatorAssertionResponse(
        raw["clientDataJSON"], raw["authenticatorData"], raw["signature"], raw.get("userHandle")
    )
    return AuthenticationCredential(id=answer["id"], raw_id=raw["id"], response=response)


def refuse_embedded(client_data: str) -> None:
    """An answer that was given inside a page of another site was not asked for by ours."""
    try:
        embedded = parse_client_data_json(base64url_to_bytes(client_data)).cross_origin
    except (WebAuthnException, ValueError, TypeError, AttributeError) as error:
        raise NotConfirmed("passkey_not_valid", "The passkey's answer cannot be read.") from error
    if embedded:
        raise NotConfirmed("passkey_not_valid", "The passkey was asked for inside another page.")
