"""SQL in one statement each: rows as dicts, and inserts of columns that are known.

sqlite-utils looks at a table's shape before it writes to it and sets a savepoint around whatever it reads; a
record that comes in would cost two hundred statements.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Any

from sqlite_utils import Database

Row = dict[str, Any]
Values = Sequence[object] | Mapping[str, object]


def rows(db: Database, sql: str, values: Values = ()) -> list[Row]:
    """All rows that a query gives."""
    cursor = db.conn.execute(sql, values)
    names = [column[0] for column in cursor.description]
    return [dict(zip(names, row, strict=True)) for row in cursor]


def insert(db: Database, table: str, *added: Row) -> None:
    """Add rows that all have the same columns."""
    if added:
        db.conn.executemany(_insert(table, tuple(added[0])), added)


def upsert(db: Database, table: str, key: str, row: Row) -> None:
    """Add a row, or write over the one with the same ``key``."""
    new = ", ".join(f'"{name}" = excluded."{name}"' for name in row if name != key)
    db.conn.execute(f"{_insert(table, tuple(row))} on conflict ({key}) do update set {new}", row)


@cache  # the same few statements again and again
def _insert(table: str, columns: tuple[str, ...]) -> str:
    names = ", ".join(f'"{name}"' for name in columns)
    values = ", ".join(f":{name}" for name in columns)
    return f"insert into {table} ({names}) values ({values})"  # noqa: S608 - no outside text in it


def listed(keys: Iterable[str]) -> str:
    """Keys as one value, for ``in (select value from json_each(?))``: any number of them."""
    return json.dumps(list(keys))
