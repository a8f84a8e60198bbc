"""Smaller answers for a weak signal.

Only what is the same for everybody is compressed: an answer that holds a secret beside something that a
stranger can choose would give the secret away by its length (RFC 7457 2.6 names the attack).
"""

from flask import Flask, Response, request
from flask_compress import Compress

SAME_FOR_EVERYBODY = {"calculator", "field", "pwa"}


def install(app: Flask) -> None:
    """Compress the phone's files and the pages of the procedure where the browser takes it."""
    app.config.update(
        COMPRESS_REGISTER=False,
        COMPRESS_ALGORITHM=["br", "gzip"],
        COMPRESS_BR_LEVEL=9,
        COMPRESS_LEVEL=9,
        COMPRESS_MIN_SIZE=400,
    )
    compress = Compress(app)
    # The reader of codes: less than half of its megabyte then travels.
    compress.compress_mimetypes_set.add("application/wasm")

    @app.after_request
    def shrink(response: Response) -> Response:
        if request.endpoint != "static" and request.blueprint not in SAME_FOR_EVERYBODY:
            return response
        # Read at once: a file that is compressed as it streams is left open.
        response.direct_passthrough = False
        response.get_data()
        return compress.after_request(response)
