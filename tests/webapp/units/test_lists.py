"""Units and sites a page at a time, and what was not accepted."""

import pytest

from webapp.receiving import receive_record


@pytest.fixture
def many(store, unit):
    """With the first one two more units than a page holds."""
    with store.transaction():
        return [unit, *(store.units.add(f"Unit {n:02}", f"FW-T{n:02}", unit.site, {}) for n in range(51))]


def test_units_are_listed_a_page_at_a_time_and_found_on_any(sign_in, many):
    client = sign_in("installer")
    first = client.get("/units").text
    assert ("Unit 48" in first, "Unit 49" in first) == (True, False)
    place = f"unit 48~{many[49].id}"
    second = client.get("/units", query_string={"after": place}).text
    assert "Unit 49" in second
    assert "More units" not in second
    assert "Unit 50" in client.get("/units?q=fw-t50+weir").text


def test_a_site_leads_to_its_units(sign_in, store, many):
    other = store.units.add("Elsewhere", "FW-E", store.sites.add("Mill", "", {}).id, {})
    client = sign_in("quality")
    page = client.get("/units/sites").text
    assert "52 units" in page
    assert f"/units?site={other.site}" in page
    found = client.get(f"/units?site={other.site}").text
    assert "Elsewhere" in found
    assert "Basement unit" not in found


def test_what_was_not_accepted_is_listed_with_its_reason_also_after_somebody_looked(
    sign_in, store, unit, phone, people
):
    receive_record(store, phone.signed_record(phone.start(unit), previous="0" * 64), phone.person)
    (item,) = store.quarantine.waiting()
    store.quarantine.note_seen(item.id, people["supervisor"].id, "Looked into it.")
    client = sign_in("supervisor")
    assert item.reasons[0]["detail"] in client.get("/office/quarantine?q=basement&seen=yes").text
    assert "Nothing fits" in client.get("/office/quarantine?seen=no").text
    assert "Everything that came in was accepted." in client.get("/office/?list=quarantined").text
    assert client.get("/office/?list=nonsense").status_code == 404
