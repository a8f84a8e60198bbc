"""The derived states follow from the documents alone."""

from dataclasses import replace

import pytest

from tests.phone import Phone
from webapp.receiving import receive_record
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
    assert store.listing.unit_state(unit.id).state == "not_commissioned"


def test_search_finds_by_any_part_and_takes_signs_literally(store: Store, accepted: Record) -> None:
    assert store.listing.queue() == []
    for text in ("basement", "fw-0001", "weir house", "ilse"):
        assert [one.sha256 for one in store.listing.search(text)] == [accepted.sha256]
    for text in ("%", "_", "\\", "elsewhere"):
        assert store.listing.search(text) == []
    assert [one.sha256 for one in store.listing.search(state="accepted")] == [accepted.sha256]
    assert store.listing.search(state="signed") == []
    assert store.listing.record(accepted.sha256).unit_name == "Basement unit"


@pytest.fixture
def five(store: Store, phone: Phone, unit: Unit, clock) -> list[str]:
    """Records of five days, the newest first; the odd ones at a second site, two of them received at once."""
    other = store.sites.add("Mill House", "9 Mill Lane", {})
    second = store.units.add("Attic unit", "FW-0002", other.id, {})
    for day in range(5):
        text = phone.signed_record(phone.start(second if day % 2 else unit))
        receive_record(store, text, phone.person)
        clock.advance(days=0 if day == 2 else 1)
    found = sorted(((one.received_at, one.sha256) for one in store.records.all()), reverse=True)
    assert len({received for received, _ in found}) == 4
    return [sha256 for _, sha256 in found]


def pages(store: Store, size: int, text: str = "", **filters: str) -> list[list[str]]:
    """All pages, each asked for with the last record of the one before."""
    found: list[list[str]] = []
    before = ""
    while page := store.listing.search(text, size, before=before, **filters):
        found.append([one.sha256 for one in page])
        before = page[-1].place
    return found


def test_pages_hold_every_record_once_and_in_order(store: Store, five: list[str]) -> None:
    """Also where two came in the same millisecond and the page ends between them."""
    for text in ("", "ilse"):
        for size in (1, 2, 3, 5):
            found = pages(store, size, text)
            assert [one for page in found for one in page] == five
            assert all(len(page) == size for page in found[:-1])
    assert store.listing.search(before=store.listing.record(five[-1]).place) == []


def test_a_record_that_comes_meanwhile_shifts_no_page(
    store: Store, phone: Phone, unit: Unit, five: list[str]
) -> None:
    first = store.listing.search(limit=2)
    receive_record(store, phone.signed_record(phone.start(unit)), phone.person)
    second = store.listing.search(limit=3, before=first[-1].place)
    assert [one.sha256 for one in (*first, *second)] == five


def test_records_of_one_site_are_found_with_paging_and_text(
    store: Store, unit: Unit, five: list[str]
) -> None:
    sites = {one.sha256: one.site for one in store.listing.search()}
    there = [one for one in five if sites[one] == unit.site]
    assert len(there) == 3
    assert [one for page in pages(store, 2, site=unit.site) for one in page] == there
    assert [one for page in pages(store, 2, "basement", site=unit.site) for one in page] == there
    assert store.listing.search("attic", site=unit.site) == []


def test_days_are_days_of_signing_and_both_ends_belong(store: Store, five: list[str]) -> None:
    days = {one.sha256: one.signed_at[:10] for one in store.listing.search()}
    assert sorted(set(days.values())) == ["2026-11-25", "2026-11-26", "2026-11-27", "2026-11-28"]

    def found(**filters: str) -> list[str]:
        return [one.sha256 for one in store.listing.search(**filters)]

    def signed(*wanted: str) -> list[str]:
        return [one for one in five if days[one] in wanted]

    assert found(since="2026-11-27") == signed("2026-11-27", "2026-11-28")
    assert found(until="2026-11-26") == signed("2026-11-25", "2026-11-26")
    assert found(since="2026-11-27", until="2026-11-27") == signed("2026-11-27")
    assert found(since="2026-11-29") == found(until="2026-11-24") == []


def test_the_pages_go_by_index(store: Store, five: list[str]) -> None:
    """The indexes of the twelfth step of the schema; without them each page reads every signed text."""
    plan = "explain query plan select record from record_states"
    for rest, index in [
        ("order by received_at desc", "records_by_time"),
        ("where state = 'signed' order by received_at", "records_by_state"),
        ("where unit = 'u' order by received_at", "records_by_unit"),
        ("where person = 'p' order by received_at", "records_by_person"),
    ]:
        used = [row[3] for row in store.connection.read().execute(f"{plan} {rest}")]
        assert any(index in line for line in used), used
        assert not any("TEMP B-TREE" in line for line in used), used


WRONG = {
    "record_states": [
        "update record_states set state = 'returned'",
        "update record_states set signed_at = ''",
        "delete from record_states",
    ],
    "unit_states": [
        "update unit_states set next_service = null",
        "update unit_states set baseline = null",
        "update unit_states set baseline = json_set(baseline, '$.values.pressure.value', 9)",
        "delete from unit_states",
    ],
    "unit_words": ["update unit_words set words = ''", "delete from unit_words"],
    "visit_states": ["update visit_states set state = 'draft'"],
    "entries_under_way": ["insert into entries_under_way select visit, device, 9 from events limit 1"],
}


def test_a_row_that_does_not_follow_is_named_and_rebuilding_puts_it_right(
    store: Store, accepted: Record
) -> None:
    assert store.listing.differences() == []
    before = derived(store)
    keys = {"record_states": accepted.sha256, "visit_states": accepted.visit}
    keys |= {"unit_states": accepted.unit, "unit_words": accepted.unit}
    keys["entries_under_way"] = f"{accepted.visit} {accepted.device}"
    for table, statement in [(table, one) for table, several in WRONG.items() for one in several]:
        with store.connection.write() as db:
            db.execute(statement)
        wrong = derived(store)
        found = store.listing.differences()
        # Entries are under way while their visit is open.
        names = [table, "entries_under_way"] if table == "visit_states" else [table]
        assert found == [
            f"List {one}: the row of {keys[one]} does not follow from the documents." for one in names
        ]
        assert derived(store) == wrong, "looking changes nothing"
        assert store.check() == found
        store.listing.rebuild()
        assert derived(store) == before
