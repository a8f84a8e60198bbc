"""Files that somebody has handed in and not yet confirmed: kept for a day, for nobody but them."""

import time
from hashlib import sha256
from pathlib import Path

from webapp.signing.canonical import digest
from webapp.store.connection import named_failures
from webapp.store.errors import NotInStore
from webapp.store.photos import write_whole

KEPT_FOR = 24 * 3600  # seconds
MOST = 5  # files of one person


class Inbox:
    """The files below ``folder``, by person and by the hash of their bytes."""

    def __init__(self, folder: Path):
        self.folder = folder

    def of_person(self, person: str) -> Path:
        return self.folder / sha256(person.encode()).hexdigest()[:16]

    def keep(self, person: str, data: bytes) -> str:
        """The name under which ``person`` finds the file again; older ones make room."""
        self.clear()
        name = digest(data)
        with named_failures():
            write_whole(self.of_person(person) / name, data)
        for path in self.newest(person)[MOST:]:
            path.unlink(missing_ok=True)
        return name

    def read(self, person: str, name: str) -> bytes:
        """The bytes; :class:`NotInStore` when there are none under this name."""
        for path in self.newest(person):
            if path.name == name:
                return path.read_bytes()
        raise NotInStore("file", name)

    def forget(self, person: str, name: str) -> None:
        for path in self.newest(person):
            if path.name == name:
                path.unlink(missing_ok=True)

    def newest(self, person: str) -> list[Path]:
        paths = [path for path in self.of_person(person).glob("*") if not path.name.startswith(".")]
        return sorted(paths, key=lambda path: path.stat().st_mtime, reverse=True)

    def clear(self) -> None:
        old = time.time() - KEPT_FOR
        for path in self.folder.glob("*/*"):
            if path.stat().st_mtime < old:
                path.unlink(missing_ok=True)
