"""Photos: files named by the hash of their bytes. A file is whole before its row says that it is there."""

import os
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from webapp.signing.canonical import digest
from webapp.store.connection import Connection, named_failures
from webapp.store.errors import NotInStore, Refused
from webapp.store.table import Clock, Table


@dataclass(frozen=True)
class Photo:
    sha256: str
    size: int
    person: str
    received_at: str


class Photos(Table[Photo]):
    noun = "photo"
    name = "photos"
    key = "sha256"
    made = Photo

    def __init__(self, connection: Connection, clock: Clock, folder: Path):
        super().__init__(connection, clock)
        self.folder = folder

    def path(self, sha256: str) -> Path:
        return self.folder / sha256[:2] / f"{sha256}.jpg"

    def keep(self, sha256: str, data: bytes, person: str) -> Photo:
        """Keep the bytes, whose hash must be ``sha256``. The same photo again changes nothing."""
        if digest(data) != sha256:
            raise Refused("hash_differs", "The photo arrived damaged: its hash is another. Send it again.")
        found = self.find(sha256)
        # The file first, the row after: a crash between them leaves a file too many, never a row without one.
        if found is None or not self.path(sha256).exists():
            with named_failures():
                write_whole(self.path(sha256), data)
        if found is None:
            row = {"sha256": sha256, "size": len(data), "person": person, "received_at": self.now()}
            with self.connection.write() as db:
                db.table("photos").insert(row, ignore=True)
        return self.get(sha256)

    def read_bytes(self, sha256: str) -> bytes:
        """The bytes; :class:`NotInStore` if the photo has not arrived."""
        self.get(sha256)
        try:
            return self.path(sha256).read_bytes()
        except FileNotFoundError as error:
            raise NotInStore(self.noun, sha256) from error


def write_whole(path: Path, data: bytes, name: Callable[[], str] = lambda: secrets.token_hex(8)) -> None:
    """Write a file so that after a power cut it is there as a whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    temporary = path.with_name(f".{name()}.part")
    try:
        with temporary.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        temporary.rename(path)
    finally:
        temporary.unlink(missing_ok=True)  # a full disk must not be filled further by halves
    sync_folder(path.parent)
    sync_folder(path.parent.parent)


def sync_folder(folder: Path) -> None:
    """Make a new name in a folder durable."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
