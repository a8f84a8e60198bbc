"""A large photo in parts: in any order, any number of times, whole or not at all."""

import hashlib
import io
import random

import pytest
from PIL import Image

from webapp.store.photo_parts import MOST_UNFINISHED, PART, PhotoParts


@pytest.fixture(scope="module")
def picture() -> bytes:
    """A JPEG of three parts: noise does not compress."""
    data = io.BytesIO()
    noise = random.Random(1).randbytes(1000 * 720 * 3)
    Image.frombytes("RGB", (1000, 720), noise).save(data, "JPEG", quality=90)
    assert 2 * PART < len(data.getvalue()) < 3 * PART
    return data.getvalue()


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


def name_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def send(client, data: bytes, number: int, name: str | None = None, **changes):
    part = data[number * PART : (number + 1) * PART]
    span = f"bytes {number * PART}-{number * PART + len(part) - 1}/{len(data)}"
    headers = {"Content-Range": changes.get("span", span)}
    path = f"/api/photos/{name or name_of(data)}/parts"
    return client.call("PUT", path, data=changes.get("part", part), headers=headers)


def missing(client, data: bytes) -> list[int] | None:
    return client.get(f"/api/photos/{name_of(data)}/parts").json["missing"]


def test_parts_out_of_order_and_twice_make_the_photo(installer, store, picture: bytes) -> None:
    assert missing(installer, picture) is None
    assert send(installer, picture, 2).json["missing"] == [0, 1]
    assert send(installer, picture, 2).json["missing"] == [0, 1]
    assert send(installer, picture, 0).json["missing"] == [1]
    assert missing(installer, picture) == [1]
    last = send(installer, picture, 1).json
    assert last == {"sha256": name_of(picture), "complete": True, "part": PART, "missing": []}
    assert store.photos.read_bytes(name_of(picture)) == picture
    # The answer to the last part was lost, and the phone sends it again.
    assert send(installer, picture, 1).json == last
    assert not list((store.photos.folder / "unfinished").glob("*/*"))


def test_parts_survive_a_restart_of_the_server(installer, store, people, picture: bytes) -> None:
    send(installer, picture, 1)
    anew = PhotoParts(store.photos.folder / "unfinished")
    assert anew.progress(people["installer"].id, name_of(picture)).held == (1,)


def test_parts_under_the_hash_of_something_else_make_nothing(installer, store, picture: bytes) -> None:
    wrong = "0" * 64
    answers = [send(installer, picture, number, wrong) for number in range(3)]
    assert [one.status_code for one in answers] == [200, 200, 422]
    assert answers[2].json["code"] == "hash_differs"
    assert store.photos.all() == []
    assert installer.get(f"/api/photos/{wrong}/parts").json["missing"] is None, "the sender begins anew"


def test_parts_of_something_that_is_no_jpeg_make_nothing(installer, store) -> None:
    data = b"<script>" * (PART // 4)
    answers = [send(installer, data, number).json for number in range(2)]
    assert answers[1]["code"] == "not_a_photo"
    assert store.photos.all() == []


def test_nobody_spoils_the_upload_of_somebody_else(installer, sign_in, store, picture: bytes) -> None:
    send(installer, picture, 0)
    colleague = sign_in("supervisor")
    assert missing(colleague, picture) is None
    assert send(colleague, b"x" * 10, 0, name_of(picture)).status_code == 422
    assert [send(installer, picture, number).status_code for number in (1, 2)] == [200, 200]
    assert store.photos.find(name_of(picture)) is not None


SPANS = [
    ("", b"x", 400, "range_wrong"),
    ("bytes 0-0", b"x", 400, "range_wrong"),
    ("bytes 5-9/10", b"xxxxx", 400, "range_wrong"),
    ("bytes 0-8/10", b"x" * 9, 400, "range_wrong"),
    ("bytes 0-9/10", b"x" * 9, 400, "range_wrong"),
    ("bytes 0-0/0", b"x", 400, "range_wrong"),
    (f"bytes {PART}-{PART}/{PART}", b"x", 400, "range_wrong"),
    ("bytes 0-262143/8388609", b"x" * PART, 413, "too_large"),
    ("bytes 0-262143/300000", b"x" * (PART + 1), 413, "too_large"),
    ("bytes 0-\u0663/4", b"xxxx", 400, "range_wrong"),
]


def test_a_part_that_does_not_fit_is_refused(installer) -> None:
    path = f"/api/photos/{'0' * 64}/parts"
    for span, part, status, code in SPANS:
        answer = installer.call("PUT", path, data=part, headers={"Content-Range": span})
        assert (answer.status_code, answer.json["code"]) == (status, code), span
        assert answer.json.get("field", "Content-Range") == "Content-Range"


def test_parts_of_photos_of_different_sizes_do_not_mix(installer, picture: bytes) -> None:
    send(installer, picture, 0)
    other = send(installer, picture + b"x", 1, name_of(picture))
    assert (other.status_code, other.json["code"]) == (409, "size_differs")


def test_the_name_is_a_hash_and_never_a_path(installer) -> None:
    span = {"Content-Range": "bytes 0-0/1"}
    for name in ("..", "%2e%2e", "0" * 63, "A" * 64):
        path = f"/api/photos/{name}/parts"
        assert installer.get(path).status_code in {400, 404}
        assert installer.call("PUT", path, data=b"x", headers=span).status_code in {400, 404}


def test_the_oldest_unfinished_photo_makes_room(tmp_path) -> None:
    waiting = PhotoParts(tmp_path)
    for number in range(MOST_UNFINISHED + 1):
        waiting.keep("somebody", f"{number:064x}", 0, 2 * PART, b"x")
    assert len(list(tmp_path.glob("*/*"))) == MOST_UNFINISHED
    assert waiting.progress("somebody", f"{0:064x}") is None


def test_parts_that_were_never_put_together_are_when_the_last_comes_again(
    installer, store, people, picture: bytes
) -> None:
    """The server was killed after the last part, or its disk was full then."""
    folder, name = PhotoParts(store.photos.folder / "unfinished"), name_of(picture)
    for number in range(3):
        part = picture[number * PART : (number + 1) * PART]
        folder.keep(people["installer"].id, name, number, len(picture), part)
    answer = installer.get(f"/api/photos/{name}/parts").json
    assert (answer["complete"], answer["missing"]) == (False, [2])
    assert send(installer, picture, 2).json["complete"]
    assert store.photos.read_bytes(name) == picture
