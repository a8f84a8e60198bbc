"""What changed for phones since they last asked, by number."""

import re
from dataclasses import dataclass
from typing import Any

from webapp.store.connection import Connection
from webapp.store.rows import rows

CURSOR = re.compile(r"([0-9]{1,15})\.([0-9]{1,15})\.([0-9]{1,15})\.([0-9A-F]{16})")


@dataclass(frozen=True)
class Cursor:
    """How far a phone has been told: of units and of visits, and a number of the history with its word.

    The numbers of units and visits are apart because many units come in several answers.
    """

    units: int
    visits: int
    number: int
    word: str

    def __str__(self) -> str:
        return f"{self.units}.{self.visits}.{self.number}.{self.word}"


class News:
    def __init__(self, connection: Connection):
        self.connection = connection

    def newest(self) -> Cursor:
        """Where everything has been told."""
        sql = "select number, word from news_numbers order by number desc limit 1"
        row = rows(self.connection.read(), sql)[0]
        return Cursor(row["number"], row["number"], row["number"], row["word"])

    def cursor(self, text: str) -> Cursor | None:
        """The cursor that was written as ``text``; None if it does not belong to this history."""
        parts = CURSOR.fullmatch(text)
        if parts is None:
            return None
        found = Cursor(int(parts[1]), int(parts[2]), int(parts[3]), parts[4])
        sql = "select 1 from news_numbers where number = ? and word = ?"
        known = rows(self.connection.read(), sql, [found.number, found.word])
        return found if known and max(found.units, found.visits) <= self.newest().number else None

    def units_between(self, first: int, last: int, limit: int) -> list[dict[str, Any]]:
        """Units whose number is greater than ``first`` and at most ``last``, with it; the smallest first."""
        sql = """select n.number, u.*, t.record as previous
            from unit_news n join units u on u.id = n.unit left join unit_states t on t.unit = n.unit
            where n.number > ? and n.number <= ? order by n.number limit ?"""
        return rows(self.connection.read(), sql, [first, last, limit])
