"""Each way in which what is kept can be broken is found, named in words, with its place."""

import base64
import copy
import json
import shutil
import sqlite3
from contextlib import closing
from io import BytesIO

import pytest
from pypdf import PdfWriter

from tests.webapp.commands import sample as samples


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    return samples.make(tmp_path_factory.mktemp("sample"))


@pytest.fixture
def verify(firstwater, tmp_path):
    """The exit status, the codes in order, and the first broken link, of a file with this content."""

    def verified(content):
        (tmp_path / "file").write_text(json.dumps(content))
        return verified_path(firstwater, "file")

    return verified


def verified_path(firstwater, path):
    ended = firstwater("verify", path, "--json")
    answer = json.loads(ended.out)
    codes = [finding["code"] for one in answer["documents"] for finding in one["findings"]]
    assert answer["valid"] == (not codes)
    return ended.status, codes, answer["first_broken"]


def tampered(text):
    """Another reading in the payload, under the old signature."""
    header, payload, signature = text.split(".")
    data = base64.urlsafe_b64decode(payload + "=" * (-len(payload) % 4)).replace(b"6.5", b"6.4")
    return ".".join([header, base64.urlsafe_b64encode(data).decode().rstrip("="), signature])


def exchange_signature(it, sample):
    first, second = (it["records"][number]["jws"].split(".") for number in (0, 1))
    it["records"][0]["jws"] = ".".join([*first[:2], second[2]])


def change_payload(it, sample):
    it["records"][0]["jws"] = tampered(it["records"][0]["jws"])


def leave_key_out(it, sample):
    it["keys"]["keys"] = [one for one in it["keys"]["keys"] if one["kid"] != sample.phone.thumbprint]


def revoke_before(it, sample):
    for one in it["keys"]["keys"]:
        one["firstwater_revoked_at"] = "2026-11-25T09:00:00.000Z"


def cut_beginning(it, sample):
    del it["records"][0], it["decisions"][0]


def take_from_middle(it, sample):
    del it["records"][1], it["decisions"][1]


def change_photo(it, sample):
    it["photos"][sample.photos[0]]["base64"] = base64.b64encode(b"another").decode()


def empty_photo(it, sample):
    del it["photos"][sample.photos[0]]["base64"]


def unlist_photo(it, sample):
    del it["photos"][sample.photos[0]]


def forge_verdict(it, sample):
    it["records"][0]["jws"] = sample.forged


def decide_elsewhere(it, sample):
    it["decisions"][0]["jws"] = sample.desk.signed_decision("0" * 64)


def exchange_confirmations(it, sample):
    first, second = it["confirmations"][:2]
    first["assertion"], second["assertion"] = second["assertion"], first["assertion"]


def give_passkey_away(it, sample):
    it["passkeys"][0]["person"] = sample.desk.person.id


def remove_passkey_before(it, sample):
    it["passkeys"][0]["removed_at"] = "2026-11-25T09:00:00.000Z"


BREAKS = [
    (exchange_signature, "signature_wrong", "The signature does not fit", "records.0"),
    (change_payload, "signature_wrong", "The signature does not fit", "records.0"),
    (leave_key_out, "device_unknown", "is not enrolled", "records.0"),
    (revoke_before, "device_revoked", "was revoked on 2026-11-25", "records.0"),
    (cut_beginning, "chain_broken", "before it is missing", "of unit FW-0001"),
    (take_from_middle, "chain_broken", "before it is missing", "of unit FW-0001"),
    (change_photo, "photo_differs", "is not the one that was signed", "records.0"),
    (empty_photo, "photo_missing", "that was signed is missing", "records.0"),
    (unlist_photo, "photo_missing", "that was signed is missing", "records.0"),
    (forge_verdict, "verdicts_differ", "Judged again, the result differs at", "records.0"),
    (decide_elsewhere, "record_unknown", "The record that was decided on", "decisions.0"),
    (exchange_confirmations, "assertion_invalid", "does not verify", "records.0"),
    (give_passkey_away, "assertion_unknown", "not one of the signer's", "records.0"),
    (remove_passkey_before, "assertion_invalid", "was removed on 2026-11-25", "records.0"),
]


