"""HTML, SQL and typesetting in every text that people write: shown as text, everywhere it is shown."""

import io
from typing import Any

import pytest
from pypdf import PdfReader

from tests.webapp.receiving.unsent_file import as_bytes, contents, written
from webapp.receiving import receive_decision, receive_record, reopen_quarantined
from webapp.store import Record, Unit

NASTY = (
    """<script>alert(1)</script><img src=x onerror=alert(2)>"'--'); drop table units; {{7*7}} #panic("x")"""
)
RUNNING = ("<script>alert", "<img src=x", "onerror=alert(2)>\"'")


@pytest.fixture(scope="module")
def unit(target) -> Unit:
    store = target.store
    site = store.sites.add(NASTY, NASTY, {"note": {"value": NASTY, "typed": NASTY}})
    for phone in (target.phone, target.desk):
        store.people.rename(phone.person.id, NASTY[:150])
        phone.person = store.people.get(phone.person.id)
    store.devices.rename(target.phone.thumbprint, NASTY[:80])
    store.instruments.add(
        kind="gauge",
        name=NASTY,
        serial=NASTY,
        unit="bar",
        calibration_due="2020-01-01",
        range_minimum=0,
        range_maximum=6,
    )
    return store.units.add(
        NASTY, NASTY, site.id, {"maximum_pressure": {"value": 6, "typed": NASTY, "unit": "bar"}}
    )


def defect(target, visit: str) -> dict[str, Any]:
    """Found and closed; its item is the event itself."""
    said = {"text": NASTY, "severity": "minor", "owner": NASTY, "due": None, "photo": None, "closed": NASTY}
    event = target.phone.event(visit, "test#defect", said)
    return event | {"item": event["id"]}


@pytest.fixture(scope="module")
def record(target, unit: Unit) -> Record:
    """Accepted with conditions, every text of it hostile; a second one of the unit is kept apart."""
    phone, store = target.phone, target.store
    visit = phone.start(unit)
    first = phone.reading(visit.id)
    first["content"]["typed"] = NASTY
    changed = phone.reading(visit.id, replaces=[first["id"]], reason={"code": "other", "text": NASTY})
    notes = [phone.event(visit.id, "test#note", {"value": NASTY})]
    notes += [phone.event(visit.id, "test#override", {"reason": NASTY}), defect(target, visit.id)]
    entries = [first, *notes, changed, *phone.entries(visit.id)[1:]]
    entries[-1]["content"]["seen"] = phone.record(visit, entries[:-1])["judgement"]["steps"]["test"]["basis"]
    answer = receive_record(store, phone.signed_record(visit, entries, meaning=NASTY), phone.person)
    assert answer.state == "signed", answer
    for _ in range(2):
        target.codes(phone.signed_record(phone.start(unit), previous="0" * 64, meaning=NASTY))
    reopen_quarantined(store, store.quarantine.all()[-1].id, target.desk.person, NASTY)
    store.passkeys.add("key", target.desk.person.id, NASTY[:80], "AA", 0)
    store.sessions.start("another", target.desk.person.id, NASTY)
    decision = target.desk.signed_decision(answer.sha256, "accepted_with_conditions", NASTY)
    receive_decision(store, decision, target.desk.person, 12)
    return store.records.get(answer.sha256)


def pages(target, record: Record) -> list[str]:
    unit = target.store.units.get(record.unit)
    apart = [one.id for one in target.store.quarantine.all()]
    return [
        "/office/",
        "/office/records",
        "/office/records?q=%3Cscript%3Ealert(1)%3C/script%3E",
        f"/office/records/{record.sha256}",
        f"/office/records/{record.sha256}/reopen",
        *(f"/office/quarantine/{one}" for one in apart),
        "/units",
        "/units?q=%22%3E%3Cscript%3Ealert(1)%3C/script%3E",
        f"/units/{unit.id}",
        f"/units/{unit.id}/label",
        "/units/sites",
        "/units/instruments",
        f"/u/{unit.token}",
        "/account",
        "/account/devices",
        "/account/passkeys",
        "/account/passkeys/key",
        "/account/sessions",
        "/trail",
    ]


