"""Whether a passkey confirmed a document, found out without the server that asked for it."""

import base64
import json
from collections.abc import Mapping
from typing import Any

from webapp.commands.documents import Confirmed
from webapp.passkeys import ASSERTION, NotConfirmed, Place, challenge_of, verify_assertion
from webapp.signing import Finding
from webapp.signing.shapes import wrong_places
from webapp.store import Passkey


def check_confirmation(sha256: str, signer: str, confirmed: Confirmed) -> tuple[list[Finding], list[str]]:
    """Findings and notes about the confirmation of the document with this identity.

    The address is the one that the answer itself names; the note tells it, for the reader to compare.
    """
    known = confirmed.passkey
    if known is None:
        return [], ["Confirmed with a passkey whose public key is not here, so that this was not verified."]
    if known["person"] != signer:
        detail = "The passkey that confirmed the signature is not one of the signer's."
        return [Finding("assertion_unknown", detail, "assertion")], []
    for place, what in wrong_places(ASSERTION, dict(confirmed.assertion)):
        detail = f"The passkey's answer cannot be read: {place} {what}."
        return [Finding("assertion_invalid", detail, "assertion")], []
    passkey = as_then(known, confirmed.verified_at)
    try:
        address = claimed_origin(confirmed.assertion)
        verify_assertion(
            Place.of(address), challenge_of(sha256), passkey, confirmed.assertion, in_order=False
        )
    except NotConfirmed as error:
        return [Finding("assertion_invalid", str(error), "assertion")], []
    return [], [f"Confirmed with a passkey of the signer at {address}."]


def as_then(known: Mapping[str, Any], at: str) -> Passkey:
    """The passkey as it was at this time: one that was removed later had not been."""
    removed_at = known["removed_at"]
    return Passkey(
        id=known["id"],
        person=known["person"],
        name=known.get("name", known["id"]),
        public_key=known["public_key"],
        counter=0,
        made_at=known["made_at"],
        removed_at=removed_at if removed_at and removed_at <= at else None,
    )


def claimed_origin(assertion: Mapping[str, Any]) -> str:
    text = assertion["clientDataJSON"]
    try:
        return str(json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))["origin"])
    except (ValueError, KeyError, TypeError) as error:
        raise NotConfirmed("passkey_not_valid", "The passkey's answer cannot be read.") from error
