"""Entries: any order, any number of times, from any phone, and the store is the same."""

from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checks.fold import fold
from tests.phone import PROCEDURE, Phone, sha256
from webapp.receiving import receive_events, receive_record
from webapp.store import Store, Unit, Visit

NOW = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)


@pytest.fixture
def visit(phone: Phone, unit: Unit) -> Visit:
    return phone.start(unit)


def refused(answer: dict[str, Any]) -> list[str]:
    return [one["code"] for one in answer["refused"]]


def test_the_answer_names_the_hash_of_what_is_stored(store: Store, phone: Phone, visit: Visit) -> None:
    event = phone.reading(visit.id, 0.1)
    assert receive_events(store, [event, event], phone.person) == {
        "received": [{"id": event["id"], "sha256": sha256(event)}] * 2,
        "refused": [],
    }
    assert len(store.events.of_visit(visit.id)) == 1


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"by": "somebody"}, "not_yours"),
        ({"visit": "00000000-0000-4000-8000-000000000000"}, "visit_unknown"),
        ({"device": "A" * 43}, "device_unknown"),
        ({"id": "1"}, "shape"),
        ({"field": "Test.pressure"}, "shape"),
        ({"field": "baseline.pressure"}, "shape"),
        ({"at": "2026-11-25"}, "shape"),
        ({"content": "text"}, "shape"),
        ({"offset": True}, "shape"),
        ({"replaces": "x"}, "shape"),
        ({"extra": 1}, "shape"),
        ({"content": {"value": 2**53}}, "not_canonical"),
        ({"content": {"value": "\ud800"}}, "not_canonical"),
        ({"content": {"value": "x" * 70_000}}, "too_large"),
    ],
)
def test_what_cannot_be_kept_is_refused_and_the_rest_is_kept(
    store, phone: Phone, visit, change, code
) -> None:
    good, bad = phone.reading(visit.id), phone.reading(visit.id) | change
    answer = receive_events(store, [bad, good], phone.person)
    assert refused(answer) == [code]
    assert answer["refused"][0]["id"] == bad["id"]
    assert [one["id"] for one in answer["received"]] == [good["id"]]
    assert store.quarantine.all() == []


@pytest.mark.parametrize("nonsense", [None, 7, "text", [], {}])
def test_nonsense_among_entries_is_refused(store: Store, phone: Phone, nonsense: object) -> None:
    assert refused(receive_events(store, [nonsense], phone.person)) == ["shape"]


def test_another_entry_under_the_same_id_is_refused_and_kept_apart(
    store: Store, phone: Phone, visit: Visit
) -> None:
    event = phone.reading(visit.id)
    receive_events(store, [event], phone.person)
    assert refused(receive_events(store, [{**event, "offset": 0}], phone.person)) == ["id_taken"]
    assert [item.kind for item in store.quarantine.waiting()] == ["event"]
    assert store.events.get(event["id"]).content() == event


def test_an_entry_from_a_revoked_phone_is_refused_and_kept_apart(
    store: Store, phone: Phone, visit: Visit
) -> None:
    before, after = phone.reading(visit.id), phone.reading(visit.id)
    receive_events(store, [before], phone.person)
    store.devices.revoke(phone.thumbprint)
    answer = receive_events(store, [before, after], phone.person)
    assert refused(answer) == ["device_revoked"]
    assert [one["id"] for one in answer["received"]] == [before["id"]], (
        "what was kept before stays acknowledged"
    )
    assert [item.visit for item in store.quarantine.waiting()] == [visit.id]


def test_an_entry_from_a_colleagues_phone_is_refused(
    store: Store, phone: Phone, desk: Phone, visit: Visit
) -> None:
    event = phone.reading(visit.id, device=desk.thumbprint)
    assert refused(receive_events(store, [event], phone.person)) == ["device_unknown"]


def test_an_entry_after_the_signature_is_late(store: Store, phone: Phone, visit: Visit) -> None:
    receive_record(store, phone.signed_record(visit), phone.person)
    late = phone.reading(visit.id)
    answer = receive_events(store, [late], phone.person)
    assert answer["received"] == [{"id": late["id"], "sha256": sha256(late)}]
    assert [one.id for one in store.events.late(visit.id)] == [late["id"]]


def two_phones(folder: str) -> tuple[Store, Phone, Phone, Visit]:
    store = Store(Path(folder) / "test.db", lambda: NOW)
    phones = [Phone(store, store.people.add(name, name, "installer", "!")) for name in ("one", "two")]
    site = store.sites.add("Site", "", {})
    visit = phones[0].start(store.units.add("Unit", "1", site.id, {}))
    return store, phones[0], phones[1], visit


deliveries = st.lists(
    st.tuples(st.sampled_from([0, 1]), st.lists(st.integers(0, 5), min_size=1, max_size=8)), max_size=12
)


@settings(max_examples=40, deadline=None)
@given(deliveries, st.permutations(range(6)))
def test_any_order_repetition_and_interleaving_gives_the_same_entries(sent: list, order: list[int]) -> None:
    """Whatever came before, once every entry has arrived the store and its fold are the same."""
    with TemporaryDirectory() as folder:
        store, *phones, visit = two_phones(folder)
        made = [[phone.reading(visit.id, number / 10) for number in range(6)] for phone in phones]
        for event, other in zip(*made, strict=True):
            other["replaces"] = [event["id"]] if event["content"]["value"] > 0.2 else []
        for which, numbers in [*sent, (0, order), (1, order[::-1])]:
            events = [made[which][number] for number in numbers]
            answer = receive_events(store, events, phones[which].person)
            assert [(one["id"], one["sha256"]) for one in answer["received"]] == [
                (e["id"], sha256(e)) for e in events
            ]
        kept = [one.content() for one in store.events.of_visit(visit.id)]
        expected = [*made[0], *made[1]]
        assert sorted(kept, key=lambda one: one["id"]) == sorted(expected, key=lambda one: one["id"])
        assert [one.sequence for one in store.events.of_visit(visit.id)] == list(range(1, 13))
        assert fold(PROCEDURE, kept) == fold(PROCEDURE, expected)
        store.close()
