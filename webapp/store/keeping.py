"""Copies of the store that can be relied on, and the check of a store."""

import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from webapp.signing.canonical import digest
from webapp.store.errors import StoreError
from webapp.store.photos import sync_folder, write_whole

if TYPE_CHECKING:
    from webapp.store import Store

COUNTED = ("people", "units", "visits", "events", "records", "decisions", "quarantine", "photos", "audit")


class BackupFailed(StoreError):  # noqa: N818
    """The copy could not be made or is not good; what was at the target is untouched."""


def check(store: "Store") -> list[str]:
    """What is wrong with the store, as sentences; empty when all is well."""
    with closing(sqlite3.connect(store.connection.path)) as connection:
        problems = check_database(connection)
    if not problems:  # a damaged database cannot be gone through row by row
        problems += store.listing.differences()
    problems += [
        f"Entry {one.id}: its hash differs." for one in store.events.select(order="id") if not intact(one)
    ]
    for photo in store.photos.all():
        problems += check_photo(store.photos.path(photo.sha256), photo.sha256)
    broken = store.audit.broken_at()
    if broken is not None:
        problems.append(f"The audit trail is broken at entry {broken}.")
    return problems


def check_database(connection: sqlite3.Connection) -> list[str]:
    try:
        results = [row[0] for row in connection.execute("pragma integrity_check")]
    except sqlite3.DatabaseError as error:  # so damaged that it cannot even be looked through
        return [f"Database: {error}."]
    problems = [f"Database: {result}" for result in results if result != "ok"]
    for table, row, parent, _ in connection.execute("pragma foreign_key_check"):
        problems.append(f"Table {table}, row {row}: what it names in {parent} is missing.")
    return problems


def intact(event: object) -> bool:
    return digest(event.json.encode()) == event.sha256  # type: ignore[attr-defined]


def check_photo(path: Path, sha256: str) -> list[str]:
    if not path.exists():
        return [f"Photo {sha256}: the file is missing."]
    if digest(path.read_bytes()) != sha256:
        return [f"Photo {sha256}: the file was changed."]
    return []


def backup(store: "Store", target: Path) -> dict[str, int]:
    """Copy the store into the folder ``target``, while it is in use; the number of rows per table.

    The folder gets ``firstwater.db`` and ``photos/``. The copy is made under another name, checked, made
    durable and only then renamed, so that a failure leaves an older copy as it was (:class:`BackupFailed`).
    """
    target.mkdir(parents=True, exist_ok=True)
    temporary = target / "firstwater.db.part"
    temporary.unlink(missing_ok=True)
    try:
        store.connection.vacuum_into(temporary)
        with closing(sqlite3.connect(temporary)) as copy:
            problems = check_database(copy)
            counts = {name: count_rows(copy, name) for name in COUNTED}
            photos = [row[0] for row in copy.execute("select sha256 from photos")]
        if problems:
            raise BackupFailed(f"The copy is not good: {' '.join(problems)}")
        for sha256 in photos:
            copy_photo(store.photos.path(sha256), target / "photos", sha256)
        with temporary.open("rb") as file:
            os.fsync(file.fileno())
        temporary.rename(target / "firstwater.db")
        sync_folder(target)
    except (OSError, sqlite3.Error) as error:
        raise BackupFailed(f"The copy could not be made: {error}.") from error
    finally:
        temporary.unlink(missing_ok=True)
    return counts


def count_rows(connection: sqlite3.Connection, table: str) -> int:
    return connection.execute(f"select count(*) from {table}").fetchone()[0]  # noqa: S608


def copy_photo(source: Path, folder: Path, sha256: str) -> None:
    path = folder / sha256[:2] / f"{sha256}.jpg"
    if not path.exists():
        write_whole(path, source.read_bytes())


def restore(source: Path, database: Path, photos: Path) -> None:
    """Put a copy made by :func:`backup` where a new store is to live; refuses to write over a database."""
    if database.exists():
        raise BackupFailed(f"{database} exists already. Move it away first, then restore.")
    with closing(sqlite3.connect(f"file:{source / 'firstwater.db'}?mode=ro", uri=True)) as copy:
        problems = check_database(copy)
    if problems:
        raise BackupFailed(f"The copy is not good: {' '.join(problems)}")
    for photo in sorted((source / "photos").glob("*/*.jpg")):
        copy_photo(photo, photos, photo.stem)
    database.parent.mkdir(parents=True, exist_ok=True)
    temporary = database.with_name(database.name + ".part")
    shutil.copyfile(source / "firstwater.db", temporary)
    with temporary.open("rb") as file:
        os.fsync(file.fileno())
    temporary.rename(database)
    sync_folder(database.parent)
