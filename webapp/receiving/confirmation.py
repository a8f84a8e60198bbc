"""A passkey's confirmation that comes with a signed document: verified, then kept beside it."""

from typing import Any

from webapp.passkeys import NotConfirmed, Place, challenge_of, verify_assertion
from webapp.signing import Finding
from webapp.store import Store


def unconfirmed(
    store: Store, sha256: str, signer: str, assertion: dict[str, Any] | None, place: Place | None
) -> list[Finding]:
    """Why the confirmation does not hold. Without one there is nothing to find: the password was asked for.

    ``sha256`` is the identity of the document, ``signer`` the id of the person who signed it.
    """
    if assertion is None or place is None:
        return []
    passkey = store.passkeys.find(assertion["id"])
    if passkey is None or passkey.person != signer:
        detail = "The passkey that confirmed the signature is not one of the signer's."
        return [Finding("assertion_unknown", detail, "assertion")]
    try:
        counter = verify_assertion(place, challenge_of(sha256), passkey, assertion, in_order=False)
    except NotConfirmed as error:
        return [Finding("assertion_invalid", str(error), "assertion")]
    store.passkeys.note_use(passkey.id, counter)
    return []


def keep_confirmation(store: Store, sha256: str, assertion: dict[str, Any] | None) -> None:
    if assertion is not None:
        store.passkeys.keep_confirmation(sha256, assertion["id"], assertion)
