"""Copies of the store that can be relied on, and the check of a store."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from webapp.signing.canonical import digest
from webapp.store.errors import StoreError
from webapp.store.photos import sync_folder, write_whole

if TYPE_CHECKING:
    from webapp.store import Store
    from webapp.store.events import Events

DATABASE = "firstwater.db"
SHOWN = 5
COUNTED = ("people", "units", "visits", "events", "records", "decisions", "quarantine", "photos", "audit")


class BackupFailed(StoreError):  # noqa: N818
    """The copy could not be made or is not good; what was at the target is untouched."""


def check(store: "Store") -> list[str]:
    """What is wrong with the store, as sentences; empty when all is well."""
    with closing(sqlite3.connect(store.connection.path)) as connection:
        problems = check_database(connection)
    if not problems:  # a damaged database cannot be gone through row by row
        problems += store.listing.differences()
    problems += changed_entries(store.events)
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


def changed_entries(events: "Events") -> list[str]:
    return [
        f"Entry {one.id}: its hash differs."
        for one in events.select(order="id")
        if digest(one.json.encode()) != one.sha256
    ]


def check_photo(path: Path, sha256: str) -> list[str]:
    if not path.exists():
        return [f"Photo {sha256}: the file is missing."]
    if digest(path.read_bytes()) != sha256:
        return [f"Photo {sha256}: the file was changed."]
    return []


def backup(store: "Store", target: Path) -> dict[str, int]:
    """Copy the store into the folder ``target``, while it is in use; the number of rows per table.

    The folder gets ``firstwater.db`` and ``photos/``. The copy is made under another name, made durable,
    read back and checked with all of its photos, and only then renamed: what was interrupted is never taken
    for a copy, and a failure leaves an older copy as it was (:class:`BackupFailed`).
    """
    target.mkdir(parents=True, exist_ok=True)
    temporary = target / f"{DATABASE}.part"
    temporary.unlink(missing_ok=True)
    try:
        store.connection.vacuum_into(temporary)
        sync_file(temporary)
        with closing(read_only(temporary)) as copy:
            copy_photos(copy, store.photos.path, target / "photos")
            refuse_broken(copy, target / "photos")
            counts = {name: count_rows(copy, name) for name in COUNTED}
        temporary.rename(target / DATABASE)
        sync_folder(target)
    except (OSError, sqlite3.Error) as error:
        raise BackupFailed(f"The copy could not be made: {error}.") from error
    finally:
        temporary.unlink(missing_ok=True)
    return counts


def read_only(database: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{database.resolve().as_uri()}?mode=ro", uri=True)


def sync_file(path: Path) -> None:
    with path.open("rb") as file:
        os.fsync(file.fileno())


def count_rows(connection: sqlite3.Connection, table: str) -> int:
    return connection.execute(f"select count(*) from {table}").fetchone()[0]  # noqa: S608


def photos_in(copy: sqlite3.Connection) -> list[str]:
    return [row[0] for row in copy.execute("select sha256 from photos order by sha256")]


def place_of(folder: Path, sha256: str) -> Path:
    return folder / sha256[:2] / f"{sha256}.jpg"


def copy_photos(copy: sqlite3.Connection, source: Callable[[str], Path], folder: Path) -> None:
    """Those that are not there yet, or that are there damaged."""
    for sha256 in photos_in(copy):
        path = place_of(folder, sha256)
        if check_photo(path, sha256):
            write_whole(path, source(sha256).read_bytes())


def refuse_broken(copy: sqlite3.Connection, photos: Path) -> None:
    """:class:`BackupFailed` names what is wrong with the database, or with the photos that it lists."""
    problems = check_database(copy)
    if not problems:
        for sha256 in photos_in(copy):
            problems += check_photo(place_of(photos, sha256), sha256)
    if problems:
        more = f" And {len(problems) - SHOWN} more." if len(problems) > SHOWN else ""
        raise BackupFailed(f"The copy is not good: {' '.join(problems[:SHOWN])}{more}")


def restore(source: Path, database: Path, photos: Path) -> None:
    """Put a copy made by :func:`backup` where a new store is to live.

    :class:`BackupFailed`, before anything is written, when a database is there already or the copy is broken.
    """
    if database.exists():
        raise BackupFailed(f"{database} exists already. Move it away first, then restore.")
    try:
        with closing(read_only(source / DATABASE)) as copy:
            refuse_broken(copy, source / "photos")
            copy_photos(copy, lambda sha256: place_of(source / "photos", sha256), photos)
    except sqlite3.Error as error:
        raise BackupFailed(f"The copy is not good: {error}.") from error
    database.parent.mkdir(parents=True, exist_ok=True)
    temporary = database.with_name(database.name + ".part")
    shutil.copyfile(source / DATABASE, temporary)
    sync_file(temporary)
    temporary.rename(database)
    sync_folder(database.parent)
