"""Signed-in sessions and failed attempts. Only the hash of a session's token is kept."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta

from webapp.store.connection import Connection
from webapp.store.errors import Unavailable
from webapp.store.people import People, Person
from webapp.store.rows import rows
from webapp.store.table import Clock, written

NOTE_SEEN_AFTER = timedelta(minutes=1)  # not one write per request


@dataclass(frozen=True)
class Session:
    """``key`` is the hash of the token; ``browser`` what it called itself; ``passkey`` that it began with."""

    key: str
    person: str
    created_at: str
    seen_at: str
    browser: str
    passkey: str | None

    @property
    def id(self) -> str:
        """What pages call it."""
        return self.key[:16]


class Sessions:
    def __init__(self, connection: Connection, clock: Clock, people: People):
        self.connection = connection
        self.clock = clock
        self.people = people

    def start(self, key: str, person: str, browser: str = "", passkey: str | None = None) -> None:
        now = written(self.clock())
        with self.connection.write() as db:
            db.table("sessions").insert(Session(key, person, now, now, browser, passkey).__dict__)

    def of(self, person: str) -> list[Session]:
        """The person's sessions, the one that was used last first; some may have run out since."""
        sql = "select * from sessions where person = ? order by seen_at desc"
        return [Session(**row) for row in self.connection.read().query(sql, [person])]

    def person(self, key: str, idle_hours: int, days: int) -> Person | None:
        """Who signed in under ``key``, while the session is alive and the account active; notes the visit."""
        found = rows(self.connection.read(), "select * from sessions where key = ?", [key])
        if not found:
            return None
        now = self.clock()
        seen = datetime.fromisoformat(found[0]["seen_at"])
        started = datetime.fromisoformat(found[0]["created_at"])
        if now - seen > timedelta(hours=idle_hours) or now - started > timedelta(days=days):
            self.end(key)
            return None
        # Who may read still reads while the disk is full; the session then ends a little earlier.
        if now - seen > NOTE_SEEN_AFTER:
            with suppress(Unavailable), self.connection.write() as db:
                db.execute("update sessions set seen_at = ? where key = ?", [written(now), key])
        person = self.people.find(found[0]["person"])
        return person if person and person.active else None

    def end(self, key: str) -> None:
        with self.connection.write() as db:
            db.table("sessions").delete_where("key = ?", [key])

    def end_all(self, person: str, but: str | None = None) -> None:
        """End the person's sessions, ``but`` for the one with that key."""
        with self.connection.write() as db:
            db.table("sessions").delete_where("person = ? and key is not ?", [person, but])


class Failures:
    """Failed sign-ins, counted per key (an account or an address)."""

    def __init__(self, connection: Connection, clock: Clock):
        self.connection = connection
        self.clock = clock

    def add(self, *keys: str) -> None:
        now = written(self.clock())
        with self.connection.write() as db:
            for key in keys:
                db.execute(
                    "insert into sign_in_failures values (?, 1, ?) "
                    "on conflict (key) do update set count = count + 1, last_at = excluded.last_at",
                    [key, now],
                )

    def of(self, key: str) -> tuple[int, datetime] | None:
        """How many, and when the last was."""
        for row in self.connection.read().query("select * from sign_in_failures where key = ?", [key]):
            return row["count"], datetime.fromisoformat(row["last_at"])
        return None

    def take_back(self, key: str) -> None:
        """One failure less: it was counted beforehand and turned out to be none."""
        with self.connection.write() as db:
            db.execute("update sign_in_failures set count = count - 1 where key = ? and count > 0", [key])

    def forget(self, *keys: str) -> None:
        with self.connection.write() as db:
            for key in keys:
                db.table("sign_in_failures").delete_where("key = ?", [key])

    def forget_before(self, instant: datetime) -> None:
        with self.connection.write() as db:
            db.table("sign_in_failures").delete_where("last_at < ?", [written(instant)])
