"""The derived states follow from the documents alone."""

from dataclasses import replace

import pytest

from webapp.store import Record, Store, Unit
from webapp.store.listing import STATE_TABLES, visit_state
from webapp.store.quarantine import Quarantined
from webapp.store.records import Decision

RECORD = Record(
    sha256="r1", visit="v", unit="u", jws="", verdict="pass", person="p", device="d", previous=None,
    corrects=None, signed_at="", received_at="2026-11-25T10", state="signed", reasons=[],
)  # fmt: skip
DECISION = Decision("d1", "r1", "", "accepted", "", "s", "d", "", "2026-11-25T11", None)
RETURN = replace(DECISION, decision="returned", reasons="Not clear.")
RETURNED = replace(RECORD, decisions=(RETURN,))
REOPENED = replace(RECORD, decisions=(DECISION, replace(RETURN, sha256="d2", received_at="2026-11-25T14")))
HELD = Quarantined(1, "record", "q", "", "v", "u", "p", [], "2026-11-25T12")
SEEN = replace(HELD, seen_by="s", seen_at="2026-11-25T13", note="Sign again.")


@pytest.mark.parametrize(
    ("records", "quarantined", "state"),
    [
        ([], [], "draft"),
        ([RECORD], [], "signed"),
        ([RECORD], [HELD], "signed"),
        ([replace(RECORD, decisions=(DECISION,))], [HELD], "accepted"),
        ([REOPENED], [HELD], "returned"),
        ([REOPENED, replace(RECORD, sha256="r2")], [], "signed"),
        ([RETURNED], [], "returned"),
        ([RETURNED, replace(RECORD, sha256="r2")], [], "signed"),
        ([], [HELD], "quarantined"),
        ([], [SEEN], "returned"),
        ([RETURNED], [HELD], "quarantined"),
        ([RETURNED], [replace(HELD, received_at="2026-11-25T10")], "returned"),
        ([], [replace(HELD, kind="decision")], "draft"),
    ],
)
def test_the_state_of_a_visit(records: list, quarantined: list, state: str) -> None:
    found = visit_state(records, quarantined)
    assert found["state"] == state
    assert found["record"] == (records[-1].sha256 if records else None)


def test_a_returned_visit_says_by_whom_and_why() -> None:
    assert visit_state([RETURNED], [])["returned"] == {
        "reasons": "Not clear.",
        "by": "s",
        "at": "2026-11-25T11",
    }
    assert visit_state([], [SEEN])["returned"] == {"reasons": "Sign again.", "by": "s", "at": "2026-11-25T13"}


def derived(store: Store) -> dict[str, list[dict]]:
    read = store.connection.read()
    return {table: sorted(map(str, read.query(f"select * from {table}"))) for table in STATE_TABLES}


def test_rebuilding_gives_what_was_there(store: Store, accepted: Record, unit: Unit) -> None:
    before = derived(store)
    assert store.units.get(unit.id).previous == accepted.sha256
    with store.connection.write() as db:
        for table in STATE_TABLES:
            db.table(table).delete_where()
    assert store.units.get(unit.id).previous is None
    store.listing.rebuild()
    assert derived(store) == before


def test_a_unit_without_a_record_is_not_commissioned(store: Store, unit: Unit) -> None:
    assert store.listing.unit_state(unit.id).state == "not_commissioned"
    store.listing.rebuild()
    assert store.listing.unit_states()[unit.id].state == "not_commissioned"


def test_search_finds_by_any_part_and_takes_signs_literally(store: Store, accepted: Record) -> None:
    assert store.listing.queue() == []
    for text in ("basement", "fw-0001", "weir house", "ilse"):
        assert [one.sha256 for one in store.listing.search(text)] == [accepted.sha256]
    for text in ("%", "_", "\\", "elsewhere"):
        assert store.listing.search(text) == []
    assert [one.sha256 for one in store.listing.search(state="accepted")] == [accepted.sha256]
    assert store.listing.search(state="signed") == []
    assert store.listing.record(accepted.sha256).unit_name == "Basement unit"
