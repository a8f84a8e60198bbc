"""What the nouns of the store share: the connection, the clock, and rows turned into dataclasses."""

import base64
import secrets
import uuid
from collections.abc import Callable, Iterable
from dataclasses import fields
from datetime import UTC, datetime
from functools import cache
from typing import Any, Generic, TypeVar

from sqlite_utils import Database

from webapp.store.connection import Connection
from webapp.store.errors import NotInStore
from webapp.store.rows import Values, listed, rows

Clock = Callable[[], datetime]
Thing = TypeVar("Thing")


def written(instant: datetime) -> str:
    """An instant as text: UTC with milliseconds, so that it sorts as text."""
    return instant.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def new_id() -> str:
    return str(uuid.uuid4())


def public_token() -> str:
    """160 random bits in base32: upper-case letters and digits, which a QR code holds most densely."""
    return base64.b32encode(secrets.token_bytes(20)).decode()


@cache
def names_of(made: Callable[..., Any]) -> frozenset[str]:
    """The names of a dataclass's fields."""
    return frozenset(field.name for field in fields(made))  # type: ignore[arg-type]


class Table(Generic[Thing]):
    """The door to one kind of thing. A subclass names the noun, the table and the dataclass."""

    noun: str
    name: str
    key = "id"
    made: Callable[..., Thing]

    def __init__(self, connection: Connection, clock: Clock):
        self.connection = connection
        self.clock = clock

    def now(self) -> str:
        return written(self.clock())

    def read(self) -> Database:
        return self.connection.read()

    def thing(self, row: dict[str, Any]) -> Thing:
        wanted = names_of(self.made)
        return type(self).made(**{name: value for name, value in row.items() if name in wanted})

    def select(self, where: str = "1", values: Values = (), order: str = "rowid") -> list[Thing]:
        sql = f"select * from {self.name} where {where} order by {order}"  # noqa: S608 - no outside text in it
        return [self.thing(row) for row in rows(self.read(), sql, values)]

    def find(self, key: str) -> Thing | None:
        found = self.select(f"{self.key} = ?", [key])
        return found[0] if found else None

    def find_all(self, keys: Iterable[str]) -> dict[str, Thing]:
        """Those of the things that there are, by key, with one query."""
        where = f"{self.key} in (select value from json_each(?))"  # noqa: S608 - no outside text in it
        return {getattr(one, self.key): one for one in self.select(where, [listed(keys)], self.key)}

    def get(self, key: str) -> Thing:
        """The thing with this key; :class:`NotInStore` if there is none."""
        found = self.find(key)
        if found is None:
            raise NotInStore(self.noun, key)
        return found

    def all(self) -> list[Thing]:
        return self.select()
