"""Sentences of the interface, by code: what happened and what to do next."""

from string import Template

from webapp.language import say

PROBLEMS: dict[str, tuple[str, str]] = {
    "bad_request": ("The request could not be read", "Go back, reload the page and try again."),
    "not_signed_in": (
        "You are not signed in",
        "Sign in again. What you entered is kept on this phone until then.",
    ),
    "new_password_needed": (
        "Choose your own password first",
        "You signed in with a one-time password. Open your account and choose your own.",
    ),
    "forbidden": (
        "You may not do this",
        "Your role does not allow it. Ask an administrator if you need it.",
    ),
    "not_found": (
        "There is nothing here",
        "The address may be mistyped, or the thing it named is not in this record.",
    ),
    "method_not_allowed": (
        "This address cannot be used like that",
        "Go back and use the page's own buttons.",
    ),
    "too_large": ("This is too large", "Send a smaller file or fewer entries at a time."),
    "wrong_media_type": (
        "This kind of content is not accepted",
        "Send JSON, or a JPEG where a photo is meant.",
    ),
    "csrf": (
        "This page was open too long",
        "Reload the page and send it again. Nothing was changed.",
    ),
    "too_many_attempts": (
        "Too many attempts",
        "Wait $seconds s, then try again.",
    ),
    "too_many_calls": (
        "Too many requests",
        "Wait $seconds s, then go on. Nothing was changed, and nothing on this phone is lost.",
    ),
    "wrong_password": ("That is not your password", "Check it and enter it again."),
    "challenge_old": (
        "This took too long",
        "Load the page again and use the passkey within five minutes. Nothing was changed.",
    ),
    "passkey_unknown": (
        "This passkey does not open an account",
        "It may have been removed. Sign in with your password.",
    ),
    "passkey_counter": (
        "This passkey may have been copied",
        "Sign in with your password, remove the passkey from your account and make a new one.",
    ),
    "passkey_not_valid": ("The passkey could not be verified", "Try again, or use your password."),
    "passkey_taken": (
        "This passkey is known already",
        "Remove it from the device's own list of passkeys, then add it again.",
    ),
    "too_many_passkeys": ("There are too many passkeys", "Remove one that you do not use any more."),
    "not_json": ("The request could not be read", "Send well-formed JSON."),
    "shape": (
        "The request has another shape than expected",
        "Load the page again to get the present version.",
    ),
    "not_canonical": ("The signed content is not canonical", "Load the app again and sign anew."),
    "not_a_jws": ("This is not a signed message", "Load the app again and sign anew."),
    "header_not_allowed": (
        "The signature has another form than expected",
        "Load the app again and sign anew.",
    ),
    "signature_wrong": ("The signature does not fit", "Load the app again and sign anew."),
    "key_not_allowed": ("This key cannot be used", "Prepare the phone again to make a new key."),
    "private_key": ("This key must stay on the phone", "Send the public key only."),
    "proof_differs": ("The proof does not fit", "Prepare the phone again."),
    "key_of_another": ("This key belongs to somebody else", "Prepare the phone again to make a new key."),
    "device_unknown": ("This phone is not prepared for you", "Prepare the phone, then send again."),
    "device_revoked": ("This phone was revoked", "Prepare the phone again to make a new key."),
    "id_taken": (
        "This id belongs to something else",
        "Export what is on this phone and tell your supervisor.",
    ),
    "hash_differs": ("The content arrived damaged", "Send it again."),
    "size_differs": ("The parts do not belong together", "Send the photo anew, from its first part."),
    "range_wrong": ("The part does not fit", "Send the photo anew, from its first part."),
    "not_a_photo": ("This is not a photo that can be kept", "Send a JPEG photo of at most 8 MB."),
    "unit_unknown": (
        "This unit is not known here",
        "Fetch the units again, or ask an administrator to add it.",
    ),
    "procedure_unknown": (
        "This version of the procedure is not known here",
        "Update the app; the visit and its entries are kept on this phone.",
    ),
    "server_error": (
        "Something went wrong on the server",
        "Nothing you entered on this phone is lost. Try again in a few minutes.",
    ),
    "storage_full": (
        "The server's disk is full",
        "Nothing was changed, and nothing on this phone is lost. Tell whoever runs the server to free space.",
    ),
    "storage_busy": (
        "The server is busy",
        "Nothing was changed, and nothing on this phone is lost. Try again in a minute.",
    ),
    "storage_failed": (
        "The server cannot write to its disk",
        "Nothing was changed, and nothing on this phone is lost. Tell whoever runs the server.",
    ),
}

BY_STATUS = {
    400: "bad_request",
    401: "not_signed_in",
    403: "forbidden",
    404: "not_found",
    405: "method_not_allowed",
    413: "too_large",
    415: "wrong_media_type",
    429: "too_many_attempts",
    500: "server_error",
}


def problem_sentences(code: str, **details: object) -> tuple[str, str]:
    """Title and detail of a problem, with ``details`` put in."""
    title, detail = map(say, PROBLEMS[code])
    return title, Template(detail).safe_substitute({name: str(value) for name, value in details.items()})
