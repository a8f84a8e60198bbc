"""Files that are not what they say: refused, or kept as bytes that no browser ever runs."""

import gzip
import io
import zipfile
import zlib

import pytest
from PIL import Image

from tests.webapp.receiving.unsent_file import hashed, jpeg

PART = 256 * 1024


def put(target, data: bytes, kind: str = "image/jpeg", **headers: str):
    path = f"/api/photos/{hashed(data)}"
    return target.installer.call("PUT", path, data=data, content_type=kind, headers=headers)


def zip_bomb() -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("../../escaped.jpg", bytes(10_000_000))
    return data.getvalue()


def drawn(form: str, **options) -> bytes:
    data = io.BytesIO()
    Image.new("RGB", (8, 8), "teal").save(data, form, **options)
    return data.getvalue()


def png_bomb() -> bytes:
    """A PNG header that claims 60,000 by 60,000 pixels."""
    good = drawn("PNG")
    size = (60_000).to_bytes(4, "big") * 2
    chunk = b"IHDR" + size + good[24:29]
    return good[:12] + chunk + zlib.crc32(chunk).to_bytes(4, "big") + good[33:]


def jpeg_bomb() -> bytes:
    """Height and width in the frame header (ITU-T T.81, B.2.2) set to 65,535 each."""
    data = jpeg()
    start = data.index(b"\xff\xc0") + 5
    return data[:start] + b"\xff\xff\xff\xff" + data[start + 4 :]


@pytest.mark.parametrize(
    "data",
    [
        zip_bomb(),
        gzip.compress(bytes(1_000_000)),
        png_bomb(),
        jpeg_bomb(),
        drawn("GIF"),
        drawn("BMP"),
        drawn("TIFF"),
        drawn("WEBP"),
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"%PDF-1.7",
        b"%!PS-Adobe-3.0 EPSF",
        b"\xff\xd8\xff\xe0",
        b"\xff\xd8\xff" + bytes(1000),
        b"",
    ],
    ids=range(14),
)
def test_what_is_no_bearable_jpeg_is_refused(target, data) -> None:
    answer = put(target, data)
    assert (answer.status_code, answer.json["code"]) == (422, "not_a_photo")
    assert target.store.photos.find(hashed(data)) is None


@pytest.mark.parametrize("kind", ["text/html", "image/svg+xml", "application/zip", "multipart/form-data"])
def test_a_photo_that_says_it_is_something_else_is_refused(target, kind) -> None:
    assert put(target, jpeg("navy"), kind).status_code == 415


def test_a_packed_body_is_not_unpacked(target) -> None:
    """The bytes are those that came, whatever Content-Encoding says about them."""
    answer = put(target, gzip.compress(jpeg()), **{"Content-Encoding": "gzip"})
    assert answer.json["code"] == "not_a_photo"


@pytest.mark.parametrize(
    "tail", [b"<html><script>alert(1)</script>", zip_bomb(), b"PK\x05\x06" + bytes(18), b"#!/bin/sh\n"]
)
def test_a_picture_that_is_also_something_else_stays_a_picture(target, tail) -> None:
    data = jpeg() + tail
    assert put(target, data).status_code == 200
    for client, path in ((target.installer, "/api/photos"), (target.supervisor, "/office/photos")):
        answer = client.get(f"{path}/{hashed(data)}")
        assert answer.data == data
        assert answer.content_type == "image/jpeg"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
        assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"


def test_script_in_the_comment_of_a_picture_stays_a_comment(target) -> None:
    data = drawn("JPEG", comment=b"*/alert(1)/*")
    assert put(target, data).status_code == 200
    assert target.installer.get(f"/api/photos/{hashed(data)}").content_type == "image/jpeg"


@pytest.mark.parametrize("name", ["../../test.db", "/etc/passwd", "a/b.json", "\x00.json", "con", "x" * 5000])
def test_the_name_of_a_handed_in_file_names_nothing_here(target, name, tmp_path) -> None:
    before = sorted(path.name for path in target.store.photos.folder.parent.iterdir())
    answer = target.supervisor.submit("/office/import", file=(io.BytesIO(b"{}"), name))
    assert answer.status_code == 200
    assert "(not_unsent)" in answer.text or "Choose the file" in answer.text
    assert sorted(path.name for path in target.store.photos.folder.parent.iterdir()) == before


def test_what_a_supervisor_downloads_is_never_shown_as_a_page(target) -> None:
    target.codes("<script>alert(1)</script>.<b>.c")
    item = target.store.quarantine.all()[0].id
    answer = target.supervisor.get(f"/office/quarantine/{item}/document")
    assert answer.content_type == "application/octet-stream"
    assert answer.headers["Content-Disposition"].startswith("attachment;")
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
