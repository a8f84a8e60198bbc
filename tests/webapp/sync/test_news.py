"""A phone is told what changed since it last asked, in answers of a bounded size, and misses nothing."""

from typing import Any

import pytest

from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record
from webapp.store import Store, Unit
from webapp.sync import work


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


def ask(client, since: str, path: str = "/api/work") -> dict[str, Any]:
    return client.get(path, query_string={"since": since}).json


def names(answer: dict[str, Any]) -> list[str]:
    return sorted(one["name"] for one in answer["units"])


def more_units(store: Store, unit: Unit, number: int) -> None:
    for each in range(number):
        store.units.add(f"Unit {each}", f"FW-N{each}", unit.site, {})


def test_only_what_changed_comes_again(installer, store: Store, unit: Unit, phone: Phone) -> None:
    more_units(store, unit, 3)
    visit = phone.start(unit)
    first = ask(installer, "")
    assert (first["since"], first["more"], len(first["units"]), len(first["visits"])) == (None, False, 4, 1)
    nothing = ask(installer, first["cursor"])
    assert (nothing["units"], nothing["visits"], nothing["since"]) == ([], [], first["cursor"])
    assert nothing["sites"] == first["sites"]
    store.units.change(unit.id, name="Renamed", serial=unit.serial, site=unit.site, plate={})
    other = phone.start(unit)
    changed = ask(installer, nothing["cursor"])
    assert names(changed) == ["Renamed"]
    assert [one["id"] for one in changed["visits"]] == [other.id]
    assert visit.id not in {one["id"] for one in changed["visits"]}


def test_whatever_a_unit_or_visit_is_told_with_comes_when_it_changes(
    installer, store: Store, unit: Unit, phone: Phone, people
) -> None:
    """What comes since then, laid over what was there, is what a first question brings."""
    desk = Phone(store, people["supervisor"], "desk")
    visit = phone.start(unit)
    first = ask(installer, "")
    known = {kind: {one["id"]: one for one in first[kind]} for kind in ("units", "visits")}
    sha256 = receive_record(store, phone.signed_record(visit, phone.entries(visit.id)), phone.person).sha256
    cursor = follow(installer, known, first["cursor"])
    receive_decision(store, desk.signed_decision(sha256, "accepted", ""), desk.person, 12)
    cursor = follow(installer, known, cursor)
    assert known["units"][unit.id]["previous"] == sha256
    assert known["visits"][visit.id]["state"] == "accepted"
    store.units.new_token(unit.id)
    more_units(store, unit, 2)
    cursor = follow(installer, known, cursor)
    store.listing.rebuild()
    follow(installer, known, cursor)


def follow(client, known: dict[str, dict[str, Any]], cursor: str) -> str:
    answer, whole = ask(client, cursor), ask(client, "")
    for kind, things in known.items():
        things |= {one["id"]: one for one in answer[kind]}
        assert things == {one["id"]: one for one in whole[kind]}
    return answer["cursor"]


def test_many_units_come_in_several_answers_and_each_once(
    installer, store: Store, unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(work, "UNITS_AT_ONCE", 2)
    more_units(store, unit, 4)
    answer = ask(installer, "")
    found, cursors = names(answer), [answer["cursor"]]
    assert answer["since"] is None
    while answer["more"]:
        assert len(answer["units"]) == 2
        answer = ask(installer, answer["cursor"], "/api/units")
        assert answer["since"] == cursors[-1]
        found += names(answer)
        cursors.append(answer["cursor"])
    assert sorted(found) == ["Basement unit", "Unit 0", "Unit 1", "Unit 2", "Unit 3"]
    assert len(cursors) == 3
    assert ask(installer, cursors[-1])["units"] == []
    assert names(ask(installer, cursors[0])) == names(ask(installer, cursors[0], "/api/units"))


def test_a_cursor_of_another_history_brings_everything(installer, store: Store, unit: Unit) -> None:
    """As after a restored backup, in which the same numbers are given once more for other changes."""
    cursor = ask(installer, "")["cursor"]
    store.units.change(unit.id, name="Lost", serial=unit.serial, site=unit.site, plate={})
    lost = ask(installer, cursor)["cursor"]
    with store.connection.write() as db:
        newest = store.news.newest().number
        db.execute("delete from news_numbers where number = ?", [newest])
        db.execute("insert into news_numbers values (?, hex(randomblob(8)))", [newest])
    for wrong in (lost, "1.1.1.ABCDEF", "9" * 400, "9.9.1.0000000000000000", cursor.lower() + "x"):
        answer = ask(installer, wrong)
        assert (answer["since"], names(answer)) == (None, ["Lost"])
    number, word = cursor.split(".")[2:]
    ahead = ask(installer, f"999999.1.{number}.{word}")
    assert ahead["since"] is None
    assert ask(installer, cursor)["since"] == cursor


def test_an_answer_in_several_parts_goes_on_after_a_change_meanwhile(
    installer, store: Store, unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(work, "UNITS_AT_ONCE", 2)
    more_units(store, unit, 3)
    answer = ask(installer, "")
    known = {one["id"]: one for one in answer["units"]}
    changed = next(iter(known.values()))
    store.units.change(changed["id"], name="Changed", serial=changed["serial"], site=unit.site, plate={})
    while answer["more"]:
        answer = ask(installer, answer["cursor"], "/api/units")
        known |= {one["id"]: one for one in answer["units"]}
    assert known[changed["id"]]["name"] == "Changed"
    assert len(known) == 4
