"""The queue, the search, the page of a record, its copies, and what was not accepted."""

import hashlib
import io
import json

import pypdf
import pytest

from checks.engine import judge
from checks.fold import fold
from tests.phone import EMPTY, PROCEDURE
from webapp.office import routes
from webapp.receiving import receive_events, receive_record


@pytest.fixture
def office(sign_in, supervisor):
    return sign_in(supervisor)


def test_what_waits_stands_in_the_queue_and_leaves_it_with_the_decision(office, waiting, decide):
    record = waiting()
    assert f"/office/records/{record.sha256}" in office.get("/office/").text
    decide(record)
    assert f"/office/records/{record.sha256}" not in office.get("/office/").text


def test_an_empty_queue_says_so(office):
    page = office.get("/office/").text
    assert "No record waits for a decision." in page
    assert "Everything that came in was accepted." in page


def test_conditions_and_overdue_dates_stand_in_the_queue(office, waiting, decide, store, clock, sign_in):
    decide(waiting(), "accepted_with_conditions", "Second filter within a week.")
    gauge = {"kind": "pressure_gauge", "name": "Old gauge", "serial": "G-1", "unit": "bar"}
    ends = {"range_minimum": 0, "range_maximum": 6}
    store.instruments.add(calibration_due="2026-11-01", **gauge, **ends)
    page = office.get("/office/").text
    assert "Second filter within a week." in page
    assert "Calibration overdue" in page
    assert "Service overdue" not in page
    clock.advance(days=400)
    assert "Service overdue" in sign_in("supervisor").get("/office/").text


def test_the_page_of_a_record_shows_readings_verdicts_and_signature(office, waiting):
    page = office.get(f"/office/records/{waiting().sha256}").text
    for part in ("Pressure", "6.5\u00a0bar", "Tight", "Ilse Brook", "(UTC+01:00)"):
        assert part in page
    assert 'data-verdict="pass"' in page


def test_a_photo_that_has_not_arrived_is_said_and_one_that_has_is_shown(office, store, unit, phone):
    visit = phone.start(unit)
    data = b"\xff\xd8\xff a picture"
    sha256 = hashlib.sha256(data).hexdigest()
    picture = phone.event(
        visit.id, "test.picture", {"sha256": sha256, "type": "image/jpeg", "size": len(data)}
    )
    answer = receive_record(
        store, phone.signed_record(visit, [picture, *with_basis(phone, visit, picture)]), phone.person
    )
    assert answer.state == "signed", answer.reasons
    path = f"/office/records/{answer.sha256}"
    page = office.get(path).text
    assert "has not arrived yet" in page
    assert page.index("photos are still to come") < page.index('id="steps"')
    store.photos.keep(sha256, data, phone.person.id)
    assert f'src="/office/photos/{sha256}"' in office.get(path).text
    assert office.get(f"/office/photos/{sha256}").data == data


def with_basis(phone, visit, picture):
    entered = [phone.reading(visit.id), phone.event(visit.id, "test.tight", {"value": "yes"})]
    seen = judge(PROCEDURE, {**EMPTY, **fold(PROCEDURE, [picture, *entered])})["steps"]["test"]["basis"]
    return [*entered, phone.event(visit.id, "test#done", {"seen": seen})]


def test_a_late_entry_is_shown_apart(office, waiting, store, phone):
    record = waiting()
    receive_events(store, [phone.reading(record.visit, 7.25)], phone.person)
    page = office.get(f"/office/records/{record.sha256}").text
    assert "Entries that came after signing" in page
    assert "7.25\u00a0bar" in page


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ({}, True),
        ({"q": "basement"}, True),
        ({"q": "FW-0001"}, True),
        ({"q": "Ilse"}, True),
        ({"q": "100%"}, False),
        ({"state": "signed"}, True),
        ({"state": "returned"}, False),
        ({"site": "SITE"}, True),
        ({"site": "another"}, False),
        ({"since": "2026-11-25", "until": "2026-11-25"}, True),
        ({"since": "2026-11-26"}, False),
        ({"until": "2026-11-24"}, False),
        ({"since": "yesterday", "state": "nonsense"}, True),
    ],
)
def test_records_are_found_by_unit_signer_site_state_and_day(office, waiting, unit, query, found):
    record = waiting()
    query = {name: unit.site if value == "SITE" else value for name, value in query.items()}
    page = office.get("/office/records", query_string=query).text
    assert (record.sha256 in page) == found