def test_on_every_page_it_is_text(target, record: Record) -> None:
    """The client also complains about any inline script, style or handler in the parsed page."""
    shown = 0
    for path in pages(target, record):
        answer = target.supervisor.get(path)
        assert answer.status_code == 200, path
        assert not [part for part in RUNNING if part in answer.text], path
        shown += "&lt;script&gt;alert(1)&lt;/script&gt;" in answer.text
    assert shown >= 15, "the pages do show these texts"


def test_in_a_file_that_is_handed_in_it_is_text(target, record: Record) -> None:
    phone = target.phone
    entry = phone.event(record.visit, "test.pressure", {"typed": NASTY, "unit": NASTY}, app=NASTY)
    entry |= {"id": NASTY, "device": NASTY, "field": NASTY}
    file = written(contents(phone, events=[entry], records=[NASTY]) | {"app": NASTY}, phone)
    page = target.supervisor.submit("/office/import", file=(io.BytesIO(as_bytes(file)), NASTY))
    page = target.supervisor.get(page.location) if page.status_code == 303 else page
    assert page.status_code == 200
    assert not [part for part in RUNNING if part in page.text]
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page.text


def test_on_the_certificate_it_is_text_and_the_record_inside_is_as_it_was(target, record: Record) -> None:
    pdf = target.supervisor.get(f"/office/records/{record.sha256}/certificate.pdf")
    assert pdf.content_type == "application/pdf"
    assert pdf.headers["Content-Disposition"].startswith("attachment;")
    reader = PdfReader(io.BytesIO(pdf.data))
    text = "".join(page.extract_text() for page in reader.pages).replace("\n", "").replace(" ", "")
    assert "<script>alert(1)</script>" in text
    assert '#panic("x")' in text
    assert reader.attachments["record.jws"][0].decode() == record.jws
    catalogue = reader.trailer["/Root"]
    assert not {"/OpenAction", "/AA"} & set(catalogue)
    assert "/JavaScript" not in catalogue.get("/Names", {})


def test_on_the_label_it_is_outlines(target, unit: Unit) -> None:
    svg = target.supervisor.get(f"/units/{unit.id}/label.svg")
    assert b"<script" not in svg.data
    assert b"onerror" not in svg.data
    assert svg.headers["X-Content-Type-Options"] == "nosniff"


def test_the_public_page_of_a_hostile_token_is_a_plain_404(target, unit: Unit) -> None:
    client = target.app.test_client()
    for token in ("%3Cscript%3E", "' or '1'='1", unit.token.lower() + "'", "%00", "x" * 5000):
        answer = client.get(f"/u/{token}")
        assert answer.status_code == 404
        assert NASTY[:20] not in answer.text


def test_the_token_of_a_link_is_in_nothing_that_is_sent_or_exported(
    target, unit: Unit, record: Record
) -> None:
    work = target.installer.get("/api/work").text
    readable = target.supervisor.get(f"/office/records/{record.sha256}/record.json").text
    for text in (work, readable, target.supervisor.get("/units").text, target.supervisor.get("/trail").text):
        assert unit.token not in text


def test_names_of_downloads_are_plain_letters(target, record: Record) -> None:
    for ending in ("record.jws", "decision.jws", "record.json", "certificate.pdf"):
        answer = target.supervisor.get(f"/office/records/{record.sha256}/{ending}")
        name = answer.headers["Content-Disposition"].partition("filename=")[2].strip('"')
        assert set(name) <= set("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-."), name


def test_searching_with_sql_finds_only_what_there_is(target, record: Record) -> None:
    for words in ("' or 1=1 --", "%", "_", "\\", '"; drop table records; --'):
        assert target.supervisor.get("/office/records", query_string={"q": words}).status_code == 200
    assert target.store.records.find(record.sha256) is not None
    assert target.store.check() == []


def test_answers_to_phones_are_json_that_no_browser_takes_for_a_page(target, record: Record) -> None:
    answer = target.installer.get("/api/work")
    assert answer.mimetype == "application/json"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    refused = target.installer.call("POST", "/api/visits", json={NASTY: NASTY})
    assert refused.mimetype == "application/problem+json"
