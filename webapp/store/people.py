"""Accounts. A person is disabled, never deleted, and an id is never given again."""

import sqlite3
from dataclasses import dataclass

from webapp.store.errors import Taken
from webapp.store.table import Table, new_id


@dataclass(frozen=True)
class Person:
    """``one_time_password``: the password is one that somebody else knows and has to be changed first.

    ``language`` is the one that the person chose, "" while they have not.
    """

    id: str
    login: str
    name: str
    role: str
    active: bool = True
    one_time_password: bool = False
    language: str = ""


@dataclass(frozen=True)
class Password:
    """The argon2id hash, and the time after which a one-time password is refused."""

    hash: str
    until: str | None


class People(Table[Person]):
    noun = "person"
    name = "people"
    made = Person

    def thing(self, row: dict) -> Person:
        person = super().thing(row)
        return Person(**{**person.__dict__, **flags(row)})

    def add(
        self,
        login: str,
        name: str,
        role: str,
        password: str,
        *,
        id: str | None = None,  # noqa: A002 - the word everybody uses
        one_time_until: str | None = None,
    ) -> Person:
        """``password`` is a hash. With ``one_time_until`` it has to be changed at the first sign-in."""
        row = {
            "id": id or new_id(),
            "login": login,
            "name": name,
            "role": role,
            "password": password,
            "one_time_password": int(one_time_until is not None),
            "password_until": one_time_until,
            "created_at": self.now(),
        }
        try:
            with self.connection.write() as db:
                db.table("people").insert(row)
        except sqlite3.IntegrityError as error:
            raise Taken("person", "login", login) from error
        return self.get(str(row["id"]))

    def by_login(self, login: str) -> Person | None:
        found = self.select("login = ?", [login])
        return found[0] if found else None

    def password(self, person: str) -> Password:
        row = next(self.read().query("select password, password_until from people where id = ?", [person]))
        return Password(row["password"], row["password_until"])

    def set_password(self, person: str, password: str, one_time_until: str | None = None) -> None:
        """Keep a new hash; every session of the person ends when the password is a one-time one."""
        self.change(
            person,
            password=password,
            password_until=one_time_until,
            one_time_password=int(one_time_until is not None),
        )

    def rename(self, person: str, name: str) -> None:
        self.change(person, name=name)

    def set_role(self, person: str, role: str) -> None:
        self.change(person, role=role)

    def set_language(self, person: str, language: str) -> None:
        self.change(person, language=language)

    def set_active(self, person: str, active: bool) -> None:
        """A disabled person's sessions end at once."""
        with self.connection.write() as db:
            self.change(person, active=int(active))
            if not active:
                db.table("sessions").delete_where("person = ?", [person])

    def change(self, person: str, **values: object) -> None:
        self.get(person)
        with self.connection.write() as db:
            db.table("people").update(person, values)


def flags(row: dict) -> dict[str, bool]:
    return {name: bool(row[name]) for name in ("active", "one_time_password")}
