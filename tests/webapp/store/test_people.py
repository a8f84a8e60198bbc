"""Accounts and sessions."""

import pytest

from webapp.store import NotInStore, Person, Store, Taken


def test_a_login_is_given_once_whatever_its_capitals(store: Store, people: dict[str, Person]) -> None:
    with pytest.raises(Taken, match="Another person already has the login 'INSTALLER'"):
        store.people.add("INSTALLER", "Somebody", "installer", "!")
    assert store.people.by_login("Installer") == people["installer"]


def test_an_unknown_person_is_told_as_such(store: Store) -> None:
    with pytest.raises(NotInStore, match="There is no person 'nobody' here"):
        store.people.get("nobody")
    assert store.people.find("nobody") is None


def test_disabling_ends_the_sessions(store: Store, people: dict[str, Person]) -> None:
    ilse = people["installer"]
    store.sessions.start("key", ilse.id)
    assert store.sessions.person("key", 12, 7) == ilse
    store.people.set_active(ilse.id, False)
    store.people.set_active(ilse.id, True)
    assert store.sessions.person("key", 12, 7) is None


def test_a_session_ends_after_idle_hours(store: Store, people: dict[str, Person], clock) -> None:
    store.sessions.start("key", people["installer"].id)
    clock.advance(hours=11)
    assert store.sessions.person("key", 12, 7) is not None
    clock.advance(hours=11)
    assert store.sessions.person("key", 12, 7) is not None, "the last request counts"
    clock.advance(hours=13)
    assert store.sessions.person("key", 12, 7) is None


def test_a_session_ends_after_its_days_even_when_in_use(
    store: Store, people: dict[str, Person], clock
) -> None:
    store.sessions.start("key", people["installer"].id)
    for _ in range(14):
        clock.advance(hours=11)
        assert store.sessions.person("key", 12, 7) is not None
    clock.advance(days=1)
    assert store.sessions.person("key", 100, 7) is None


def test_ending_all_sessions_but_the_present_one(store: Store, people: dict[str, Person]) -> None:
    ilse = people["installer"].id
    for key in ("here", "there"):
        store.sessions.start(key, ilse)
    store.sessions.end_all(ilse, but="here")
    assert store.sessions.person("here", 12, 7) is not None
    assert store.sessions.person("there", 12, 7) is None


def test_failures_are_counted_until_forgotten(store: Store, clock) -> None:
    store.failures.add("a", "b")
    clock.advance(minutes=1)
    store.failures.add("a")
    assert store.failures.of("a") == (2, clock())
    store.failures.forget_before(clock())
    assert store.failures.of("b") is None
    store.failures.forget("a")
    assert store.failures.of("a") is None
