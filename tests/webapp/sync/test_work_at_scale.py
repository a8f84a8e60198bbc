"""The call for work asks the database as often for many finished visits as for few."""

from datetime import timedelta

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Store, Unit


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


@pytest.fixture
def desk(store: Store, people) -> Phone:
    return Phone(store, people["supervisor"], "desk")


def finish(store: Store, phone: Phone, desk: Phone, unit: Unit) -> str:
    """An accepted visit of the unit; its id."""
    visit = phone.start(unit)
    sha256 = receive_record(store, phone.signed_record(visit, phone.entries(visit.id)), phone.person).sha256
    receive_decision(store, desk.signed_decision(sha256, "accepted", ""), desk.person, 12)
    return visit.id


def statements(client, store: Store) -> list[str]:
    """What the database is asked during one call."""
    found: list[str] = []
    connection = store.connection.read().conn
    connection.set_trace_callback(found.append)
    assert client.get("/api/work").status_code == 200
    connection.set_trace_callback(None)
    return found


def test_more_finished_visits_and_units_need_no_more_questions(
    installer, store: Store, phone: Phone, desk: Phone, unit: Unit
) -> None:
    finish(store, phone, desk, unit)
    statements(installer, store)
    few = len(statements(installer, store))
    for number in range(5):
        finish(store, phone, desk, store.units.add(f"Unit {number}", f"FW-S{number}", unit.site, {}))
    assert len(installer.get("/api/work").json["visits"]) == 6
    assert 0 < len(statements(installer, store)) == few


def test_only_what_is_open_or_was_finished_since_then_is_found(
    store: Store, phone: Phone, desk: Phone, unit: Unit
) -> None:
    now = store.clock()
    finished = finish(store, phone, desk, unit)
    draft = phone.start(store.units.add("Other", "FW-OTHER", unit.site, {})).id
    waiting = phone.start(store.units.add("Third", "FW-THIRD", unit.site, {}))
    receive_record(store, phone.signed_record(waiting, phone.entries(waiting.id)), phone.person)

    def found(hours: int) -> set[str]:
        return {one.id for one in store.visits.open_or_finished_since(now + timedelta(hours=hours))}

    assert found(-1) == {finished, draft, waiting.id}
    assert found(1) == {draft, waiting.id}
