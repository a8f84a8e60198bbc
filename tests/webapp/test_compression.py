"""What is the same for everybody travels small; what holds a secret travels as it is."""

import brotli
import pytest
from flask.testing import FlaskClient

TAKES = {"Accept-Encoding": "gzip, deflate, br"}
PUBLIC = ["/static/app.css", "/static/parts/step.js", "/field/commissioning-2/earthing", "/sw.js"]
READER = "/static/vendor/zxing-wasm/zxing_reader.wasm"


@pytest.fixture
def client(app):
    """A client that takes what comes, without reading it as a page."""
    return FlaskClient(app)


@pytest.mark.parametrize("path", [*PUBLIC, READER])
def test_the_phones_files_and_pages_are_compressed_and_unpack_to_the_same_bytes(client, path):
    with (
        client.get(path, headers={"Accept-Encoding": "identity"}) as plain,
        client.get(path, headers=TAKES) as small,
    ):
        assert small.headers["Content-Encoding"] == "br"
        assert "Accept-Encoding" in small.headers["Vary"]
        assert len(small.data) < len(plain.data) / 2
        assert brotli.decompress(small.data) == plain.data


def test_a_phone_that_has_a_file_is_told_so(client):
    with client.get("/static/app.css", headers=TAKES) as first:
        tag = first.headers["ETag"]
    with client.get("/static/app.css", headers={**TAKES, "If-None-Match": tag}) as again:
        assert again.status_code == 304


@pytest.mark.parametrize("path", ["/sign-in", "/api/session"])
def test_answers_with_a_token_or_a_name_are_not_compressed(sign_in, path):
    answer = sign_in("installer").get(path, headers=TAKES)
    assert "Content-Encoding" not in answer.headers
