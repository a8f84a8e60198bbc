"""Copies that can be relied on."""

import hashlib
import sqlite3
from pathlib import Path

import pytest

from webapp.store import Record, Store, Unit
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
