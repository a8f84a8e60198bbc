"""The history of the schema."""

import re
import sqlite3
from pathlib import Path

import pytest
from sqlite_utils import Database

from webapp.store import Store
from webapp.store.migrations import APPEND_ONLY, MIGRATIONS


def names() -> list[str]:
    return [migration.name for migration in MIGRATIONS._migrations]


def test_numbers_are_unique_and_in_order_without_gaps() -> None:
    numbers = [re.fullmatch(r"m(\d{4})_[a-z_]+", name).group(1) for name in names()]
    assert numbers == [f"{number:04}" for number in range(1, len(numbers) + 1)]


def database_before(step: str) -> Database:
    db = Database(memory=True)
    MIGRATIONS.apply(db, stop_before=step)
    return db


def add_person(db: Database) -> None:
    row = {"id": "p", "login": "ilse", "name": "Ilse", "role": "installer", "password": "!"}
    db.table("people").insert({**row, "created_at": "2026-11-25T09:30:00.000Z"})


def add_unit(db: Database) -> None:
    db.table("sites").insert({"id": "s", "name": "Site", "address": "", "values": "{}"})
    row = {"id": "u", "name": "Unit", "serial": "1", "site": "s", "plate": "{}"}
    db.table("units").insert({**row, "token": "T", "short_code": "C"})


def test_m0001_refuses_a_role_that_is_not_one() -> None:
    db = database_before("m0002_sites_units_and_instruments")
    add_person(db)
    with pytest.raises(sqlite3.IntegrityError, match="CHECK constraint failed"):
        db.execute("update people set role = 'owner'")


def test_m0001_keeps_people_for_good() -> None:
    db = database_before("m0002_sites_units_and_instruments")
    add_person(db)
    with pytest.raises(sqlite3.IntegrityError, match="a person is disabled, never deleted"):
        db.execute("delete from people")


@pytest.mark.parametrize("step", names()[1:])
def test_each_step_keeps_the_people_that_were_there_before(step: str) -> None:
    db = database_before(step)
    add_person(db)
    MIGRATIONS.apply(db)
    assert [row["login"] for row in db.table("people").rows] == ["ilse"]


def test_m0005_makes_documents_of_before_append_only() -> None:
    db = database_before("m0005_audit")
    add_person(db)
    db.table("photos").insert({"sha256": "a", "size": 1, "person": "p", "received_at": ""})
    MIGRATIONS.apply(db)
    with pytest.raises(sqlite3.IntegrityError, match="photos is append-only"):
        db.execute("update photos set size = 2")


def test_m0006_shows_units_of_before_without_a_record() -> None:
    db = database_before("m0006_listing")
    add_unit(db)
    MIGRATIONS.apply(db)
    assert [(row["id"], row["previous"]) for row in db.query("select * from known_units")] == [("u", None)]


def add_record(db: Database) -> None:
    add_person(db)
    add_unit(db)
    device = {"thumbprint": "d", "jwk": "{}", "person": "p", "name": "phone", "enrolled_at": ""}
    db.table("devices").insert(device)
    visit = {"id": "v", "unit": "u", "kind": "k", "procedure": "k", "version": 1, "procedure_hash": "h"}
    db.table("visits").insert({**visit, "started_at": "", "started_by": "p", "received_at": ""})
    record = {"sha256": "r", "visit": "v", "unit": "u", "jws": "j", "verdict": "pass", "person": "p"}
    db.table("records").insert({**record, "device": "d", "signed_at": "", "received_at": "", "notes": "[]"})


def decision(sha256: str, word: str) -> dict:
    row = {"sha256": sha256, "record": "r", "jws": "j", "decision": word, "reasons": "", "person": "p"}
    return row | {"device": "d", "signed_at": "", "received_at": "2026-11-25", "next_service": None}


def test_m0007_keeps_decisions_of_before_and_takes_one_return_after_an_acceptance() -> None:
    db = database_before("m0007_decisions_after_acceptance")
    add_record(db)
    db.execute("pragma foreign_keys = on")
    db.table("decisions").insert(decision("first", "accepted"))
    before = list(db.table("decisions").rows)
    MIGRATIONS.apply(db)
    assert list(db.table("decisions").rows) == before
    db.table("decisions").insert(decision("second", "returned"))
    for word in ("accepted", "accepted_with_conditions", "returned"):
        with pytest.raises(sqlite3.IntegrityError, match="UNIQUE constraint failed"):
            db.table("decisions").insert(decision(f"another {word}", word))
    with pytest.raises(sqlite3.IntegrityError, match="decisions is append-only"):
        db.execute("delete from decisions")
    assert list(db.query("pragma foreign_key_check")) == []


def test_m0008_retires_a_label_of_before_for_good() -> None:
    db = database_before("m0008_retired_labels")
    add_unit(db)
    MIGRATIONS.apply(db)
    assert [row["token"] for row in db.query("select token from known_units")] == ["T"]
    db.table("retired_labels").insert({"token": "T", "unit": "u", "retired_at": "2026-11-25"})
    with pytest.raises(sqlite3.IntegrityError, match="retired_labels is append-only"):
        db.execute("delete from retired_labels")


def test_a_step_that_fails_leaves_no_trace_and_is_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks(db: Database) -> None:
        db.execute("create table half (name text)")
        raise ZeroDivisionError

    with monkeypatch.context() as patched:
        patched.setattr(MIGRATIONS._migrations[-1], "fn", breaks)
        with pytest.raises(ZeroDivisionError):
            Store(tmp_path / "test.db", lambda: None)
    left = Database(tmp_path / "test.db")
    assert [step.name for step in MIGRATIONS.pending(left)] == names()[-1:]
    assert "half" not in left.table_names()
    Store(tmp_path / "test.db", lambda: None).close()
    assert MIGRATIONS.pending(left) == []
    left.close()


def test_opening_again_changes_nothing(store: Store) -> None:
    applied = [row["name"] for row in store.connection.read().query("select name from _sqlite_migrations")]
    with store.connection.write() as db:
        MIGRATIONS.apply(db)
    assert applied == names()


@pytest.mark.parametrize("table", [*APPEND_ONLY, "retired_labels"])
@pytest.mark.parametrize("change", ["update {} set rowid = rowid", "delete from {}"])
def test_append_only_tables_refuse_changes(table: str, change: str) -> None:
    """With a row in each table, both statements are refused by the trigger."""
    db = Database(memory=True)
    MIGRATIONS.apply(db)
    db.execute("pragma foreign_keys = off")
    columns = db.table(table).columns
    row = {column.name: 1 if column.type == "INTEGER" else column.name for column in columns}
    row |= {"decisions": {"decision": "returned"}, "quarantine": {"kind": "event"}}.get(table, {})
    db.table(table).insert(row)
    with pytest.raises(sqlite3.IntegrityError, match=f"{table} is append-only"):
        db.execute(change.format(table))
    assert db.table(table).count == 1


def test_replacing_a_row_is_a_deletion_too(store: Store, people: dict) -> None:
    store.photos.keep(
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", b"", people["installer"].id
    )
    with pytest.raises(sqlite3.IntegrityError, match="photos is append-only"), store.connection.write() as db:
        db.execute("insert or replace into photos select sha256, 99, person, received_at from photos")
