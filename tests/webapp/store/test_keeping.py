"""Copies that can be relied on."""

import hashlib
import sqlite3
import threading
from pathlib import Path

import pytest

from tests.phone import Phone
from webapp.commands.documents import Documents
from webapp.commands.files import add_copy
from webapp.commands.verdicts import verify_all
from webapp.receiving import receive_decision, receive_record
from webapp.store import Record, Store, Unit
from webapp.store.copies import Unreadable, opened_copy
from webapp.store.keeping import BackupFailed, restore

PICTURE = hashlib.sha256(b"picture").hexdigest()


@pytest.fixture
def full(store: Store, accepted: Record, people) -> Store:
    store.photos.keep(PICTURE, b"picture", people["installer"].id)
    return store


def test_a_copy_restores_to_the_same_store(
    full: Store, accepted: Record, unit: Unit, tmp_path: Path, clock
) -> None:
    counts = full.backup(tmp_path / "copy")
    assert (counts["records"], counts["decisions"], counts["photos"], counts["people"]) == (1, 1, 1, 4)
    restore(tmp_path / "copy", tmp_path / "new" / "test.db", tmp_path / "new" / "photos")
    store = Store(tmp_path / "new" / "test.db", clock)
    assert store.check() == []
    assert store.records.get(accepted.sha256) == accepted
    assert store.units.get(unit.id).previous == accepted.sha256
    assert store.photos.read_bytes(PICTURE) == b"picture"
    store.close()


def test_a_second_copy_replaces_the_first(full: Store, tmp_path: Path) -> None:
    full.backup(tmp_path / "copy")
    full.audit.add("trial", person=None)
    counts = full.backup(tmp_path / "copy")
    copy = sqlite3.connect(tmp_path / "copy" / "firstwater.db")
    assert copy.execute("select count(*) from audit").fetchone()[0] == counts["audit"]
    copy.close()
    assert sorted(path.name for path in (tmp_path / "copy").iterdir()) == ["firstwater.db", "photos"]


def test_a_failed_copy_leaves_the_older_one(full: Store, tmp_path: Path) -> None:
    full.backup(tmp_path / "copy")
    before = (tmp_path / "copy" / "firstwater.db").read_bytes()
    full.photos.path(PICTURE).unlink()
    (tmp_path / "copy" / "photos" / PICTURE[:2] / f"{PICTURE}.jpg").unlink()
    with pytest.raises(BackupFailed, match="The copy could not be made"):
        full.backup(tmp_path / "copy")
    assert (tmp_path / "copy" / "firstwater.db").read_bytes() == before
    assert not (tmp_path / "copy" / "firstwater.db.part").exists()


def test_restoring_never_writes_over_a_database(full: Store, tmp_path: Path) -> None:
    full.backup(tmp_path / "copy")
    with pytest.raises(BackupFailed, match="exists already"):
        restore(tmp_path / "copy", full.connection.path, full.photos.folder)


def test_the_check_names_what_is_wrong(full: Store) -> None:
    assert full.check() == []
    full.photos.path(PICTURE).write_bytes(b"another")
    database = sqlite3.connect(full.connection.path)
    database.execute("drop trigger events_refuses_update")
    database.execute("update events set json = replace(json, '6.5', '5.5') where field = 'test.pressure'")
    database.execute("drop trigger audit_refuses_update")
    database.execute("update audit set action = 'nothing' where sequence = 1")
    database.commit()
    database.close()
    assert [problem.split(" ")[0] for problem in full.check()] == ["Entry", "Photo", "The"]


