"""Lists a page at a time: every line once and in order, found by words, and by index."""

from collections.abc import Callable

import pytest

from webapp.store import Store, Unit
from webapp.store.lists import page

LARGE = ("events", "records", "decisions", "visits", "record_states", "visit_states", "quarantine", "audit")


@pytest.fixture
def units(store: Store) -> list[Unit]:
    sites = [store.sites.add(name, "", {}) for name in ("Mühle", "Weir House")]
    names = ("Überlauf", "attic", "Attic", "Cellar")
    return [store.units.add(name, f"FW-{n}", sites[n % 2].id, {}) for n, name in enumerate(names)]


def names(store: Store, text: str = "", **more: str) -> list[str]:
    return [one.name for one in store.listing.units(text, **more)]


def walked(ask: Callable[[str], list]) -> list:
    """The lines of all pages of one, each asked for from where the one before ended."""
    found, after = [], ""
    while True:
        lines, place = page(ask(after), 1)
        found += lines
        if place is None:
            return found
        after = place


def test_units_come_by_name_and_a_page_at_a_time(store: Store, units: list[Unit]) -> None:
    whole = store.listing.units()
    assert sorted(one.id for one in whole) == sorted(one.id for one in units)
    assert [one.name.casefold() for one in whole] == ["attic", "attic", "cellar", "überlauf"]
    assert walked(lambda after: store.listing.units(after=after, limit=2)) == whole


def test_all_words_are_looked_for_in_any_spelling_of_capitals(store: Store, units: list[Unit]) -> None:
    assert names(store, "ÜBERLAUF") == ["Überlauf"]
    assert names(store, "attic mühle fw-2") == ["Attic"]
    assert names(store, units[3].short_code.lower()) == ["Cellar"]
    assert names(store, "attic cellar") == []
    assert names(store, "%") == names(store, "_") == []
    assert names(store, site=units[0].site) == ["Attic", "Überlauf"]


def test_units_are_found_by_what_they_and_their_sites_are_called_now(store: Store, units: list[Unit]) -> None:
    store.sites.change(units[0].site, name="Brook", address="", values={})
    store.units.change(units[1].id, name="Loft", serial="FW-9", site=units[0].site, plate={})
    assert names(store, "mühle") == []
    assert names(store, "brook") == ["Attic", "Loft", "Überlauf"]
    assert store.listing.units_at([units[0].site, units[1].site]) == {units[0].site: 3, units[1].site: 1}
    assert store.listing.differences() == []


def test_what_was_not_accepted_is_found_by_unit_and_sender(full: Store) -> None:
    (item,) = full.quarantine.all()
    for text in ("basement", "WEIR", "ilse", ""):
        assert [one.item for one in full.listing.quarantined(text)] == [item.id]
    assert full.listing.quarantined("elsewhere") == full.listing.quarantined(seen=False) == []
    assert full.listing.quarantined(before=item.id) == full.listing.unseen() == []
    assert full.listing.quarantined(seen=True)[0].detail == item.reasons[0]["detail"]


def test_no_list_goes_through_a_whole_table(full: Store) -> None:
    """SQLite's own word for what it would do: SEARCH by a key or an index, or SCAN through all rows."""
    asked: list[str] = []
    connection = full.connection.read().conn
    connection.set_trace_callback(asked.append)
    full.listing.queue()
    for ask in (full.listing.conditional, full.listing.to_come, full.listing.reopened):
        ask()
    full.listing.overdue("2026-11-25")
    full.listing.unseen()
    full.listing.search("basement", unit="u")
    full.listing.search(site="s", state="returned")
    full.devices.last_uses(full.devices.page())
    full.audit.newest()
    full.contacts.losses()
    full.visits.open_or_finished_since(full.clock())
    full.visits.news(full.clock())
    full.visits.procedures_in_use()
    full.baselines.of_unit("u")
    connection.set_trace_callback(None)
    assert len(asked) > 15
    for sql in asked:
        plan = [row[3] for row in connection.execute(f"explain query plan {sql}")]
        assert not [line for line in plan if is_whole(line)], sql


def is_whole(line: str) -> bool:
    words = line.split()
    names = {
        "r": "record_states",
        "t": "visit_states",
        "q": "quarantine_states",
        "e": "events",
        "v": "visits",
    }
    return words[0] == "SCAN" and "INDEX" not in words and names.get(words[1], words[1]) in LARGE
