"""Photos come and go under the hash of their bytes."""

import io
import warnings

from flask import Blueprint, Response, jsonify, request
from PIL import Image, UnidentifiedImageError

from webapp import current
from webapp.incoming import limited_bytes
from webapp.problems import Problem
from webapp.rights import has_right, right
from webapp.store import Refused
from webapp.sync.routes import sender

LARGEST = 8 * 1024 * 1024
MOST_PIXELS = 50_000_000
START_OF_A_JPEG = b"\xff\xd8\xff"


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/photos/<string:sha256>", view_func=add_photo, methods=["PUT"])
    blueprint.add_url_rule("/photos/<string:sha256>", view_func=photo)


@right("fill")
def add_photo(sha256: str) -> Response:
    if request.mimetype != "image/jpeg":
        raise Problem(415, "wrong_media_type", "Send a JPEG photo, with the content type image/jpeg.")
    data = limited_bytes(LARGEST)
    check_jpeg(data)
    try:
        kept = current.store().photos.keep(sha256, data, sender().id)
    except Refused as error:
        raise Problem(422, error.code, str(error)) from error
    return jsonify({"sha256": kept.sha256})


def check_jpeg(data: bytes) -> None:
    """That it is a JPEG of a bearable size, by its header: the picture itself is not decoded."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data), formats=["JPEG"])
            width, height = image.size
            image.verify()  # walks the segments; a picture of a billion pixels costs nothing here
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise Problem(422, "not_a_photo") from error
    except Image.DecompressionBombWarning as error:
        raise Problem(422, "not_a_photo", "The photo has too many pixels.") from error
    if not data.startswith(START_OF_A_JPEG) or width * height > MOST_PIXELS:
        raise Problem(422, "not_a_photo")


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