def test_the_whole_bundle_is_valid_and_the_confirmations_with_it(verify, sample, firstwater):
    assert verify(sample.bundle) == (0, [], None)
    documents = json.loads(firstwater("verify", "file", "--json").out)["documents"]
    assert [one["confirmed"] for one in documents] == [True] * 3 + [False] * 4
    assert "Confirmed with a passkey of the signer at https://water.example." in documents[0]["notes"]


@pytest.mark.parametrize(
    ("change", "code", "words", "place"), BREAKS, ids=lambda one: getattr(one, "__name__", "")
)
def test_a_break_is_found_and_named_with_its_place(verify, sample, change, code, words, place):
    content = copy.deepcopy(sample.bundle)
    change(content, sample)
    status, codes, broken = verify(content)
    assert (status, codes[0]) == (1, code)
    assert words in broken["says"]
    assert place in broken["file"]
    assert broken["file"] in broken["says"]


def test_what_came_after_makes_nothing_invalid(verify, sample):
    """A key revoked and a passkey removed later, and a passkey that is not in the bundle."""
    content = copy.deepcopy(sample.bundle)
    for one in content["keys"]["keys"]:
        one["firstwater_revoked_at"] = "2027-01-01T00:00:00.000Z"
    content["passkeys"][0]["removed_at"] = "2027-01-01T00:00:00.000Z"
    assert verify(content)[0] == 0
    content["passkeys"] = []
    assert verify(content)[0] == 0


def test_people_read_the_first_broken_link_at_the_end(firstwater, sample, tmp_path):
    content = copy.deepcopy(sample.bundle)
    change_photo(content, sample)
    (tmp_path / "file").write_text(json.dumps(content))
    last = firstwater("verify", "file").out.splitlines()[-1]
    assert last.startswith(
        "First broken link: the record of unit FW-0001 that says it was signed at 2026-11-25"
    )
    assert last.endswith(f"file#records.0: The photo {sample.photos[0]} is not the one that was signed.")


def test_a_certificate_with_a_changed_record_inside_is_not_valid(firstwater, sample, tmp_path):
    def certificate(record):
        writer = PdfWriter()
        writer.add_blank_page(100, 100)
        for name, text in [
            ("record.jws", record),
            ("decision.jws", sample.bundle["decisions"][0]["jws"]),
            ("keys.json", json.dumps(sample.bundle["keys"])),
        ]:
            writer.add_attachment(name, text.encode())
        data = BytesIO()
        writer.write(data)
        (tmp_path / "certificate.pdf").write_bytes(data.getvalue())
        (tmp_path / "procedures").write_text(json.dumps({**sample.bundle, "records": [], "decisions": []}))
        ended = firstwater("verify", "certificate.pdf", "procedures", "--json")
        return ended.status, json.loads(ended.out)["first_broken"]

    record = sample.bundle["records"][0]["jws"]
    assert certificate(record) == (0, None)
    status, broken = certificate(tampered(record))
    assert (status, broken["file"]) == (1, "certificate.pdf#record.jws")


# ---- backups


@pytest.fixture
def kept(firstwater, sample, tmp_path):
    """A function that runs SQL on a copy of the backup, as nobody may, and verifies it."""
    shutil.copytree(sample.backup, tmp_path / "kept")

    def verified(*statements):
        with closing(sqlite3.connect(tmp_path / "kept" / "firstwater.db")) as database:
            for (trigger,) in database.execute(
                "select name from sqlite_master where type = 'trigger'"
            ).fetchall():
                database.execute(f"drop trigger {trigger}")
            for statement in statements:
                assert database.execute(statement).rowcount > 0
            database.commit()
        return verified_path(firstwater, "kept")

    verified.folder = tmp_path / "kept"
    return verified


def contents(folder):
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_backup_is_verified_as_it_lies_and_nothing_is_written_there(firstwater, kept):
    before = contents(kept.folder)
    assert verified_path(firstwater, "kept") == (0, [], None)
    assert verified_path(firstwater, "kept/firstwater.db") == (0, [], None)
    assert contents(kept.folder) == before
    assert "audit trail kept#audit: valid" in firstwater("verify", "kept").out


def test_a_key_exchanged_or_revoked_before_is_found(kept, sample):
    signer = f"where thumbprint = '{sample.phone.thumbprint}'"
    _, codes, broken = kept(f"update devices set revoked_at = '2026-11-25T09:00:00.000Z' {signer}")
    assert codes[0] == "device_revoked"
    assert f"kept#record {sample.records[0]}" in broken["says"]
    other = json.dumps(sample.desk.public)
    assert kept(f"update devices set revoked_at = null, jwk = '{other}' {signer}")[1][0] == "signature_wrong"


