"""What units are found by: their words in small letters, in a narrow row each.

A look through ten thousand such rows takes a millisecond. An index of trigrams would save that one, and costs
virtual tables beside the rows and another way for words of two letters.
"""

import unicodedata
from collections.abc import Sequence

from sqlite_utils import Database


def folded(text: str) -> str:
    """The same for capitals and small letters, and for composed and combining accents."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).casefold())


def refresh_words(db: Database, where: str = "1", values: Sequence[str] = ()) -> None:
    """Make the words of these units (``u``) anew from the units and their sites (``s``)."""
    sql = f"""select u.id, u.name, u.serial, u.short_code, u.site, s.name as site_name
        from units u join sites s on s.id = u.site where {where}"""  # noqa: S608 - no outside text in it
    rows = [
        (
            folded(one["name"]),
            one["id"],
            one["site"],
            folded(f"{one['name']} {one['serial']} {one['short_code']} {one['site_name']}"),
        )
        for one in db.query(sql, values)
    ]
    db.conn.executemany("delete from unit_words where unit = ?", ([row[1]] for row in rows))
    db.conn.executemany("insert into unit_words values (?, ?, ?, ?)", rows)
