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


def tag_of(client, **query: str) -> str:
    return client.get("/api/work", query_string=query).headers["ETag"]


def test_unchanged_work_is_known_without_reading_it(
    installer, store: Store, unit: Unit, phone: Phone
) -> None:
    tag = {"If-None-Match": tag_of(installer)}
    asked: list[str] = []
    store.connection.read().conn.set_trace_callback(asked.append)
    assert installer.get("/api/work", headers=tag).status_code == 304
    store.connection.read().conn.set_trace_callback(None)
    assert asked
    assert not [sql for sql in asked if any(table in sql for table in ("known_units", "sites", "events"))]


def test_a_phone_that_keeps_the_procedures_of_an_answer_need_not_fetch_it_twice(
    installer, phone: Phone, unit: Unit
) -> None:
    whole = installer.get("/api/work")
    have = ",".join(one["hash"] for one in whole.json["procedures"])
    tag = {"If-None-Match": whole.headers["ETag"]}
    assert installer.get(f"/api/work?have={have}", headers=tag).status_code == 304
    phone.start(unit)
    assert installer.get(f"/api/work?have={have}", headers=tag).status_code == 200


def test_whatever_a_phone_is_told_of_is_news(
    installer, store: Store, phone: Phone, desk: Phone, unit: Unit, people
) -> None:
    gauge = {"kind": "gauge", "name": "G", "serial": "1", "calibration_due": None, "unit": "bar"}
    tool = store.instruments.add(**gauge, range_minimum=0, range_maximum=6)
    visit = phone.start(unit)
    measured = phone.event(visit.id, "test.pressure", {"typed": "6", "unit": "bar", "instrument": tool.id})
    record: list[str] = []

    def sign() -> None:
        text = phone.signed_record(store.visits.get(visit.id), phone.entries(visit.id))
        record.append(receive_record(store, text, phone.person).sha256)

    changes = {
        "a name": lambda: store.people.rename(people["quality"].id, "Quinn Brook"),
        "a site": lambda: store.sites.change(unit.site, name="Mill", address="", values={}),
        "a unit": lambda: store.units.add("Other", "FW-9", unit.site, {}),
        "a plate": lambda: store.units.change(
            unit.id,
            name=unit.name,
            serial=unit.serial,
            site=unit.site,
            plate={"maximum_pressure": {"value": 6}},
        ),
        "an instrument out of use": lambda: store.instruments.change(tool.id, active=False),
        "an entry with it": lambda: store.events.keep(measured, late=False),
        "a signature": sign,
        "a decision": lambda: receive_decision(store, desk.signed_decision(record[0]), desk.person, 12),
    }
    seen = [tag_of(installer)]
    for name, change in changes.items():
        assert tag_of(installer) == seen[-1]
        change()
        assert tag_of(installer) not in seen, name
        seen.append(tag_of(installer))


def test_finished_visits_that_leave_are_news_and_nothing_else_in_time_is(
    sign_in, store: Store, phone: Phone, desk: Phone, unit: Unit, clock
) -> None:
    finish(store, phone, desk, unit)
    first = tag_of(sign_in("installer"))
    clock.advance(days=89)
    assert tag_of(sign_in("installer")) == first
    clock.advance(days=2)
    assert tag_of(sign_in("installer")) != first
