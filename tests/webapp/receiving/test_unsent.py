"""A file of unsent entries: checked like what a phone sends; nothing is believed for the file."""

import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.phone import PROCEDURE, Phone, named
from tests.webapp.receiving.unsent_file import as_bytes, contents, hashed, jpeg, written
from webapp.passkeys import Place
from webapp.receiving import receive_events
from webapp.receiving.unsent import NotYours, owner_of, preview_unsent, take_in_unsent
from webapp.signing.unsent import NotUnsent, UnsentFile, read_unsent
from webapp.store import Store, Unit

PHOTO = jpeg()


@pytest.fixture
def store(tmp_path: Path, clock) -> Iterator[Store]:
    """A store is enough here, and quicker than an application."""
    made = Store(tmp_path / "test.db", clock)
    yield made
    made.close()


@pytest.fixture
def visit(store: Store, phone: Phone, unit: Unit) -> dict[str, Any]:
    """A visit that only the phone knows, as it keeps it."""
    store.procedures.keep(PROCEDURE)
    about = {"id": str(uuid.uuid4()), "unit": unit.id, "kind": "commissioning", "procedure": named(PROCEDURE)}
    about |= {"state": "draft", "started_at": "2026-11-25T08:00:00.000Z", "started_by": phone.person.id}
    return about | {"record": None, "returned": None, "problem": None}


@pytest.fixture
def file(phone: Phone, visit: dict[str, Any]) -> dict[str, Any]:
    """One visit, two entries and a photo."""
    events = [phone.reading(visit["id"]), phone.reading(visit["id"], 7)]
    return contents(phone, [visit], events, photos=[(visit["id"], PHOTO)])


def read(store: Store, file: dict[str, Any]) -> UnsentFile:
    return read_unsent(as_bytes(file), store.devices.find)


def take_in(store: Store, file: dict[str, Any], carrier: Any) -> list[tuple[str, str, str | None]]:
    found = read(store, file)
    lines = take_in_unsent(store, found, owner_of(store, found, carrier, may_carry=True), carrier)
    return [(line.kind, line.state, line.code) for line in lines]


ALL_NEW = [("visits", "new", None), *[("events", "new", None)] * 2, ("photos", "new", None)]
ALL_HERE = [(kind, "here", None) for kind, _, _ in ALL_NEW]


def test_a_supervisor_takes_in_what_the_phone_sealed(store, phone: Phone, people, visit, file) -> None:
    supervisor = people["supervisor"]
    assert take_in(store, written(file, phone), supervisor) == ALL_NEW
    assert store.visits.get(visit["id"]).started_by == phone.person.id
    kept = [event.content() for event in store.events.of_visit(visit["id"])]
    assert kept == [one["event"] for one in file["events"]]
    assert store.photos.get(hashed(PHOTO)).person == phone.person.id
    [entry] = [one for one in store.audit.all() if one.action == "unsent_file_taken_in"]
    assert (entry.person, entry.details["owner"]) == (supervisor.id, phone.person.id)
    assert entry.details["counts"] == {"new": 4}


def test_the_same_file_again_changes_nothing(store, phone: Phone, people, file) -> None:
    sealed = written(file, phone)
    take_in(store, sealed, people["supervisor"])
    assert take_in(store, sealed, people["supervisor"]) == ALL_HERE
    assert len(store.events.of_visit(file["visits"][0]["id"])) == 2
    assert store.quarantine.all() == []


def test_its_person_takes_in_a_file_without_a_seal(store, phone: Phone, file) -> None:
    assert take_in(store, written(file), phone.person) == ALL_NEW


def test_without_a_seal_nobody_else_brings_entries_in_a_persons_name(store, people, phone, file) -> None:
    refused = [(kind, "refused", "not_sealed") for kind, _, _ in ALL_NEW]
    assert take_in(store, written(file), people["supervisor"]) == refused
    assert (store.visits.all(), store.photos.all(), store.quarantine.all()) == ([], [], [])


