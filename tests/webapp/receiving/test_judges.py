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
