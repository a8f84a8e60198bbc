"""Photos that come in parts: each part is a file until the last gap is closed.

A part is as durable as the answer that acknowledged it, so that a phone goes on after a lost signal, a reload
or a restart of the server. Nothing here is a photo yet; that is for :class:`webapp.store.photos.Photos`.
"""

import shutil
from dataclasses import dataclass
from hashlib import sha256 as hashed
from pathlib import Path

from webapp.store.connection import named_failures
from webapp.store.errors import Refused
from webapp.store.photos import write_whole

PART = 256 * 1024
MOST_UNFINISHED = 40  # photos of one person; the oldest makes room, its phone sends it again


@dataclass(frozen=True)
class Progress:
    """How much of a photo of ``size`` bytes is here: ``held`` are the numbers of its parts."""

    size: int
    held: tuple[int, ...]

    @property
    def whole(self) -> bool:
        return len(self.held) == count_of(self.size)


def count_of(size: int) -> int:
    """How many parts a photo of ``size`` bytes has."""
    return -(-size // PART)


class PhotoParts:
    """The unfinished photos below ``folder``, each by person and hash: nobody can spoil another's upload."""

    def __init__(self, folder: Path):
        self.folder = folder

    def of_person(self, person: str) -> Path:
        return self.folder / hashed(person.encode()).hexdigest()[:16]

    def place(self, person: str, sha256: str) -> Path:
        return self.of_person(person) / sha256

    def progress(self, person: str, sha256: str) -> Progress | None:
        """What is here of a photo; None when nothing is."""
        names = [path.name for path in self.place(person, sha256).glob("*-*")]
        if not names:
            return None
        return Progress(int(names[0].split("-")[0]), tuple(sorted(int(name.split("-")[1]) for name in names)))

    def keep(self, person: str, sha256: str, number: int, size: int, data: bytes) -> Progress:
        """Keep one part, durably; the same part again replaces it.

        Refused when earlier parts belonged to a photo of another size.
        """
        before = self.progress(person, sha256)
        if before is not None and before.size != size:
            raise Refused("size_differs", f"The parts before belong to a photo of {before.size} bytes.")
        if before is None:
            self.make_room(person)
        with named_failures():
            write_whole(self.place(person, sha256) / f"{size}-{number}", data)
        progress = self.progress(person, sha256)
        assert progress is not None  # the part just written is there
        return progress

    def bytes_of(self, person: str, sha256: str, progress: Progress) -> bytes:
        place = self.place(person, sha256)
        return b"".join((place / f"{progress.size}-{number}").read_bytes() for number in progress.held)

    def forget(self, person: str, sha256: str) -> None:
        """The photo is whole and kept, or it was none."""
        shutil.rmtree(self.place(person, sha256), ignore_errors=True)

    def make_room(self, person: str) -> None:
        mine = self.of_person(person)
        unfinished = sorted(mine.iterdir(), key=lambda one: one.stat().st_mtime) if mine.is_dir() else []
        for oldest in unfinished[: max(0, len(unfinished) - MOST_UNFINISHED + 1)]:
            shutil.rmtree(oldest, ignore_errors=True)