def test_copies_made_while_others_write_are_whole(
    store: Store, phone: Phone, desk: Phone, unit: Unit, tmp_path: Path, clock
) -> None:
    """Each holds some moment: no record without its entries, photo, trail or list."""
    stop, failed = threading.Event(), []

    def work() -> None:
        number = 0
        try:
            while not stop.is_set():
                commission(store, phone, desk, unit, b"picture %d" % number)
                number += 1
        except Exception as error:  # a thread's error would be lost
            failed.append(error)

    writer = threading.Thread(target=work)
    writer.start()
    try:
        counts = [store.backup(tmp_path / f"copy-{number}")["records"] for number in range(4)]
    finally:
        stop.set()
        writer.join(60)
    assert failed == []
    assert counts[0] < counts[-1] <= len(store.records.all()), "it was written meanwhile"
    for number, count in enumerate(counts):
        documents = Documents()
        add_copy(documents, tmp_path / f"copy-{number}")
        assert len(documents.records) == count
        assert [found for one in verify_all(documents) for found in one.findings] == []
    restore(tmp_path / "copy-3", tmp_path / "new" / "test.db", tmp_path / "new" / "photos")
    restored = Store(tmp_path / "new" / "test.db", clock)
    assert restored.check() == []
    restored.close()


def commission(store: Store, phone: Phone, desk: Phone, unit: Unit, data: bytes) -> None:
    visit, sha256 = phone.start(unit), hashlib.sha256(data).hexdigest()
    store.photos.keep(sha256, data, phone.person.id)
    shown = {"sha256": sha256, "type": "image/jpeg", "size": len(data)}
    events = [phone.event(visit.id, "test.picture", shown), *phone.entries(visit.id)]
    answer = receive_record(store, phone.signed_record(visit, events), phone.person)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)


def test_an_interrupted_copy_is_none(full: Store, tmp_path: Path, monkeypatch) -> None:
    """Broken off just before it gets its name, and by the machine, so that nothing is tidied up."""
    rename = Path.rename

    def broken_off(path: Path, target: Path) -> Path:
        if path.name == "firstwater.db.part":
            (tmp_path / "left.part").write_bytes(path.read_bytes())
            raise KeyboardInterrupt
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", broken_off)
    with pytest.raises(KeyboardInterrupt):
        full.backup(tmp_path / "copy")
    monkeypatch.undo()
    rename(tmp_path / "left.part", tmp_path / "copy" / "firstwater.db.part")
    with pytest.raises(Unreadable, match=r"holds no firstwater\.db"), opened_copy(tmp_path / "copy"):
        pass
    with pytest.raises(BackupFailed, match="unable to open"):
        restore(tmp_path / "copy", tmp_path / "new.db", tmp_path / "new")
    assert not (tmp_path / "new.db").exists()
    assert full.backup(tmp_path / "copy")["photos"] == 1
    assert sorted(path.name for path in (tmp_path / "copy").iterdir()) == ["firstwater.db", "photos"]


def test_a_photo_that_is_damaged_here_is_not_copied_as_if_it_were_good(full: Store, tmp_path: Path) -> None:
    full.photos.path(PICTURE).write_bytes(b"another")
    with pytest.raises(BackupFailed, match=f"not good: Photo {PICTURE}: the file was changed"):
        full.backup(tmp_path / "copy")
    assert not (tmp_path / "copy" / "firstwater.db").exists()


def test_a_photo_that_is_damaged_in_an_older_copy_is_copied_again(full: Store, tmp_path: Path) -> None:
    full.backup(tmp_path / "copy")
    copied = tmp_path / "copy" / "photos" / PICTURE[:2] / f"{PICTURE}.jpg"
    copied.write_bytes(b"another")
    full.backup(tmp_path / "copy")
    assert copied.read_bytes() == b"picture"


@pytest.mark.parametrize("damage", [Path.unlink, lambda path: path.write_bytes(b"another")])
def test_a_copy_with_a_broken_photo_is_not_restored(full: Store, tmp_path: Path, damage) -> None:
    full.backup(tmp_path / "copy")
    damage(tmp_path / "copy" / "photos" / PICTURE[:2] / f"{PICTURE}.jpg")
    with pytest.raises(BackupFailed, match=f"The copy is not good: Photo {PICTURE}"):
        restore(tmp_path / "copy", tmp_path / "new" / "test.db", tmp_path / "new" / "photos")
    assert not (tmp_path / "new").exists()
