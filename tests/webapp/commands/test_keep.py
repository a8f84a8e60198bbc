"""firstwater backup, restore and check."""

import hashlib
import json

import pytest

from webapp.receiving import receive_decision, receive_record

PHOTO = b"\xff\xd8\xff\xe0 a picture"


@pytest.fixture
def record(store, people, phone, desk, unit):
    """An accepted record with a photo."""
    visit = phone.start(unit)
    sha256 = hashlib.sha256(PHOTO).hexdigest()
    store.photos.keep(sha256, PHOTO, people["installer"].id)
    picture = phone.event(
        visit.id, "test.picture", {"sha256": sha256, "type": "image/jpeg", "size": len(PHOTO)}
    )
    signed = phone.signed_record(visit, [picture, *phone.entries(visit.id)])
    receive_record(store, signed, people["installer"])
    kept = store.records.all()[0]
    receive_decision(store, desk.signed_decision(kept.sha256), people["supervisor"], 12)
    return store.records.get(kept.sha256)


def test_a_backup_is_restored_to_the_same_records_and_photos(
    firstwater, store, record, tmp_path, monkeypatch
):
    assert firstwater("backup", "copy").status == 0
    monkeypatch.setenv("FIRSTWATER_DATABASE", str(tmp_path / "elsewhere" / "firstwater.db"))
    ended = firstwater("restore", "copy")
    assert ended.status == 0, ended.err
    assert firstwater("export", "-", "--visit", record.visit).out.count(record.jws) == 1
    checked = firstwater("check")
    assert (checked.status, checked.out) == (0, "Records looked through: 1. All is well.\n")
    photos = list((tmp_path / "elsewhere" / "photos").glob("*/*.jpg"))
    assert [photo.read_bytes() for photo in photos] == [PHOTO]


def test_restoring_over_data_is_refused_and_with_replace_keeps_them_aside(
    firstwater, store, record, tmp_path
):
    firstwater("backup", "copy")
    refused = firstwater("restore", "copy")
    assert refused.status == 2
    assert "exists. With --replace it is moved aside first" in refused.err
    store.close()
    assert firstwater("restore", "copy", "--replace").status == 0
    assert len(list(tmp_path.glob("test.db.replaced-*"))) == 1
    assert len(list(tmp_path.glob("photos.replaced-*"))) == 1


def test_a_damaged_copy_leaves_the_data_where_they_were(firstwater, store, record, tmp_path):
    firstwater("backup", "copy")
    copy = tmp_path / "copy" / "firstwater.db"
    damaged = bytearray(copy.read_bytes())
    damaged[4096:8192] = b"\xff" * 4096
    copy.write_bytes(damaged)
    store.close()
    before = (tmp_path / "test.db").read_bytes()
    ended = firstwater("restore", "copy", "--replace")
    assert ended.status == 2
    assert ended.err.startswith("firstwater: FOLDER: ")
    assert (tmp_path / "test.db").read_bytes() == before
    assert list(tmp_path.glob("*.replaced-*")) == []


def test_a_folder_that_is_no_copy_is_named(firstwater, tmp_path):
    (tmp_path / "empty").mkdir()
    ended = firstwater("restore", "empty")
    assert ended.status == 2
    assert "empty holds no firstwater.db" in ended.err


def test_a_changed_photo_is_found(firstwater, store, record):
    photo = next(store.photos.folder.glob("*/*.jpg"))
    photo.write_bytes(PHOTO + b".")
    ended = firstwater("check", "--json")
    assert ended.status == 1
    assert json.loads(ended.out)["problems"] == [f"Photo {photo.stem}: the file was changed."]


def test_a_record_whose_key_is_exchanged_is_found(firstwater, store, record, desk):
    # What somebody with access to the file could do; the store's own methods offer no way.
    with store.connection.write() as db:
        db.execute(
            "update devices set jwk = ? where thumbprint = ?", [json.dumps(desk.public), record.device]
        )
    ended = firstwater("check")
    assert ended.status == 1
    assert f"record {record.sha256}" in ended.out
    assert "(signature_wrong)" in ended.out


def test_lists_are_made_anew_and_what_changed_is_told(firstwater, store, record):
    before = [store.listing.search(), store.listing.unit_states()]
    assert json.loads(firstwater("rebuild", "--json").out) == {"changed": []}
    with store.connection.write() as db:
        db.execute("update unit_states set state = 'not_commissioned'")
        db.execute("delete from record_states")
    assert firstwater("check").status == 1
    ended = firstwater("rebuild")
    assert ended.status == 0
    assert f"List record_states: the row of {record.sha256} does not follow" in ended.out
    assert ended.out.endswith("Lists made anew. Rows that changed: 2.\n")
    assert [store.listing.search(), store.listing.unit_states()] == before
    assert firstwater("check").status == 0
    assert store.audit.newest(1)[0].details == {"changed": 2}


def test_an_interrupted_copy_is_not_restored(firstwater, store, record, tmp_path):
    firstwater("backup", "copy")
    (tmp_path / "copy" / "firstwater.db").rename(tmp_path / "copy" / "firstwater.db.part")
    ended = firstwater("restore", "copy", "--replace")
    assert ended.status == 2
    assert "or one that was interrupted" in ended.err
