"""Records that come together: each is answered by itself, and one commit makes all of them durable."""

from collections.abc import Callable

import pytest

from tests.phone import Phone
from webapp.receiving import Answer, Sent, receive_record, receive_records
from webapp.signing import jws
from webapp.signing.canonical import digest
from webapp.store import Store, Unavailable


@pytest.fixture
def texts(store: Store, phone: Phone, unit) -> list[str]:
    """Signed records of three units."""
    others = [store.units.add(f"Unit {n}", f"FW-9{n}", unit.site, {}) for n in range(2)]
    return [phone.signed_record(phone.start(one)) for one in (unit, *others)]


@pytest.fixture
def send(store: Store, phone: Phone) -> Callable[[list[str]], list[Answer | None]]:
    return lambda texts: receive_records(store, [Sent(text) for text in texts], phone.person)


def states(answers: list[Answer | None]) -> list[str | None]:
    return [answer and answer.state for answer in answers]


def test_each_is_kept_as_if_it_had_come_alone_with_one_commit_for_all(store: Store, texts, send) -> None:
    statements: list[str] = []
    store.connection._writer.conn.set_trace_callback(statements.append)
    answers = send(texts)
    store.connection._writer.conn.set_trace_callback(None)
    assert states(answers) == ["signed"] * 3
    assert statements.count("COMMIT") == 1
    assert [store.records.get(answer.sha256).jws for answer in answers] == texts
    assert store.listing.differences() == []
    assert store.audit.broken_at() is None
    assert [entry.action for entry in store.audit.newest(3)] == ["record_received"] * 3


def test_what_cannot_be_accepted_holds_up_none_of_the_others(store: Store, texts, send) -> None:
    answers = send([texts[0], "no record", texts[1][:-9], texts[2]])
    assert states(answers) == ["signed", "quarantined", "quarantined", "signed"]
    assert len(store.records.all()) == len(store.quarantine.all()) == 2


def test_the_same_twice_is_one_record_and_so_is_a_second_sending(store: Store, texts, send) -> None:
    answers = send([texts[0], texts[0]])
    assert answers[0] == answers[1] == send([texts[0]])[0]
    assert len(store.records.all()) == 1


def test_the_second_of_one_visit_meets_it_signed(store: Store, phone: Phone, unit, send) -> None:
    visit = phone.start(unit)
    events = phone.entries(visit.id)
    twice = [phone.signed_record(visit, events), phone.signed_record(visit, events, app="another")]
    answers = send(twice)
    assert states(answers) == ["signed", "quarantined"]
    assert answers[1].reasons[0]["code"] == "already_signed"


def test_nothing_is_left_of_one_that_fails_here(store: Store, phone: Phone, texts, send, caplog) -> None:
    """A trigger stands for whatever fault of ours."""
    name = digest(jws.read(texts[1]).payload)
    sql = f"""create temp trigger fault before insert on main.records when new.sha256 = '{name}'
        begin select raise(abort, 'a fault of ours'); end"""
    store.connection._writer.execute(sql)
    assert states(send(texts)) == ["signed", None, "signed"]
    assert "a fault of ours" in caplog.text
    visits = {record.visit for record in store.records.all()}
    assert len(visits) == 2
    assert {event.visit for event in store.events.select(order="id")} == visits
    store.connection._writer.execute("drop trigger fault")
    assert receive_record(store, texts[1], phone.person).state == "signed"


def test_without_room_none_is_answered_and_none_is_kept(store: Store, texts, send) -> None:
    writer = store.connection._writer.conn
    pages = writer.execute("pragma page_count").fetchone()[0]
    writer.execute(f"pragma max_page_count = {pages}")
    with pytest.raises(Unavailable):
        send(texts * 20)
    assert store.records.all() == []
    writer.execute(f"pragma max_page_count = {2**30}")
    assert states(send(texts)) == ["signed"] * 3
