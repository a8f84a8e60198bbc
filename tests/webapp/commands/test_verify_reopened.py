"""firstwater export and verify over a record that was accepted, re-opened and corrected."""

import json
import sqlite3
from contextlib import closing

import pytest

from webapp.office import papers
from webapp.receiving import receive_decision, receive_record


@pytest.fixture
def corrected(store, phone, desk, unit):
    """The corrected record; the one before it is its ``corrects``."""

    def decide(record, decision, reasons=""):
        answer = receive_decision(store, desk.signed_decision(record, decision, reasons), desk.person, 12)
        assert answer.state == decision, answer.reasons

    visit = phone.start(unit)
    first = receive_record(store, phone.signed_record(visit), phone.person).sha256
    decide(first, "accepted_with_conditions", "Count to follow.")
    decide(first, "returned", "The result has come.")
    second = receive_record(store, phone.signed_record(store.visits.get(visit.id)), phone.person).sha256
    decide(second, "accepted")
    return store.records.get(second)


def verified(firstwater, *arguments):
    ended = firstwater("verify", *arguments, "--json")
    return ended.status, json.loads(ended.out)["documents"]


def codes(documents):
    return [found["code"] for one in documents for found in one["findings"]]


@pytest.fixture
def bundle(firstwater, corrected, tmp_path):
    assert firstwater("export", "bundle.json", "--unit", "FW-0001").status == 0
    return json.loads((tmp_path / "bundle.json").read_text())


@pytest.fixture
def verified_bundle(firstwater, tmp_path):
    def write(content):
        (tmp_path / "changed.json").write_text(json.dumps(content))
        return verified(firstwater, "changed.json")

    return write


def test_both_records_all_decisions_and_the_chain_are_valid(corrected, bundle, verified_bundle):
    status, documents = verified_bundle(bundle)
    assert (status, codes(documents)) == (0, [])
    assert [one["kind"] for one in documents] == ["record"] * 2 + ["decision"] * 3 + ["chain"]
    assert [one.get("decision") for one in documents[2:5]] == [
        "accepted_with_conditions",
        "returned",
        "accepted",
    ]
    assert documents[5]["sha256"] == corrected.sha256


def test_the_records_name_each_other(corrected, bundle, verified_bundle):
    _, (first, second, *_) = verified_bundle(bundle)
    assert f"Corrected by the record {corrected.sha256}." in first["notes"]
    assert "Accepted, then re-opened for a corrected record." in first["notes"]
    assert second["notes"] == [f"Corrects the record {corrected.corrects}."]


def test_a_second_acceptance_of_one_record_is_found(corrected, desk, bundle, verified_bundle):
    again = {"sha256": "", "received_at": "2026-11-25T09:30:00.000Z"}
    bundle["decisions"].append({**again, "jws": desk.signed_decision(corrected.sha256)})
    status, documents = verified_bundle(bundle)
    assert (status, codes(documents)) == (1, ["already_decided"])


def test_a_reopening_left_out_of_a_units_records_is_found(bundle, verified_bundle):
    bundle["decisions"].pop(1)
    status, documents = verified_bundle(bundle)
    assert (status, codes(documents)) == (1, ["corrects_differs"])


def test_the_same_documents_from_two_files_are_no_contradiction(firstwater, bundle):
    assert verified(firstwater, "bundle.json", "bundle.json")[0] == 0


def test_the_certificate_of_the_reopened_record_is_valid(firstwater, app, store, corrected, tmp_path):
    with app.app_context():
        pdf = papers.certificate_of(store.records.get(corrected.corrects))
    (tmp_path / "certificate.pdf").write_bytes(pdf)
    status, documents = verified(firstwater, "certificate.pdf", "--database", "test.db")
    assert status == 0
    assert [one["file"] for one in documents[1:3]] == [
        "certificate.pdf#decision.jws",
        "certificate.pdf#reopening.jws",
    ]


def test_a_reopening_that_was_taken_out_of_a_backup_is_missed_by_the_trail(
    firstwater, store, corrected, tmp_path
):
    store.backup(tmp_path / "copy")
    with closing(sqlite3.connect(tmp_path / "copy" / "firstwater.db")) as database:
        database.execute("drop trigger decisions_refuses_delete")
        database.execute("delete from decisions where decision = 'returned'")
        database.commit()
    status, documents = verified(firstwater, "copy")
    assert (status, "decision_missing" in codes(documents)) == (1, True)
