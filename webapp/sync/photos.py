"""Photos come and go under the hash of their bytes."""

from flask import Blueprint, Response, jsonify, request

from webapp import current
from webapp.incoming import limited_bytes
from webapp.problems import Problem
from webapp.receiving.photos import LARGEST, receive_photo
from webapp.rights import has_right, right
from webapp.store import Refused
from webapp.sync.routes import sender


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/photos/<string:sha256>", view_func=add_photo, methods=["PUT"])
    blueprint.add_url_rule("/photos/<string:sha256>", view_func=photo)


@right("fill")
def add_photo(sha256: str) -> Response:
    if request.mimetype != "image/jpeg":
        raise Problem(415, "wrong_media_type", "Send a JPEG photo, with the content type image/jpeg.")
    data = limited_bytes(LARGEST)
    try:
        kept = receive_photo(current.store(), sha256, data, sender())
    except Refused as error:
        raise Problem(422, error.code, str(error)) from error
    return jsonify({"sha256": kept.sha256})


@right("signed_in")
def photo(sha256: str) -> Response:
    person = sender()
    if not (has_right(person, "fill") or has_right(person, "read")):
        raise Problem(403, "forbidden")
    store = current.store()
    store.photos.get(sha256)
    response = Response(store.photos.read_bytes(sha256), content_type="image/jpeg")
    response.headers["Content-Disposition"] = f'inline; filename="{sha256}.jpg"'
    response.headers["Cache-Control"] = "private, max-age=86400, immutable"
    return response
