"""The interface for phones, call by call."""

import gzip
import hashlib
import io
import json
import uuid

import pytest
from PIL import Image

from tests.phone import PROCEDURE, Phone, named, sha256
from webapp.receiving import receive_decision, receive_record
from webapp.store import Store, Unit
from webapp.store.table import written


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


@pytest.fixture(scope="module")
def jpeg() -> bytes:
    data = io.BytesIO()
    Image.new("RGB", (32, 24), "teal").save(data, "JPEG")
    return data.getvalue()


def visit_body(unit: Unit) -> dict:
    body = {"id": str(uuid.uuid4()), "unit": unit.id, "kind": "commissioning", "procedure": named(PROCEDURE)}
    return body | {"started_at": "2026-11-25T09:00:00.000Z"}


def test_the_session_names_the_person_the_token_and_the_time(installer, people) -> None:
    found = installer.get("/api/session").json
    assert found["person"] == {"id": people["installer"].id, "name": "Ilse Brook", "role": "installer"}
    assert found["server_time"] == "2026-11-25T09:30:00.000Z"
    assert found["csrf"]
    assert found["build"]


def test_the_work_holds_all_that_is_needed_without_signal(
    installer, store: Store, phone: Phone, unit: Unit
) -> None:
    visit = phone.start(unit)
    gauge = store.instruments.add(
        kind="gauge",
        name="G",
        serial="1",
        calibration_due="2027-03-01",
        unit="bar",
        range_minimum=0,
        range_maximum=6,
    )
    work = installer.get("/api/work").json
    assert {person["name"] for person in work["people"]} >= {"Ilse Brook", "Sami Weir"}
    assert set(work["people"][0]) == {"id", "name"}
    assert [site["name"] for site in work["sites"]] == ["Weir House, basement"]
    told = "id name serial site plate short_code label previous baseline"
    assert set(work["units"][0]) == set(told.split())
    # A scanned label is found by it; the secret itself stays on the label.
    assert work["units"][0]["label"] == hashlib.sha256(unit.token.encode()).hexdigest()
    assert [one["id"] for one in work["instruments"]] == [gauge.id]

    store.instruments.change(gauge.id, active=False)
    assert installer.get("/api/work").json["instruments"] == []
    measured = {"typed": "6", "unit": "bar", "value": 6, "instrument": gauge.id}
    store.events.keep(phone.event(visit.id, "test.pressure", measured), late=False)
    assert [one["id"] for one in installer.get("/api/work").json["instruments"]] == [gauge.id]
    assert work["visits"] == [visit.as_json()]
    trial = next(one for one in work["procedures"] if one["id"] == "trial")
    assert trial.pop("hash") == named(PROCEDURE)["hash"]
    assert trial == PROCEDURE


def test_the_work_is_compressed_for_phones_that_take_it(installer, phone: Phone, unit: Unit) -> None:
    phone.start(unit)
    plain = installer.get("/api/work")
    small = installer.get("/api/work", headers={"Accept-Encoding": "gzip, br"})
    assert json.loads(gzip.decompress(small.data)) == plain.json
    assert small.headers["Content-Encoding"] == "gzip"
    assert "Accept-Encoding" in small.headers["Vary"]
    assert len(small.data) < len(plain.data) / 4


def test_a_procedure_that_the_phone_has_is_only_named(installer, phone: Phone, unit: Unit) -> None:
    phone.start(unit)
    whole = installer.get("/api/work").json
    *others, trial = sorted(whole["procedures"], key=lambda one: one["id"] == "trial")
    have = ",".join([trial["hash"], "0" * 64])
    some = {one["hash"]: one for one in installer.get(f"/api/work?have={have}").json["procedures"]}
    assert some[trial["hash"]] == named(PROCEDURE)
    assert [some[one["hash"]] for one in others] == others