def test_a_record_taken_from_the_middle_of_a_backup_is_found(kept, sample):
    status, codes, _ = kept(f"delete from records where sha256 = '{sample.records[1]}'")
    assert status == 1
    assert {"database_damaged", "record_unknown", "record_missing"} <= set(codes)


def test_a_record_cut_off_at_the_end_is_missed_by_the_trail(kept, sample):
    last = sample.records[-1]
    tables = ("confirmations", "decisions", "record_photos", "record_states", "records")
    keys = ("document", "record", "record", "record", "sha256")
    gone = [f"delete from {table} where {key} = '{last}'" for table, key in zip(tables, keys, strict=True)]
    status, codes, broken = kept(*gone)
    assert (status, codes) == (1, ["record_missing", "decision_missing"])
    assert f"The record {last}, received at 2026-11-25" in broken["says"]


@pytest.mark.parametrize(
    ("statement", "code", "words"),
    [
        ("update audit set at = '' where sequence = 3", "audit_changed", "Entry 3 of the audit trail"),
        ("delete from audit where sequence = 2", "audit_missing", "Entry 2 of the audit trail is missing:"),
        ("update events set json = replace(json, '6.5', '6.4')", "database_damaged", "its hash differs"),
    ],
)  # fmt: skip
def test_an_entry_changed_or_taken_out_is_found(kept, statement, code, words):
    status, codes, broken = kept(statement)
    assert (status, codes[0]) == (1, code)
    assert words in broken["says"]


def test_a_photo_of_a_backup_changed_or_lost_is_found(firstwater, kept, sample):
    path = kept.folder / "photos" / sample.photos[1][:2] / f"{sample.photos[1]}.jpg"
    path.write_bytes(b"another")
    assert verified_path(firstwater, "kept")[1] == ["photo_differs"]
    path.unlink()
    status, codes, broken = verified_path(firstwater, "kept")
    assert (status, codes) == (1, ["photo_missing"])
    assert sample.photos[1] in broken["says"]


def test_a_backup_that_is_damaged_is_not_valid_and_a_folder_without_one_is_named(firstwater, kept):
    (kept.folder / "firstwater.db").write_bytes(b"SQLite format 3\0" + b"\xff" * 5000)
    for path in ("kept", "kept/firstwater.db"):
        assert verified_path(firstwater, path)[:2] == (1, ["database_damaged"])
    (kept.folder / "firstwater.db").rename(kept.folder / "firstwater.db.part")
    ended = firstwater("verify", "kept")
    assert ended.status == 2
    assert "kept holds no firstwater.db, so it is no copy made by firstwater backup" in ended.err


def test_a_backup_whose_rows_cannot_be_read_is_told_in_one_line(firstwater, kept):
    with closing(sqlite3.connect(kept.folder / "firstwater.db")) as database:
        database.execute("drop trigger audit_refuses_update")
        database.execute("update audit set details = '{' where sequence = 1")
        database.commit()
    ended = firstwater("verify", "kept")
    assert (ended.status, ended.err.count("\n")) == (2, 1)
    assert "firstwater.db cannot be read" in ended.err


# ---- the audit trail as a file


def test_the_audit_trail_is_exported_and_verified(firstwater, sample, tmp_path, monkeypatch, verify):
    shutil.copytree(sample.backup, tmp_path / "served")
    monkeypatch.setenv("FIRSTWATER_DATABASE", str(tmp_path / "served" / "firstwater.db"))
    assert "audit entries 6" in firstwater("export", "trail.json", "--audit").out
    trail = json.loads((tmp_path / "trail.json").read_text())
    assert verify(trail) == (0, [], None)
    changed = copy.deepcopy(trail)
    changed["entries"][2]["person"] = sample.desk.person.id
    status, codes, broken = verify(changed)
    assert (status, codes) == (1, ["audit_changed"])
    assert broken["says"] == "audit trail, file: Entry 3 of the audit trail was changed."
    del trail["entries"][1]
    assert verify(trail)[1] == ["audit_missing"]
    (tmp_path / "file").write_text(json.dumps({**trail, "entries": None}))
    assert firstwater("verify", "file").status == 2
