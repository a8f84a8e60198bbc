"""A large photo comes in parts, in any order and any number of times, until it is whole."""

import re

from flask import Blueprint, Response, jsonify, request

from webapp import current
from webapp.incoming import limited_bytes
from webapp.problems import Problem
from webapp.receiving.photos import LARGEST, receive_photo
from webapp.rights import right
from webapp.signing.shapes import SHA256
from webapp.store import Refused
from webapp.store.photo_parts import PART, PhotoParts, Progress, count_of
from webapp.sync.routes import sender

RANGE = re.compile(r"bytes ([0-9]{1,8})-([0-9]{1,8})/([0-9]{1,8})")


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/photos/<string:sha256>/parts", view_func=parts)
    blueprint.add_url_rule("/photos/<string:sha256>/parts", view_func=add_part, methods=["PUT"])


@right("fill")
def parts(sha256: str) -> Response:
    """What is here of the photo: the sender goes on with what is missing."""
    return answer(sha256, unfinished().progress(sender().id, checked_name(sha256)))


@right("fill")
def add_part(sha256: str) -> Response:
    person, waiting = sender().id, unfinished()
    number, length, size = part_of_range(request.headers.get("Content-Range", ""))
    data = limited_bytes(PART)
    if len(data) != length:
        detail = f"The part has {len(data)} bytes and Content-Range says {length}. Send it again."
        raise Problem(400, "range_wrong", detail, field="Content-Range")
    # The answer to its last part may have been lost: the photo is here and needs nothing more.
    if current.store().photos.find(checked_name(sha256)) is not None:
        return answer(sha256, None)
    try:
        progress = waiting.keep(person, sha256, number, size, data)
        if not progress.whole:
            return answer(sha256, progress)
        keep_whole(sha256, waiting.bytes_of(person, sha256, progress))
    except FileNotFoundError:  # another request with the same part was faster and has put the photo together
        return answer(sha256, waiting.progress(person, sha256))
    except Refused as error:
        raise Problem(409 if error.code == "size_differs" else 422, error.code, str(error)) from error
    return answer(sha256, None)


def keep_whole(sha256: str, data: bytes) -> None:
    """The photo is kept as one that came in one piece, by the same checks.

    Parts that do not make it now never would: they go, and the sender begins anew.
    """
    person = sender()
    try:
        receive_photo(current.store(), sha256, data, person)
    except Refused:
        unfinished().forget(person.id, sha256)
        raise
    unfinished().forget(person.id, sha256)


def unfinished() -> PhotoParts:
    return PhotoParts(current.store().photos.folder / "unfinished")


def checked_name(sha256: str) -> str:
    if SHA256.problem(sha256):
        raise Problem(400, "shape", f"The name of a photo {SHA256.problem(sha256)}.", field="sha256")
    return sha256


def part_of_range(text: str) -> tuple[int, int, int]:
    """Number and length of the part, and the size of the photo, from a Content-Range (RFC 9110, 14.4)."""
    found = RANGE.fullmatch(text)
    if not found:
        raise range_wrong("Write it as: bytes FIRST-LAST/SIZE.")
    first, last, size = (int(one) for one in found.groups())
    if size > LARGEST:
        raise Problem(413, "too_large", f"A photo may have {LARGEST} bytes.", field="Content-Range")
    if first % PART or last != min(first + PART, size) - 1 or last < first:
        raise range_wrong(
            f"A part begins at a multiple of {PART} bytes and has as many; the last one the rest."
        )
    return first // PART, last - first + 1, size


def range_wrong(detail: str) -> Problem:
    return Problem(400, "range_wrong", detail, field="Content-Range")


def answer(sha256: str, progress: Progress | None) -> Response:
    """``missing`` are the numbers of the parts still to come; null while no part said how large it is.

    All may be here and the photo not: the server was stopped before it put them together, or had no room. The
    last one is asked for again then, so that its arrival tries once more.
    """
    whole = current.store().photos.find(sha256) is not None
    missing: list[int] | None = [] if whole else None
    if progress is not None and not whole:
        count = count_of(progress.size)
        missing = [number for number in range(count) if number not in progress.held] or [count - 1]
    return jsonify({"sha256": sha256, "complete": whole, "part": PART, "missing": missing})
