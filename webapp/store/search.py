"""The search through records, and through what was not accepted: as long for many as for few.

Two ways lead to a page. Where one condition leaves few records, these are gathered and sorted; otherwise the
records are gone through from the newest, in an index that holds all that the conditions ask for.
"""

import json
from collections.abc import Mapping
from typing import Any

from webapp.store.lists import ONE_MORE, ListedQuarantined, ListedRecord, Lists
from webapp.store.words import folded

FEW = 2000
MANY_UNITS = 500

# What a record's unit, or its signer, has to be; and so for what was quarantined.
OF_TEXT = """({of}.unit in (select value from json_each(:units))
    or {of}.person in (select value from json_each(:people)))"""
OF_MANY = """({of}.unit in (select unit from unit_words where instr(words, :text))
    or {of}.person in (select value from json_each(:people)))"""
FILTERS = {
    "state": "r.state = :state",
    "unit": "r.unit = :unit",
    "site": "r.unit in (select unit from unit_words where site = :site)",
    "since": "r.signed_at >= :since",
    "until": "r.signed_at < :until || '~'",  # sorts after the day's last millisecond
    # Not as a pair: a row is then only fetched for its name where two came in one millisecond.
    "before": "r.received_at <= :at and (r.received_at < :at or r.record < :key)",
}

# The records that one condition leaves, each by an index of its own.
SOURCES = {
    "text": """select record from record_states where unit in (select value from json_each(:units))
        union all select record from record_states where person in (select value from json_each(:people))""",
    "unit": "select record from record_states where unit = :unit",
    "site": """select record from record_states
        where unit in (select unit from unit_words where site = :site)""",
    "state": "select record from record_states where state = :state",
    "days": """select record from record_states
        where signed_at >= coalesce(:since, '') and signed_at < coalesce(:until, '9') || '~'""",
}
QUARANTINED_OF = """select item from quarantine_states where unit in (select value from json_each(:units))
    union all select item from quarantine_states where person in (select value from json_each(:people))"""
QUARANTINED = """select q.item, q.kind, q.unit, u.name as unit_name, q.person, p.name as person_name,
        q.detail, q.more, q.received_at, q.seen_at
    from quarantine_states q join people p on p.id = q.person left join units u on u.id = q.unit"""


class Search(Lists):
    """Lists by what somebody typed."""

    def search(
        self, text: str = "", limit: int = ONE_MORE, before: str = "", **filters: str | None
    ) -> list[ListedRecord]:
        """Records, the newest first, whose unit, serial number, site or signer contains ``text``.

        ``filters`` are ``state``, ``unit``, ``site``, ``since`` and ``until`` (days of signing). ``before``
        is the place of the last record of the page before this one.
        """
        values: dict[str, Any] = {"since": None, "until": None, **filters, "before": before, "limit": limit}
        values["at"], _, values["key"] = before.rpartition("~")
        conditions = [FILTERS[name] for name in FILTERS if values.get(name)]
        conditions += self._of_text(text, values)
        source = self._fewest(values)
        if source:
            conditions.append(f"r.record in ({SOURCES[source]})")
        where = f"where {' and '.join(conditions)}" if conditions else ""
        order = "order by r.received_at desc, r.record desc limit :limit"
        return self._records(f"{where} {order}", values, "" if source else "indexed by records_by_time")

    def _of_text(self, text: str, values: dict[str, Any], of: str = "r") -> list[str]:
        """The condition for ``text``, with its values; the units by name where they are not too many."""
        if not text:
            return []
        wanted = folded(text)
        people = self.connection.read().query("select id, name from people")
        values["people"] = json.dumps([one["id"] for one in people if wanted in folded(one["name"])])
        values["text"] = wanted
        sql = f"select unit from unit_words where instr(words, ?) limit {MANY_UNITS + 1}"  # noqa: S608 - a number
        units = [row["unit"] for row in self.connection.read().query(sql, [wanted])]
        if len(units) > MANY_UNITS:
            return [OF_MANY.format(of=of)]
        values["units"] = json.dumps(units)
        return [OF_TEXT.format(of=of)]

    def _fewest(self, values: Mapping[str, Any]) -> str | None:
        """The condition that leaves the fewest records, where one leaves few."""
        wanted = {name for name in ("unit", "site", "state") if values.get(name)}
        wanted |= {"days"} if values["since"] or values["until"] else set()
        wanted |= {"text"} if "units" in values else set()
        counts = {name: self._count(SOURCES[name], values) for name in sorted(wanted)}
        found = min(counts, key=lambda name: counts[name], default=None)
        return found if found and counts[found] < FEW else None

    def _count(self, source: str, values: Mapping[str, Any]) -> int:
        """How many there are, or FEW where there are more."""
        sql = f"select count(*) as count from (select 1 from ({source}) limit {FEW})"  # noqa: S608 - as above
        return next(self.connection.read().query(sql, dict(values)))["count"]

    def quarantined(
        self, text: str = "", seen: bool | None = None, before: int | None = None, limit: int = ONE_MORE
    ) -> list[ListedQuarantined]:
        """What was not accepted, the newest first, whose unit, site or sender contains ``text``.

        ``seen`` leaves what a supervisor looked at, or what nobody did. ``before`` is the last item of the
        page before this one.
        """
        values: dict[str, Any] = {"before": before or 2**62, "limit": limit}
        conditions = ["q.item < :before", *self._of_text(text, values, "q")]
        if "units" in values and self._count(QUARANTINED_OF, values) < FEW:
            conditions.append(f"q.item in ({QUARANTINED_OF})")
        if seen is not None:
            conditions.append(f"q.seen_at is {'not ' if seen else ''}null")
        sql = f"{QUARANTINED} where {' and '.join(conditions)} order by q.item desc limit :limit"
        return [ListedQuarantined(**row) for row in self.connection.read().query(sql, values)]

    def unseen(self, after: int = 0, limit: int = ONE_MORE) -> list[ListedQuarantined]:
        """What was not accepted and nobody has looked at, the oldest first."""
        sql = f"{QUARANTINED} where q.seen_at is null and q.item > ? order by q.item limit ?"
        return [ListedQuarantined(**row) for row in self.connection.read().query(sql, [after, limit])]