def test_very_many_sites_are_found_by_words_and_are_no_list_to_scroll(
    office, store, waiting, unit, monkeypatch
):
    record = waiting()
    monkeypatch.setattr(routes, "MOST_SITES", 3)
    for number in range(2):
        store.sites.add(f"Mill {number}", "", {})
    assert 'name="site"' in office.get("/office/records").text
    store.sites.add("Mill 9", "", {})
    page = office.get("/office/records").text
    assert 'name="site"' not in page
    assert record.sha256 in office.get("/office/records?q=weir+house").text
    chosen = office.get("/office/records", query_string={"site": unit.site}).text
    assert record.sha256 in chosen
    assert f'<option selected value="{unit.site}">' in chosen
    assert 'name="site"' not in office.get("/office/records?site=nowhere").text


def test_the_quality_manager_reads_and_exports_and_decides_nothing(sign_in, waiting, decide):
    record = waiting()
    decide(record)
    quality = sign_in("quality")
    page = quality.get(f"/office/records/{record.sha256}").text
    assert "Sign the decision" not in page
    path = f"/office/records/{record.sha256}"
    assert quality.get(f"{path}/record.jws").data.decode() == record.jws
    assert quality.get(f"{path}/decision.jws").mimetype == "application/jose"
    content = json.loads(quality.get(f"{path}/record.json").data)
    assert content["record"] == record.content()
    assert [one["decision"] for one in content["decisions"]] == ["accepted"]
    certificate = quality.get(f"{path}/certificate.pdf")
    assert certificate.headers["Content-Disposition"].startswith('attachment; filename="FW-0001-2026-11-25-')
    attached = pypdf.PdfReader(io.BytesIO(certificate.data)).attachments
    assert attached["record.jws"] == [record.jws.encode()]


def test_there_is_no_decision_to_download_before_there_is_one(office, waiting):
    assert office.get(f"/office/records/{waiting().sha256}/decision.jws").status_code == 404


def test_an_unknown_record_is_a_404(office):
    assert office.get("/office/records/" + "0" * 64).status_code == 404


@pytest.mark.parametrize("path", ["/office/", "/office/records", "/office/quarantine/1"])
def test_installers_and_strangers_do_not_enter(client, sign_in, path):
    assert client.get(path).status_code == 303
    assert sign_in("installer").get(path).status_code == 403


@pytest.fixture
def quarantined(store, phone, unit):
    """A record whose verdicts were changed after the entries were judged."""
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id))
    content["judgement"]["rules"]["test.tight"]["verdict"] = "fail"
    receive_record(store, phone.sign(content, "firstwater-record+jws"), phone.person)
    return store.quarantine.waiting()[0]


def test_what_was_not_accepted_is_shown_with_its_reasons_and_can_be_had_as_it_came(office, quarantined):
    assert "Judged again" in office.get("/office/").text
    page = office.get(f"/office/quarantine/{quarantined.id}").text
    assert "verdicts_differ" in page
    answer = office.get(f"/office/quarantine/{quarantined.id}/document")
    assert answer.data.decode() == quarantined.document


def test_a_supervisor_notes_what_was_done_and_the_visit_goes_back(office, quarantined, store):
    path = f"/office/quarantine/{quarantined.id}"
    assert store.visits.get(quarantined.visit).state == "quarantined"
    assert "Write what you found" in office.press(f"{path}/seen", note=" ").text
    assert office.press(f"{path}/seen", note="Old app; update and sign again.").status_code == 303
    assert store.visits.get(quarantined.visit).state == "returned"
    assert store.quarantine.waiting() == []
    assert "Old app; update and sign again." in office.get(path).text


def test_only_a_supervisor_notes(sign_in, quarantined):
    assert sign_in("quality").press(f"/office/quarantine/{quarantined.id}/seen", note="x").status_code == 403