def test_work_that_is_unchanged_is_not_sent_again(installer, phone: Phone, unit: Unit, clock) -> None:
    first = installer.get("/api/work")
    tag = {"If-None-Match": first.headers["ETag"]}
    clock.advance(minutes=5)
    again = installer.get("/api/work", headers=tag | {"Accept-Encoding": "gzip"})
    assert (again.status_code, again.data) == (304, b"")
    have = first.json["procedures"][0]["hash"]
    assert installer.get(f"/api/work?have={have}", headers=tag).status_code == 200
    phone.start(unit)
    assert installer.get("/api/work", headers=tag).status_code == 200


def test_finished_visits_leave_the_work_after_ninety_days(
    store, sign_in, phone: Phone, desk, unit, clock
) -> None:
    visit = phone.start(unit)
    answer = receive_record(store, phone.signed_record(visit), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    assert [one["state"] for one in sign_in("installer").get("/api/work").json["visits"]] == ["accepted"]
    clock.advance(days=91)
    assert sign_in("installer").get("/api/work").json["visits"] == []


def test_a_visit_is_started_once_however_often_it_is_sent(
    installer, store: Store, unit: Unit, people
) -> None:
    store.procedures.keep(PROCEDURE)
    body = visit_body(unit)
    first = installer.call("POST", "/api/visits", json=body)
    assert first.status_code == 200, first.json
    assert first.json == installer.call("POST", "/api/visits", json=body).json
    assert first.json["state"] == "draft"
    assert first.json["started_by"] == people["installer"].id
    other = installer.call("POST", "/api/visits", json=body | {"kind": "repair"})
    assert (other.status_code, other.json["code"], other.json["field"]) == (409, "id_taken", "id")


@pytest.mark.parametrize(
    ("change", "status", "code", "field"),
    [
        ({"unit": "elsewhere"}, 422, "unit_unknown", "unit"),
        ({"procedure": named(PROCEDURE) | {"hash": "0" * 64}}, 422, "procedure_unknown", "procedure"),
        ({"procedure": named(PROCEDURE) | {"version": 2}}, 422, "procedure_unknown", "procedure"),
        ({"id": "1"}, 400, "shape", "id"),
        ({"started_at": None}, 400, "shape", "started_at"),
    ],
)
def test_a_visit_that_does_not_fit_is_refused(installer, store, unit, change, status, code, field) -> None:
    store.procedures.keep(PROCEDURE)
    response = installer.call("POST", "/api/visits", json=visit_body(unit) | change)
    assert (response.status_code, response.json["code"], response.json["field"]) == (status, code, field)
    assert store.visits.all() == []


def test_entries_go_up_and_come_down_to_others(installer, sign_in, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    events = [phone.reading(visit.id, value) for value in (1, 2.5, 0.1)]
    answer = installer.call("POST", "/api/events", json={"events": events})
    assert answer.json == {
        "received": [{"id": one["id"], "sha256": sha256(one)} for one in events],
        "refused": [],
    }
    colleague = sign_in("supervisor")
    assert colleague.get(f"/api/visits/{visit.id}/events").json == {"events": events, "last": 3}
    assert colleague.get(f"/api/visits/{visit.id}/events?after=2").json == {"events": events[2:], "last": 3}
    assert colleague.get(f"/api/visits/{visit.id}/events?after=3").json == {"events": [], "last": 3}


def test_whole_and_decimal_numbers_keep_their_hash(installer, phone: Phone, unit: Unit) -> None:
    """A phone sends 5.0 as 5 and 1e21 as 1e+21; both sides must hash the same bytes."""
    visit = phone.start(unit)
    for text in ("5", "1e+21", "9007199254740992", "0.1", "1e-7", "-0.5"):
        event = phone.reading(visit.id, float(text))
        answer = installer.call("POST", "/api/events", json={"events": [event]}).json
        assert answer["received"] == [{"id": event["id"], "sha256": sha256(event)}], text


def test_too_many_entries_at_a_time_are_refused_as_a_whole(
    installer, store, phone: Phone, unit: Unit
) -> None:
    visit = phone.start(unit)
    events = [phone.reading(visit.id)] * 501
    response = installer.call("POST", "/api/events", json={"events": events})
    assert (response.status_code, response.json["code"]) == (413, "too_large")
    assert store.events.of_visit(visit.id) == []


@pytest.mark.parametrize("after", ["x", "-1", "1.5", "9" * 16])
def test_the_place_to_go_on_from_is_a_number(installer, phone: Phone, unit: Unit, after: str) -> None:
    response = installer.get(f"/api/visits/{phone.start(unit).id}/events?after={after}")
    assert (response.status_code, response.json["field"]) == (400, "after")


def test_a_record_is_answered_with_its_identity(installer, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id))
    answer = installer.call(
        "POST", "/api/records", json={"jws": phone.sign(content, "firstwater-record+jws")}
    )
    assert answer.json == {"sha256": sha256(content), "state": "signed", "reasons": []}


def test_a_record_that_cannot_be_accepted_says_why(installer, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    answer = installer.call(
        "POST", "/api/records", json={"jws": phone.signed_record(visit, previous="0" * 64)}
    )
    assert (answer.status_code, answer.json["state"]) == (200, "quarantined")
    assert answer.json["reasons"] == [
        {"code": "chain_broken", "detail": "The record before this one is not known.", "field": "previous"}
    ]


def put(client, data: bytes, name: str | None = None, content_type: str = "image/jpeg"):
    name = name or hashlib.sha256(data).hexdigest()
    return client.call("PUT", f"/api/photos/{name}", data=data, content_type=content_type)


def test_a_photo_goes_up_once_and_comes_down_as_it_was(installer, sign_in, jpeg: bytes) -> None:
    name = hashlib.sha256(jpeg).hexdigest()
    assert put(installer, jpeg).json == {"sha256": name}
    assert put(installer, jpeg).json == {"sha256": name}
    for role in ("installer", "supervisor", "quality", "administrator"):
        response = sign_in(role).get(f"/api/photos/{name}")
        assert (response.data, response.content_type) == (jpeg, "image/jpeg")


def test_a_photo_that_is_not_there_is_not_found(installer) -> None:
    response = installer.get(f"/api/photos/{'0' * 64}")
    assert (response.status_code, response.json["code"]) == (404, "not_found")


@pytest.mark.parametrize(
    ("data", "status", "code"),
    [
        (b"", 422, "not_a_photo"),
        (b"GIF89a", 422, "not_a_photo"),
        (b"\xff\xd8\xff" + b"x" * 100, 422, "not_a_photo"),
        (b"<html>", 422, "not_a_photo"),
        (bytes(8 * 1024 * 1024 + 1), 413, "too_large"),
    ],
)
def test_what_is_no_photo_is_refused(installer, data: bytes, status: int, code: str) -> None:
    response = put(installer, data)
    assert (response.status_code, response.json["code"]) == (status, code)


def test_a_png_is_refused_whatever_it_says_it_is(installer) -> None:
    data = io.BytesIO()
    Image.new("RGB", (2, 2)).save(data, "PNG")
    assert put(installer, data.getvalue()).json["code"] == "not_a_photo"


def test_a_photo_with_too_many_pixels_is_refused_without_being_decoded(installer, jpeg: bytes) -> None:
    start = jpeg.index(b"\xff\xc0") + 5  # height and width in the frame header, ITU-T T.81 B.2.2
    huge = jpeg[:start] + b"\xff\xff\xff\xff" + jpeg[start + 4 :]
    assert put(installer, huge).json["code"] == "not_a_photo"


def test_a_photo_under_another_hash_is_refused(installer, jpeg: bytes) -> None:
    response = put(installer, jpeg, "0" * 64)
    assert (response.status_code, response.json["code"]) == (422, "hash_differs")


def test_times_are_utc_with_milliseconds(clock) -> None:
    assert written(clock()) == "2026-11-25T09:30:00.000Z"