def test_a_seal_of_ones_own_makes_no_file_of_somebody_else(store, people, phone, desk: Phone, file) -> None:
    sealed = written(file, desk)
    assert "by somebody else" in read(store, sealed).seal_problem
    assert {state for _, state, _ in take_in(store, sealed, people["supervisor"])} == {"refused"}


def test_a_signed_record_needs_no_seal(store, people, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    file = written(contents(phone, records=[phone.signed_record(visit)]))
    assert take_in(store, file, people["supervisor"]) == [("records", "new", None)]
    assert take_in(store, file, people["supervisor"]) == [("records", "here", None)]
    assert store.visits.get(visit.id).state == "signed"


def test_a_record_that_cannot_be_accepted_is_kept_apart(store, people, phone: Phone, unit: Unit) -> None:
    visit = phone.start(unit)
    file = written(contents(phone, records=[phone.signed_record(visit, previous="0" * 64)]))
    assert take_in(store, file, people["supervisor"]) == [("records", "quarantined", "chain_broken")]
    assert [item.kind for item in store.quarantine.waiting()] == ["record"]


@pytest.mark.parametrize(
    ("assertion", "expected"),
    [
        ({"id": 7}, ("records", "refused", "shape")),
        ("text", ("records", "refused", "shape")),
        (
            {"id": "AA", "clientDataJSON": "AA", "authenticatorData": "AA", "signature": "AA"},
            ("records", "quarantined", "assertion_unknown"),
        ),
    ],
)
def test_the_confirmation_of_a_record_has_to_hold(store, people, phone, unit, assertion, expected) -> None:
    file = contents(phone, records=[phone.signed_record(phone.start(unit))])
    file["records"][0]["assertion"] = assertion
    found = read(store, written(file))
    lines = take_in_unsent(store, found, phone.person, people["supervisor"], Place.of("https://example.org"))
    assert [(line.kind, line.state, line.code) for line in lines] == [expected]


def test_a_preview_says_the_same_and_keeps_nothing(store, phone: Phone, people, file) -> None:
    found = read(store, written(file, phone))
    lines = preview_unsent(store, found, phone.person, people["supervisor"])
    assert [(line.kind, line.state, line.code) for line in lines] == ALL_NEW
    assert (store.visits.all(), store.photos.all(), store.audit.all()) == ([], [], [])
    assert not list(store.photos.folder.rglob("*.jpg"))


def test_a_changed_entry_is_named_and_kept_apart_and_the_rest_comes_in(store, phone, people, file) -> None:
    sealed = written(file, phone)
    sealed["events"][0]["event"]["content"]["value"] = 1
    found = read(store, sealed)
    assert (found.whole, found.altered) == (False, True)
    assert [part.key for part in found.parts if part.altered] == [sealed["events"][0]["event"]["id"]]
    expected = list(ALL_NEW)
    expected[1] = ("events", "quarantined", "altered")
    assert take_in(store, sealed, people["supervisor"]) == expected
    assert store.quarantine.waiting()[0].reasons[0]["code"] == "altered"


def test_a_changed_visit_and_a_changed_photo_are_named(store, phone, people, file) -> None:
    sealed = written(file, phone)
    sealed["visits"][0]["started_at"] = "2026-11-24T08:00:00.000Z"
    sealed["photos"][0]["base64"] = sealed["photos"][0]["base64"][:-8]
    answers = take_in(store, sealed, people["supervisor"])
    assert answers[0] == ("visits", "refused", "altered")
    assert answers[-1] == ("photos", "refused", "altered")


def test_what_was_taken_out_of_the_file_is_named(store, phone: Phone, file) -> None:
    sealed = written(file, phone)
    gone = sealed["events"].pop()["event"]["id"]
    found = read(store, sealed)
    assert (found.missing, found.altered) == ((("events", gone),), True)


def test_what_was_put_into_the_file_is_not_taken(store, phone: Phone, people, file) -> None:
    sealed = written(file, phone)
    added = phone.reading(file["visits"][0]["id"], 99)
    sealed["events"].append({"event": added, "problem": None})
    take_in(store, sealed, people["supervisor"])
    assert store.events.find(added["id"]) is None


def test_a_changed_file_without_a_seal_gives_no_entry(store, phone: Phone, file) -> None:
    whole = written(file)
    whole["events"][0]["event"]["content"]["value"] = 1
    answers = take_in(store, whole, phone.person)
    assert [state for _, state, _ in answers] == ["refused", "quarantined", "quarantined", "new"]
    assert {code for _, _, code in answers[:3]} == {"altered"}


def test_the_rules_of_sending_hold(store, phone: Phone, people, visit, desk: Phone) -> None:
    events = [
        phone.reading(visit["id"], by=people["supervisor"].id),
        phone.reading(visit["id"], device=desk.thumbprint),
        phone.reading(str(uuid.uuid4())),
        phone.reading(visit["id"]) | {"extra": 1},
    ]
    answers = take_in(store, written(contents(phone, [visit], events), phone), people["supervisor"])
    assert [code for _, _, code in answers] == [None, "not_yours", "device_unknown", "visit_unknown", "shape"]


def test_entries_of_a_revoked_phone_are_kept_apart(store, phone: Phone, people, file) -> None:
    sealed = written(file, phone)
    store.devices.revoke(phone.thumbprint)
    answers = take_in(store, sealed, people["supervisor"])
    assert [(state, code) for kind, state, code in answers if kind == "events"] == [
        ("quarantined", "device_revoked")
    ] * 2


def test_another_entry_under_a_known_id_is_kept_apart(store, phone, people, file) -> None:
    take_in(store, written(file, phone), people["supervisor"])
    other = {**file["events"][0]["event"], "offset": 0}
    answers = take_in(store, written(contents(phone, events=[other]), phone), people["supervisor"])
    assert answers == [("events", "quarantined", "id_taken")]
    assert receive_events(store, [file["events"][0]["event"]], phone.person)["refused"] == []


def test_who_may_take_a_file_in(store: Store, phone: Phone, people, file) -> None:
    found = read(store, written(file, phone))
    with pytest.raises(NotYours, match="Ilse Brook or a supervisor takes it in"):
        owner_of(store, found, people["quality"], may_carry=False)
    store.people.change(phone.person.id, role="quality")
    with pytest.raises(NotYours, match="may not send entries now"):
        owner_of(store, found, people["supervisor"], may_carry=True)
    nobody = read(store, written({**file, "person": None}))
    with pytest.raises(NotYours, match="names nobody who is known here"):
        owner_of(store, nobody, people["supervisor"], may_carry=True)


def test_what_somebody_made_who_was_disabled_meanwhile_is_kept_apart_and_shown(
    store: Store, phone: Phone, people, visit, file
) -> None:
    known = phone.start(store.units.get(visit["unit"]), visit["id"])
    record = {"jws": phone.signed_record(known), "problem": None}
    store.people.set_active(phone.person.id, False)
    lines = take_in(store, written(file | {"records": [record]}, phone), people["supervisor"])
    assert [one for one in lines if one[1] == "quarantined"] == [
        *[("events", "quarantined", "account_disabled")] * 2,
        ("records", "quarantined", "account_disabled"),
    ]
    assert store.events.of_visit(visit["id"]) == []
    assert {one.kind for one in store.quarantine.waiting()} == {"event", "record"}


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "not_json"),
        (b'{"type": "firstwater-unsent", "schema": 1, "made', "not_json"),
        (b'{"type": "firstwater-unsent", "type": "firstwater-unsent"}', "not_json"),
        (b"[]", "not_unsent"),
        (b'{"type": "firstwater-bundle"}', "not_unsent"),
        (b'{"type": "firstwater-unsent"}', "shape"),
        (b"\xff\xfe", "not_json"),
    ],
)
def test_what_is_no_such_file_is_told(data: bytes, code: str) -> None:
    with pytest.raises(NotUnsent) as error:
        read_unsent(data, lambda key: None)
    assert error.value.code == code
