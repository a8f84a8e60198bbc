"""Reading what is sent to /api/: strict JSON of a limited size and a known shape."""

from typing import Any

from flask import request

from webapp.problems import Problem
from webapp.signing.canonical import NotCanonical, parse
from webapp.signing.shapes import wrong_places


def json_body(shape: dict[str, Any], largest: int) -> dict[str, Any]:
    """The JSON object in the body of the request, or the problem that says what is wrong with it."""
    if request.mimetype != "application/json":
        raise Problem(415, "wrong_media_type", "Send JSON, with the content type application/json.")
    try:
        body = parse(limited_bytes(largest))
    except NotCanonical as error:
        raise Problem(400, "not_json", str(error)) from error
    for place, what in wrong_places(shape, body):
        raise Problem(400, "shape", f"{place or 'The body'} {what}.", field=place or None)
    return body


def limited_bytes(largest: int) -> bytes:
    """The body, if it has at most ``largest`` bytes."""
    too_large = Problem(413, "too_large", f"At most {largest} bytes can be sent to this address.")
    if (request.content_length or 0) > largest:
        raise too_large
    data = request.get_data(cache=False)
    if len(data) > largest:  # sent in chunks, without a stated length
        raise too_large
    return data
