"""What the office's pages ask of the derived tables: a page at a time, the next one after the last line.

The place of a line is a text, ``VALUE~KEY``: what it is sorted by, and which one it is.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar

from webapp.store.connection import Connection
from webapp.store.errors import NotInStore
from webapp.store.words import folded

PAGE = 50
ONE_MORE = PAGE + 1
MOST_WORDS = 20
Awaited = list[dict[str, Any]]


@dataclass(frozen=True)
class UnitState:
    """``state`` is not_commissioned, accepted or accepted_with_conditions, by the last accepted ``record``.

    ``accepted_on`` and ``next_service`` are dates, ``conditions`` texts. ``reopened_on`` is the date on
    which that record was re-opened: its acceptance holds until a corrected one is accepted.
    """

    unit: str
    state: str
    record: str | None = None
    accepted_on: str | None = None
    next_service: str | None = None
    conditions: tuple[str, ...] = ()
    reopened_on: str | None = None


@dataclass(frozen=True)
class ListedUnit:
    """One line of a list of units; ``awaited`` are the results of :mod:`webapp.store.awaited`."""

    id: str
    name: str
    serial: str
    site: str
    site_name: str
    state: UnitState
    awaited: Awaited
    place: str


@dataclass(frozen=True)
class ListedRecord:
    """One line of the queue or of a search; ``awaited`` are the results of :mod:`webapp.store.awaited`."""

    sha256: str
    visit: str
    kind: str
    unit: str
    unit_name: str
    serial: str
    site: str
    site_name: str
    person: str
    person_name: str
    signed_at: str
    received_at: str
    verdict: str
    state: str
    awaited: Awaited

    @property
    def place(self) -> str:
        return f"{self.received_at}~{self.sha256}"


@dataclass(frozen=True)
class ListedQuarantined:
    """One line of what was not accepted: the first reason, and how many ``more`` there are."""

    item: int
    kind: str
    unit: str | None
    unit_name: str | None
    person: str
    person_name: str
    detail: str
    more: int
    received_at: str
    seen_at: str | None

    @property
    def place(self) -> str:
        return str(self.item)


@dataclass(frozen=True)
class ListedDecision:
    """What a list of records says of a decision."""

    record: str
    person: str
    person_name: str
    decision: str
    signed_at: str
    reasons: str


RECORDS = """select r.record as sha256, r.visit, v.kind, r.unit, u.name as unit_name, u.serial,
        s.id as site, s.name as site_name, r.person, p.name as person_name, r.signed_at, r.received_at,
        r.verdict, r.state, r.awaited
    from record_states r {index} join visits v on v.id = r.visit join units u on u.id = r.unit
        join sites s on s.id = u.site join people p on p.id = r.person"""
UNITS = """select u.id, u.name, u.serial, u.site, s.name as site_name, t.record, t.accepted_on,
        t.next_service, t.reopened_on, coalesce(t.state, 'not_commissioned') as state,
        coalesce(t.conditions, '[]') as conditions, coalesce(t.awaited, '[]') as awaited,
        {value} || '~' || u.id as place
    from {first} join sites s on s.id = u.site"""
OF_STATES = "unit_states t join units u on u.id = t.unit"
OF_WORDS = "unit_words w join units u on u.id = w.unit left join unit_states t on t.unit = w.unit"
WITH_CONDITIONS = "t.state = 'accepted_with_conditions' and t.reopened_on is null"


class Lists:
    """The pages that need no search."""

    connection: Connection

    def unit_state(self, unit: str) -> UnitState:
        for row in self.connection.read().query("select * from unit_states where unit = ?", [unit]):
            return state_of(row)
        return UnitState(unit, "not_commissioned")

    def unit_states(self) -> dict[str, UnitState]:
        """By unit; a unit without any record may be missing."""
        rows = self.connection.read().query("select * from unit_states")
        return {row["unit"]: state_of(row) for row in rows}

    def conditional(self, after: str = "", limit: int = ONE_MORE) -> list[ListedUnit]:
        """Accepted with conditions and not re-opened since, no result still to come; the oldest first."""
        return self._by_state(f"{WITH_CONDITIONS} and t.awaited = '[]'", "t.accepted_on", after, limit)

    def to_come(self, after: str = "", limit: int = ONE_MORE) -> list[ListedUnit]:
        """Accepted while a result is still to come, and not re-opened since; the oldest first."""
        return self._by_state(f"{WITH_CONDITIONS} and t.awaited <> '[]'", "t.accepted_on", after, limit)

    def reopened(self, after: str = "", limit: int = ONE_MORE) -> list[ListedUnit]:
        """The units whose acceptance was re-opened for a corrected record."""
        return self._by_state("t.reopened_on is not null", "t.reopened_on", after, limit)

    def overdue(self, today: str, after: str = "", limit: int = ONE_MORE) -> list[ListedUnit]:
        """The units whose service date has passed, the longest overdue first."""
        where = "t.next_service is not null and t.next_service < :today"
        return self._by_state(where, "t.next_service", after, limit, today=today)

    def _by_state(self, where: str, value: str, after: str, limit: int, **more: str) -> list[ListedUnit]:
        last, _, key = after.rpartition("~")
        sql = f"""{UNITS.format(first=OF_STATES, value=value)} where {where}
            and ({value}, t.unit) > (:last, :key) order by {value}, t.unit limit :limit"""
        values = {"last": last, "key": key, "limit": limit, **more}
        return [listed_unit(row) for row in self.connection.read().query(sql, values)]

    def units(
        self, text: str = "", site: str = "", after: str = "", limit: int = ONE_MORE
    ) -> list[ListedUnit]:
        """Units by name: all words of ``text`` stand in name, serial number, short code or site."""
        name, _, key = after.rpartition("~")
        values: dict[str, object] = {"name": name, "key": key, "limit": limit, "site": site}
        conditions = ["w.site = :site"] if site else []
        if after:  # compared with every row that is looked at
            conditions.append("(w.name, w.unit) > (:name, :key)")
        for number, word in enumerate(folded(text).split()[:MOST_WORDS]):
            values[f"word_{number}"] = word
            conditions.append(f"instr(w.words, :word_{number})")
        sql = f"""{UNITS.format(first=OF_WORDS, value="w.name")}
            where {" and ".join(conditions) or "1"} order by w.name, w.unit limit :limit"""
        return [listed_unit(row) for row in self.connection.read().query(sql, values)]

    def queue(self, after: str = "", limit: int = ONE_MORE) -> list[ListedRecord]:
        """What waits for a supervisor, the oldest first."""
        at, _, key = after.rpartition("~")
        where = """where r.state = 'signed' and (r.received_at, r.record) > (:at, :key)
            order by r.received_at, r.record limit :limit"""
        return self._records(where, {"at": at, "key": key, "limit": limit})

    def record(self, sha256: str) -> ListedRecord:
        found = self._records("where r.record = :record", {"record": sha256})
        if not found:
            raise NotInStore("record", sha256)
        return found[0]

    def decisions(self, records: Sequence[str]) -> dict[str, list[ListedDecision]]:
        """The decisions about these records, by record, in the order of their coming."""
        sql = """select d.record, d.person, p.name as person_name, d.decision, d.signed_at, d.reasons
            from decisions d join people p on p.id = d.person
            where d.record in (select value from json_each(?)) order by d.sequence"""
        found: dict[str, list[ListedDecision]] = {}
        for row in self.connection.read().query(sql, [json.dumps(records)]):
            found.setdefault(row["record"], []).append(ListedDecision(**row))
        return found

    def units_at(self, sites: Sequence[str]) -> dict[str, int]:
        """How many units stand at each of these sites."""
        sql = """select site, count(*) as number from unit_words
            where site in (select value from json_each(?)) group by site"""
        return {row["site"]: row["number"] for row in self.connection.read().query(sql, [json.dumps(sites)])}

    def _records(self, rest: str, values: dict[str, Any], index: str = "") -> list[ListedRecord]:
        found = self.connection.read().query(f"{RECORDS.format(index=index)} {rest}", values)
        return [ListedRecord(**{**row, "awaited": json.loads(row["awaited"])}) for row in found]


class Placed(Protocol):
    """What has a place in a list."""

    @property
    def place(self) -> str: ...


Line = TypeVar("Line", bound=Placed)


def page(found: list[Line], size: int = PAGE) -> tuple[list[Line], str | None]:
    """The lines of a page, of one more that was asked for, and where the next page begins if there is one."""
    return found[:size], found[size - 1].place if len(found) > size else None


def state_of(row: dict[str, Any]) -> UnitState:
    names = ("unit", "state", "record", "accepted_on", "next_service", "reopened_on")
    return UnitState(**{name: row[name] for name in names}, conditions=tuple(json.loads(row["conditions"])))


def listed_unit(row: dict[str, Any]) -> ListedUnit:
    names = ("id", "name", "serial", "site", "site_name", "place")
    state, awaited = state_of({**row, "unit": row["id"]}), json.loads(row["awaited"])
    return ListedUnit(**{name: row[name] for name in names}, state=state, awaited=awaited)
