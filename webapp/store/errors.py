"""Errors of the store.

StoreError
  NotInStore   nothing has this key
  Taken        the key, login or serial number belongs to something else
  Refused      the change would break a rule that the store keeps
  Unavailable  the disk or the database cannot take anything just now; nothing of the change was kept
"""

import errno
import sqlite3


class StoreError(Exception):
    """Any refusal of the store; the sentence is fit for the screen."""


class NotInStore(StoreError):  # noqa: N818
    def __init__(self, noun: str, key: str):
        super().__init__(f"There is no {noun} {key!r} here. It may be mistyped, or not have been sent yet.")
        self.noun = noun
        self.key = key


class Taken(StoreError):  # noqa: N818
    def __init__(self, noun: str, name: str, value: str):
        super().__init__(f"Another {noun} already has the {name} {value!r}. Choose a different one.")
        self.noun = noun
        self.name = name
        self.value = value


class Refused(StoreError):  # noqa: N818
    """``code`` names the rule."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code


class Unavailable(StoreError):  # noqa: N818
    """Nothing can be written just now, and nothing was. ``code`` is storage_full, _busy or _failed."""

    SENTENCES = {
        "storage_full": "The server's disk is full. Nothing was changed; free some space, then try again.",
        "storage_busy": "Another program holds the database. Nothing was changed; try again in a moment.",
        "storage_failed": "The server's disk cannot be written. Nothing was changed; look at the disk.",
    }

    def __init__(self, code: str):
        super().__init__(self.SENTENCES[code])
        self.code = code

    @classmethod
    def by(cls, error: sqlite3.Error | OSError) -> "Unavailable | None":
        """What a failure of SQLite or of the file system means, or None if it is another kind of failure."""
        if isinstance(error, OSError):
            code = BY_ERRNO.get(error.errno or 0)
        else:
            code = BY_RESULT.get((getattr(error, "sqlite_errorcode", None) or 0) & 0xFF)
        return cls(code) if code else None


BY_ERRNO = {
    errno.ENOSPC: "storage_full",
    errno.EDQUOT: "storage_full",
    errno.EFBIG: "storage_full",
    errno.EIO: "storage_failed",
    errno.EROFS: "storage_failed",
}
BY_RESULT = {
    sqlite3.SQLITE_FULL: "storage_full",
    sqlite3.SQLITE_BUSY: "storage_busy",
    sqlite3.SQLITE_LOCKED: "storage_busy",
    sqlite3.SQLITE_IOERR: "storage_failed",
    sqlite3.SQLITE_READONLY: "storage_failed",
    sqlite3.SQLITE_CANTOPEN: "storage_failed",
    sqlite3.SQLITE_INTERRUPT: "storage_busy",
}
