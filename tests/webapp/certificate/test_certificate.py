"""The certificate read by others: pypdf for the file, joserfc for the signatures inside it."""

import hashlib
import io
import json
import re

import pypdf
import pytest
from joserfc import jwk, jws

from checks.formulas_hash import FORMULAS_HASH
from tests.phone import PROCEDURE
from webapp.certificate import Papers, render
from webapp.certificate.sheet import build
from webapp.receiving import receive_decision, receive_record

NASTY = '#panic("x") $x^2$ \\ "quoted" *bold* <label> @ref שלום 😀'


@pytest.fixture
def certificate(store, unit, phone, desk):
    """`certificate()` signs a visit, lets it be decided, and gives the PDF; None leaves it undecided."""

    def make(decision="accepted", reasons=""):
        visit = phone.start(unit)
        record = phone.record(visit, phone.entries(visit.id))
        text = phone.sign(record, "firstwater-record+jws")
        sha256 = receive_record(store, text, phone.person).sha256
        decided = desk.decision(sha256, decision, reasons) if decision else None
        decided_text = desk.sign(decided, "firstwater-decision+jws") if decided else None
        papers = Papers(
            record, sha256, PROCEDURE, (decided,) if decided else (), {phone.person.id: "Ilse Brook"}
        )
        keys = [{**one.public, "kid": one.thumbprint} for one in (phone, desk)]
        return render(papers, text, [decided_text] if decided else [], keys), text, decided_text

    return make


def read(pdf):
    return pypdf.PdfReader(io.BytesIO(pdf))


def text_of(pdf):
    return " ".join(" ".join(page.extract_text() for page in read(pdf).pages).split())


def attached(pdf, name):
    return read(pdf).attachments[name][0]


def test_the_signed_record_and_the_decision_are_inside_byte_for_byte(certificate):
    pdf, record, decision = certificate()
    assert attached(pdf, "record.jws") == record.encode()
    assert attached(pdf, "decision.jws") == decision.encode()


@pytest.mark.parametrize(
    ("formulas", "verdict", "said"),
    [
        (FORMULAS_HASH, "pass", f"Judged with the formulas {FORMULAS_HASH[:12]}, which are today's."),
        ("0" * 64, "pass", f"judged again with today's, {FORMULAS_HASH[:12]}: the same verdicts."),
        ("0" * 64, "fail", "these differ: judgement.rules.test.tight.verdict."),
        (None, "pass", "Judged with formulas that this record does not name; judged again"),
    ],
)
def test_a_reader_is_told_with_which_formulas_it_was_judged(phone, unit, formulas, verdict, said):
    record = phone.record(visit := phone.start(unit), phone.entries(visit.id), formulas=formulas)
    if formulas is None:
        del record["formulas"]
    record["judgement"]["rules"]["test.tight"]["verdict"] = verdict
    rows = {row["label"]: row["value"] for row in build(Papers(record, "0" * 64, PROCEDURE))["identity_rows"]}
    assert said in rows["Formulas"]


def test_any_jose_library_verifies_what_is_inside_with_the_keys_inside(certificate):
    pdf, _, _ = certificate()
    keys = {key["kid"]: jwk.import_key(key) for key in json.loads(attached(pdf, "keys.json"))["keys"]}
    for name in ("record.jws", "decision.jws"):
        text = attached(pdf, name).decode()
        kid = jws.extract_compact(text.encode()).headers()["kid"]
        assert keys[kid].thumbprint() == kid
        assert jws.deserialize_compact(text, keys[kid], algorithms=["ES256"]).payload


def test_the_printed_identity_is_the_hash_of_the_payload_inside(certificate):
    pdf, _, _ = certificate()
    payload = jws.extract_compact(attached(pdf, "record.jws")).payload
    assert hashlib.sha256(payload).hexdigest() in text_of(pdf)


def test_it_is_pdf_a_3b_and_says_what_its_attachments_are(certificate):
    """ISO 19005-3: embedded files are associated files (/AF) with a relationship and a MIME type."""
    pdf, _, _ = certificate()
    reader = read(pdf)
    metadata = reader.root_object["/Metadata"].get_data().decode()
    assert re.search(r"<pdfaid:part>3</pdfaid:part>", metadata)
    assert re.search(r"<pdfaid:conformance>B</pdfaid:conformance>", metadata)
    files = {one.get_object()["/UF"]: one.get_object() for one in reader.root_object["/AF"]}
    assert files["record.jws"]["/AFRelationship"] == "/Source"
    assert files["record.jws"]["/EF"]["/F"]["/Subtype"] == "/application/jose"
    assert files["decision.jws"]["/EF"]["/F"]["/Subtype"] == "/application/jose"


