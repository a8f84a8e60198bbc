"""A photo: a JPEG of a bearable size under the hash of its bytes, kept as it came."""

import io
import warnings

from PIL import Image, UnidentifiedImageError

from webapp.store import Person, Photo, Refused, Store

LARGEST = 8 * 1024 * 1024
MOST_PIXELS = 50_000_000
START_OF_A_JPEG = b"\xff\xd8\xff"

NOT_A_PHOTO = "Send a JPEG photo of at most 8 MB."


def receive_photo(store: Store, sha256: str, data: bytes, person: Person) -> Photo:
    """Keep the photo. Refused: ``not_a_photo``, ``hash_differs``."""
    check_jpeg(data)
    return store.photos.keep(sha256, data, person.id)


def check_jpeg(data: bytes) -> None:
    """That it is a JPEG of a bearable size, by its header: the picture itself is not decoded."""
    if len(data) > LARGEST or not data.startswith(START_OF_A_JPEG):
        raise Refused("not_a_photo", NOT_A_PHOTO)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data), formats=["JPEG"])
            width, height = image.size
            image.verify()  # walks the segments; a picture of a billion pixels costs nothing here
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise Refused("not_a_photo", NOT_A_PHOTO) from error
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise Refused("not_a_photo", "The photo has too many pixels.") from error
    if width * height > MOST_PIXELS:
        raise Refused("not_a_photo", "The photo has too many pixels.")
