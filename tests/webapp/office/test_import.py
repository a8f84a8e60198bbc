"""The pages by which a file of unsent entries comes in: handed in, shown, then taken in."""

import gc
import io
from typing import Any

import pytest

from tests.phone import Phone
from tests.webapp.receiving.unsent_file import as_bytes, contents, jpeg, written
from webapp.office.imports import LARGEST
from webapp.store import Store, Unit


@pytest.fixture
def file(phone: Phone, unit: Unit) -> dict[str, Any]:
    visit = phone.start(unit)
    events = [phone.reading(visit.id), phone.reading(visit.id, device="A" * 43)]
    return written(contents(phone, events=events, photos=[(visit.id, jpeg())]), phone)


def hand_in(client, data: bytes, name: str = "firstwater-unsent.json"):
    return client.submit("/office/import", file=(io.BytesIO(data), name))


def test_a_supervisor_sees_what_is_inside_and_then_takes_it_in(sign_in, store: Store, file) -> None:
    supervisor = sign_in("supervisor")
    waiting = hand_in(supervisor, as_bytes(file))
    assert waiting.status_code == 303
    preview = supervisor.get(waiting.location)
    assert "Unsent entries of Ilse Brook" in preview.text
    assert "It fits." in preview.text
    assert "For Basement unit." in preview.text
    assert "<code>test.pressure</code> for Basement unit: refused." in preview.text
    assert store.photos.all() == []

    taken = supervisor.submit(waiting.location)
    assert "Taken in: 2 new, 0 were here already." in taken.text
    assert store.events.find(file["events"][0]["event"]["id"]) is not None
    assert supervisor.get(waiting.location).status_code == 404, "the file waits no longer"
    assert [one.action for one in store.audit.all()][-1] == "unsent_file_taken_in"


def test_a_changed_file_is_said_to_be_one(sign_in, store: Store, file) -> None:
    file["events"][0]["event"]["content"]["value"] = 1
    file["photos"].clear()
    client = sign_in("installer")
    page = client.get(hand_in(client, as_bytes(file)).location).text
    assert "This file is not as the phone wrote it" in page
    assert "changed in the file or damaged on the way" in page
    assert "Missing from it:" in page


def test_a_file_of_somebody_else_is_for_a_supervisor(sign_in, store: Store, file) -> None:
    colleague = store.people.add("otto", "Otto Beck", "installer", "!")
    client = sign_in(colleague)
    answer = hand_in(client, as_bytes(file))
    assert "Ilse Brook or a supervisor takes it in. (not_yours)" in answer.text
    waiting = hand_in(sign_in("supervisor"), as_bytes(file)).location
    assert client.get(waiting).status_code == 404


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04", b"<html>", b'{"a":' * 50_000])
def test_another_file_is_told_with_a_code(sign_in, people, data: bytes) -> None:
    answer = hand_in(sign_in("supervisor"), data, "../../<b>.json")
    assert answer.status_code == 200
    assert "(not_json)" in answer.text or "Choose the file" in answer.text


# The test client leaves the temporary file of a large form to the garbage collector.
@pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning")
@pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning")
def test_a_large_file_is_for_this_address_only(sign_in, file) -> None:
    client = sign_in("supervisor")
    large = as_bytes(file) + b" " * (10 * 1024 * 1024)
    assert hand_in(client, large).status_code == 303
    token = client.token()
    form = {"csrf_token": token, "file": (io.BytesIO(large), "x")}
    assert client.post("/office/import/0", data=form).status_code == 413
    too_long = {"CONTENT_LENGTH": str(LARGEST + 1), "CONTENT_TYPE": "multipart/form-data; boundary=x"}
    assert client.post("/office/import", environ_overrides=too_long).status_code == 413
    gc.collect()


def test_nothing_comes_in_without_the_token_of_the_form(sign_in, store: Store, file) -> None:
    client = sign_in("supervisor")
    waiting = hand_in(client, as_bytes(file)).location
    assert client.post(waiting).status_code == 400
    assert store.photos.all() == []