def test_it_shows_names_roles_times_with_zone_and_meanings(certificate):
    """21 CFR 11.50(a): printed name, date and time of signing, and the meaning of each signature."""
    text = text_of(certificate()[0])
    for part in ("Ilse Brook", "Installer", "Sami Weir", "Supervisor", "(UTC+01:00)"):
        assert part in text
    assert "I carried out these checks and the readings are mine." in text
    assert "I reviewed this record." in text


def test_title_authors_and_date_are_in_the_metadata(certificate):
    metadata = read(certificate()[0]).metadata
    assert metadata.title == "Trial certificate \N{EN DASH} Basement unit"
    assert metadata.author == "Ilse Brook, Sami Weir"
    assert metadata.creation_date.isoformat() == "2026-11-25T09:25:00+00:00"  # when the decision was signed


def test_two_renders_of_the_same_papers_are_equal_byte_for_byte(store, unit, phone):
    record = phone.record(visit := phone.start(unit), phone.entries(visit.id))
    text = phone.sign(record, "firstwater-record+jws")
    papers = Papers(record, "0" * 64, PROCEDURE)
    assert render(papers, text, [], [phone.public]) == render(papers, text, [], [phone.public])


def test_conditions_stand_on_the_first_page(certificate):
    pdf, _, _ = certificate("accepted_with_conditions", "Second filter within a week.")
    first = read(pdf).pages[0].extract_text()
    assert "Accepted with conditions" in first
    assert "Second filter within a week." in first


def test_a_returned_record_is_no_certificate(certificate):
    text = text_of(certificate("returned", "The gauge was wrong.")[0])
    assert "Trial certificate" not in text
    assert "It is not an acceptance." in text
    assert "The gauge was wrong." in text


def test_a_record_without_a_decision_says_so_and_has_one_attachment_less(certificate):
    pdf, _, _ = certificate(None)
    assert "not yet decided" in text_of(pdf)
    assert set(read(pdf).attachments) == {"record.jws", "keys.json"}


def test_a_changed_value_is_marked_and_both_stay_readable(store, unit, phone):
    """EU GMP Annex 11 clause 8: printouts show whether data were changed since the original entry."""
    visit = phone.start(unit)
    first = phone.reading(visit.id, 65)
    reason = {"code": "typing_error", "text": "The point was missing."}
    second = phone.reading(visit.id, 6.5, replaces=[first["id"]], reason=reason)
    tight = phone.event(visit.id, "test.tight", {"value": "yes"})
    record = phone.record(visit, [first, second, tight])
    papers = Papers(record, "0" * 64, PROCEDURE, names={phone.person.id: "Ilse Brook"})
    text = text_of(render(papers, phone.sign(record, "firstwater-record+jws"), [], []))
    assert "Values changed after they were first entered" in text
    assert re.search(r"6\.5 bar changed", text)
    assert re.search(r"Pressure Test 65 bar 6\.5 bar Typing error: The point was missing\. Ilse Brook", text)


def test_late_entries_are_shown_apart(store, unit, phone):
    visit = phone.start(unit)
    record = phone.record(visit, phone.entries(visit.id))
    papers = Papers(record, "0" * 64, PROCEDURE, late=(phone.reading(visit.id, 7.25),))
    text = text_of(render(papers, phone.sign(record, "firstwater-record+jws"), [], []))
    assert re.search(r"Entries received after signing .* 7\.25 bar", text)


def test_text_of_any_kind_is_printed_and_never_read_as_markup(store, unit, phone, desk):
    visit = phone.start(unit)
    note = phone.event(visit.id, "test#note", {"value": NASTY + " " + "long" * 200})
    record = phone.record(visit, [*phone.entries(visit.id), note])
    record["unit"]["name"] = record["site"]["name"] = record["signer"]["name"] = NASTY
    decision = desk.decision("0" * 64, "accepted_with_conditions", NASTY)
    papers = Papers(record, "0" * 64, PROCEDURE, (decision,))
    text_record = phone.sign(record, "firstwater-record+jws")
    pdf = render(papers, text_record, [desk.sign(decision, "firstwater-decision+jws")], [])
    text = text_of(pdf)
    assert text.count('#panic("x") $x^2$ \\ "quoted" *bold* <label> @ref') >= 5
    assert "[U+1F600]" in text
    assert "ש" in text
    assert attached(pdf, "record.jws").decode() == text_record


def test_a_kept_record_gives_the_same_certificate_as_its_papers(store, unit, phone, desk):
    visit = phone.start(unit)
    sha256 = receive_record(store, phone.signed_record(visit), phone.person).sha256
    receive_decision(store, desk.signed_decision(sha256), desk.person, 12)
    record = store.records.get(sha256)
    assert record.state == "accepted"
    papers = Papers(record.content(), sha256, PROCEDURE, (record.decision.content(),))
    assert sha256 in text_of(render(papers, record.jws, [record.decision.jws], []))
