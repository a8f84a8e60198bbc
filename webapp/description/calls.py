"""Every call under /api/: what it is for, who may make it, what it takes, what it answers."""

from dataclasses import dataclass
from typing import Any

from webapp.accounts import devices, passkeys
from webapp.passkeys import ASSERTION
from webapp.receiving import photos
from webapp.signing import jws
from webapp.signing.shapes import EVENT, NAME, SHA256, UUID, VISIT, Text
from webapp.store.photo_parts import PART
from webapp.sync import answers, routes, work

JPEG = "image/jpeg"
BYTES = "application/octet-stream"
JSON = "application/json"


@dataclass(frozen=True)
class Call:
    """``body`` is a shape, or None; with another ``takes`` than JSON it is bytes. ``largest`` bounds it.

    ``codes`` are the codes of problems by status, beside those that every call has.
    """

    method: str
    path: str
    title: str
    right: str
    answer: Any
    body: Any = None
    takes: str | None = None
    gives: str = JSON
    largest: int = 0
    names: tuple[tuple[str, str, Any], ...] = ()
    codes: tuple[tuple[int, tuple[str, ...]], ...] = ()


SINCE = ("query", "since", Text("the cursor of an earlier answer, or nothing", 80, "[0-9A-F.]*"))
PHOTO_NAME = (("path", "sha256", SHA256),)
RANGE = Text("bytes FIRST-LAST/SIZE", 40, r"bytes [0-9]{1,8}-[0-9]{1,8}/[0-9]{1,8}")

FROM_JSON = ((400, ("not_json", "shape")), (413, ("too_large",)), (415, ("wrong_media_type",)))
PASSWORD_ASKED = ((403, ("wrong_password",)), (429, ("too_many_attempts",)))

CALLS = (
    Call(
        "GET",
        "/api/session",
        "Who is signed in, the token for changes, and the time",
        "signed_in",
        answers.SESSION,
    ),
    Call(
        "POST",
        "/api/devices",
        "Enrol the key of a phone",
        "fill",
        answers.DEVICE,
        body=devices.BODY,
        largest=devices.LARGEST,
        codes=(
            *FROM_JSON,
            *PASSWORD_ASKED,
            (400, ("private_key", "key_not_allowed", "not_a_jws", "header_not_allowed", "signature_wrong")),
            (400, ("not_canonical", "proof_differs")),
            (409, ("key_of_another", "device_revoked")),
        ),
    ),
    Call(
        "GET",
        "/api/work",
        "Everything that is needed to work without signal",
        "fill",
        answers.WORK,
        names=(("query", "have", Text("hashes of procedures, with commas", 4000, "[0-9a-f,]*")), SINCE),
    ),
    Call(
        "GET",
        "/api/units",
        "The next units of work that comes in several answers",
        "fill",
        answers.UNITS,
        names=(SINCE,),
    ),
    Call(
        "POST",
        "/api/held",
        "Say how many of its own entries a phone still has, by open visit; where some are missing",
        "fill",
        answers.HELD,
        body=work.HELD,
        largest=work.LARGEST_HELD,
        codes=(*FROM_JSON, (422, ("device_unknown",))),
    ),
    Call(
        "POST",
        "/api/visits",
        "Begin a visit",
        "fill",
        answers.VISIT,
        body=VISIT,
        largest=routes.LARGEST_VISIT,
        codes=(*FROM_JSON, (409, ("id_taken",)), (422, ("unit_unknown", "procedure_unknown"))),
    ),
    Call(
        "POST",
        "/api/events",
        f"Send entries, at most {routes.MOST_EVENTS}; each is received or refused by itself",
        "fill",
        answers.RECEIVED,
        body={"events": [EVENT]},
        largest=routes.LARGEST_EVENTS,
        codes=FROM_JSON,
    ),
    Call(
        "GET",
        "/api/visits/{visit}/events",
        "The entries of a visit, from every phone",
        "fill",
        answers.EVENTS,
        names=(("path", "visit", UUID), ("query", "after", Text("a whole number", 15, "[0-9]{1,15}"))),
        codes=((400, ("shape",)), (404, ("not_found",))),
    ),
    Call(
        "PUT",
        "/api/photos/{sha256}",
        "Send a photo in one piece",
        "fill",
        answers.PHOTO,
        takes=JPEG,
        largest=photos.LARGEST,
        names=PHOTO_NAME,
        codes=(
            (413, ("too_large",)),
            (415, ("wrong_media_type",)),
            (422, ("not_a_photo", "hash_differs")),
        ),
    ),
    Call(
        "GET",
        "/api/photos/{sha256}",
        "A photo",
        "signed_in",
        None,
        gives=JPEG,
        names=PHOTO_NAME,
        codes=((404, ("not_found",)),),
    ),
    Call(
        "GET",
        "/api/photos/{sha256}/parts",
        "Which parts of a photo are missing",
        "fill",
        answers.PARTS,
        names=PHOTO_NAME,
        codes=((400, ("shape",)),),
    ),
    Call(
        "PUT",
        "/api/photos/{sha256}/parts",
        "Send one part of a photo",
        "fill",
        answers.PARTS,
        takes=BYTES,
        largest=PART,
        names=(*PHOTO_NAME, ("header", "Content-Range", RANGE)),
        codes=(
            (400, ("shape", "range_wrong")),
            (409, ("size_differs",)),
            (413, ("too_large",)),
            (422, ("not_a_photo", "hash_differs")),
        ),
    ),
    Call(
        "POST",
        "/api/records",
        "Send a signed record; one that cannot be accepted is quarantined, with the reasons",
        "fill",
        answers.RECORD,
        body=routes.RECORD,
        largest=jws.LARGEST,
        codes=FROM_JSON,
    ),
    Call(
        "POST",
        "/api/records/batch",
        f"Send signed records, at most {routes.MOST_RECORDS}; each is answered by itself, in their order",
        "fill",
        answers.RECORDS,
        body={"records": [routes.RECORD]},
        largest=jws.LARGEST,
        codes=FROM_JSON,
    ),
    Call(
        "GET",
        "/api/passkeys",
        "The person's passkeys",
        "signed_in",
        {"rp_id": NAME, "passkeys": [{"id": Text("a credential id", 1400), "name": NAME}]},
    ),
    Call(
        "POST",
        "/api/passkeys/options",
        "What the browser is asked for a new passkey (W3C Web Authentication)",
        "signed_in",
        dict,
        body=passkeys.PASSWORD,
        largest=passkeys.LARGEST,
        codes=(*FROM_JSON, *PASSWORD_ASKED),
    ),
    Call(
        "POST",
        "/api/passkeys",
        "Keep a new passkey",
        "signed_in",
        {"id": Text("a credential id", 1400), "name": NAME, "made_at": answers.INSTANT},
        body=passkeys.NEW,
        largest=passkeys.LARGEST,
        codes=(*FROM_JSON, (400, ("challenge_old",)), (409, ("passkey_taken",))),
    ),
    Call(
        "POST",
        "/api/sign-in/options",
        "What the browser is asked for signing in with a passkey",
        "anyone",
        {"challenge": Text("base64url", 200), "rp_id": NAME},
    ),
    Call(
        "POST",
        "/api/sign-in",
        "Sign in with a passkey",
        "anyone",
        {"next": Text("an address of this server", 2000)},
        body=ASSERTION,
        largest=passkeys.LARGEST,
        codes=(
            *FROM_JSON,
            (400, ("challenge_old",)),
            (401, ("passkey_unknown", "passkey_counter")),
            (429, ("too_many_attempts",)),
        ),
    ),
)
