"""Passkeys in the store: removed but never deleted, challenges used once, confirmations kept."""

import sqlite3
from datetime import timedelta

import pytest

from webapp.store import Person, Refused, Store, Taken
from webapp.store.passkeys import MOST


@pytest.fixture
def ilse(people) -> Person:
    return people["installer"]


def test_a_passkey_is_listed_until_it_is_removed_and_then_still_known(store: Store, ilse: Person) -> None:
    store.passkeys.add("key-1", ilse.id, "phone", "cose", 0)
    store.passkeys.rename("key-1", "work phone")
    assert [one.name for one in store.passkeys.of(ilse.id)] == ["work phone"]
    store.passkeys.remove("key-1")
    assert store.passkeys.of(ilse.id) == []
    assert store.passkeys.get("key-1").removed_at == "2026-11-25T09:30:00.000Z"
    with (
        pytest.raises(sqlite3.IntegrityError, match="removed, never deleted"),
        store.connection.write() as db,
    ):
        db.execute("delete from passkeys")


def test_an_id_belongs_to_one_person_for_good(store: Store, ilse: Person, people) -> None:
    store.passkeys.add("key-1", ilse.id, "phone", "cose", 0)
    with pytest.raises(Taken, match="passkey"):
        store.passkeys.add("key-1", people["supervisor"].id, "phone", "other", 0)


def test_a_person_has_a_bounded_number_of_them(store: Store, ilse: Person) -> None:
    for number in range(MOST):
        store.passkeys.add(f"key-{number}", ilse.id, "phone", "cose", 0)
    with pytest.raises(Refused, match="Remove one first"):
        store.passkeys.add("one-more", ilse.id, "phone", "cose", 0)


def test_the_counter_never_goes_back(store: Store, ilse: Person) -> None:
    store.passkeys.add("key-1", ilse.id, "phone", "cose", 0)
    store.passkeys.note_use("key-1", 7)
    store.passkeys.note_use("key-1", 5)
    assert store.passkeys.get("key-1").counter == 7


def test_a_challenge_is_used_once(store: Store, clock) -> None:
    def use() -> bool:
        return store.passkeys.use_challenge("abc", clock() - timedelta(minutes=10))

    assert [use(), use()] == [True, False]
    clock.advance(minutes=11)
    assert use(), "by then it is too old to be taken anyway, so that it need not be remembered"


def test_the_first_confirmation_of_a_document_stays(store: Store, ilse: Person) -> None:
    store.passkeys.add("key-1", ilse.id, "phone", "cose", 0)
    store.passkeys.keep_confirmation("ab" * 32, "key-1", {"signature": "first"})
    store.passkeys.keep_confirmation("ab" * 32, "key-1", {"signature": "second"})
    kept = store.passkeys.confirmation("ab" * 32)
    assert kept is not None
    assert (kept.passkey, kept.assertion) == ("key-1", {"signature": "first"})
    assert store.passkeys.confirmation("cd" * 32) is None
