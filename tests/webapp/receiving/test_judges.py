"""Judging in other processes gives what judging here gives, and does so here when they are gone."""

import os
import signal
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tests.phone import Phone
from webapp.receiving import Judges, Sent, examining_here, judges, receive_records
from webapp.store import Store, Unit
from webapp.store.table import written


@given(st.lists(st.text(max_size=9), min_size=1), st.integers(1, 8))
def test_what_is_shared_out_is_all_of_it_in_its_order(texts: list[str], shares: int) -> None:
    shared = judges.shared_out(texts, shares)
    assert [text for share in shared for text in share] == texts
    assert all(shared)


def test_a_judge_says_what_the_server_says_and_is_not_missed(
    store: Store, phone: Phone, unit: Unit, monkeypatch, caplog
) -> None:
    monkeypatch.setattr(judges, "WORTH_IT", 0)
    texts = [phone.signed_record(phone.start(unit)), "no record"]
    here, now = examining_here(store), written(store.clock())
    judging = Judges(store.connection.path, 1, here)
    try:
        expected = next(here(texts, now))
        assert [one for some in judging.examine(texts, now) for one in some] == expected
        judge = judging._pool.submit(os.getpid).result()
        assert judge != os.getpid()
        os.kill(judge, signal.SIGKILL)
        assert [one for some in judging.examine(texts, now) for one in some] == expected
        assert "judged in the server's own process" in caplog.text
        answers = receive_records(store, [Sent(text) for text in texts], phone.person, None, judging.examine)
        assert [answer.state for answer in answers] == ["signed", "quarantined"]
    finally:
        judging.close()
    assert list(judging.examine(texts, now)) == [expected]


def test_a_phone_that_is_revoked_while_its_record_is_judged_is_refused(
    store: Store, phone: Phone, unit: Unit
) -> None:
    def slowly(texts, at):
        for found in examining_here(store)(texts, at):
            store.devices.revoke(phone.thumbprint)
            yield found

    sent = [Sent(phone.signed_record(phone.start(unit)))]
    (answer,) = receive_records(store, sent, phone.person, None, slowly)
    assert (answer.state, answer.reasons[0]["code"]) == ("quarantined", "device_revoked")


def test_one_that_cannot_be_looked_at_is_answered_for_by_nobody(
    store: Store, phone: Phone, unit: Unit
) -> None:
    def half(texts, at):
        yield [None]
        yield from examining_here(store)(texts[1:], at)

    texts = [phone.signed_record(phone.start(replace(unit))) for _ in range(2)]
    answers = receive_records(store, [Sent(text) for text in texts], phone.person, None, half)
    assert [answer and answer.state for answer in answers] == [None, "signed"]


def test_what_is_ready_is_kept_at_once_and_nobody_holds_the_store_while_others_are_judged(
    store: Store, phone: Phone, unit: Unit
) -> None:
    seen = []

    def slowly(texts, at):
        for place, text in enumerate(texts):
            if place == 2:
                yield []
            seen.append(store.in_transaction)
            yield from examining_here(store)([text], at)

    texts = [phone.signed_record(phone.start(unit)) for _ in range(3)]
    answers = receive_records(store, [Sent(text) for text in texts], phone.person, None, slowly)
    assert [answer and answer.state for answer in answers] == ["signed", "signed", "signed"]
    assert seen == [False, True, False]


def test_a_record_that_comes_twice_in_one_call_is_one_record(store: Store, phone: Phone, unit: Unit) -> None:
    text = phone.signed_record(phone.start(unit))
    first, second = receive_records(store, [Sent(text), Sent(text)], phone.person)
    assert first == second
    assert len(store.records.all()) == 1


def test_what_failed_and_was_taken_back_is_not_taken_for_kept(
    store: Store, phone: Phone, unit: Unit, monkeypatch
) -> None:
    text = phone.signed_record(phone.start(unit))
    add, failed = store.audit.add, []

    def fails_once(*arguments, **named):
        if not failed:
            failed.append(True)
            raise ValueError
        return add(*arguments, **named)

    monkeypatch.setattr(store.audit, "add", fails_once)
    answers = receive_records(store, [Sent(text), Sent(text)], phone.person)
    assert [answer and answer.state for answer in answers] == [None, "signed"]
    assert [record.jws for record in store.records.all()] == [text]
    assert store.check() == []
