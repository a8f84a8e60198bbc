"""Derived tables: the states of visits, records and units, and the lists made of them.

Everything here follows from the documents and can be rebuilt from them at any time.
"""

import json
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from webapp.signing import jws
from webapp.store.connection import Connection
from webapp.store.errors import NotInStore
from webapp.store.quarantine import Quarantine, Quarantined
from webapp.store.records import Record, Records, state_by
from webapp.store.rows import rows, upsert

OF_RECORD = ("visit", "unit", "person", "verdict", "signed_at", "received_at")
STATE_TABLES = ("visit_states", "record_states", "unit_states")


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
class ListedRecord:
    """One line of the queue or of a search."""

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
    pending: bool


ROWS = "record_states r"
LISTED = """select r.record as sha256, r.visit, v.kind, r.unit, u.name as unit_name, u.serial,
        s.id as site, s.name as site_name, r.person, p.name as person_name, r.signed_at, r.received_at,
        r.verdict, r.state, r.pending
    from {rows} join visits v on v.id = r.visit join units u on u.id = r.unit
        join sites s on s.id = u.site join people p on p.id = r.person"""

# Few records are sorted at once; of many, those of the last weeks are gone through until a page is full.
FEW = 2000
FOUND_UNITS = """(select u.id from units u join sites s on s.id = u.site
    where u.name || ' ' || u.serial || ' ' || u.short_code || ' ' || s.name like :pattern escape '\\')"""
FOUND_PEOPLE = """(select id from people where name like :pattern escape '\\')"""
OF_FOUND = f"(r.unit in {FOUND_UNITS} or r.person in {FOUND_PEOPLE})"
RECORDS_OF_FOUND = f"""select record from record_states where unit in {FOUND_UNITS}
    union all select record from record_states where person in {FOUND_PEOPLE}"""  # noqa: S608 - no outside text
FILTERS = {
    "state": "r.state = :state",
    "unit": "r.unit = :unit",
    "site": "u.site = :site",
    "since": "r.signed_at >= :since",
    "until": "r.signed_at < :until || '~'",  # sorts after the day's last millisecond
    "before": "(r.received_at, r.record) < "
    "(select received_at, record from record_states where record = :before)",
}


def visit_state(records: Sequence[Record], quarantined: Sequence[Quarantined]) -> dict[str, Any]:
    """The state of a visit by its records (the oldest first) and what of it was quarantined."""
    last = records[-1] if records else None
    state: dict[str, Any] = {"state": "draft", "record": last.sha256 if last else None, "returned": None}
    since = ""
    if last and not last.decisions:
        return {**state, "state": "signed"}
    if last:
        decision = last.decisions[-1]
        if decision.decision != "returned":
            return {**state, "state": "accepted"}
        state |= {
            "state": "returned",
            "returned": told(decision.reasons, decision.person, decision.received_at),
        }
        since = decision.received_at
    after = [one for one in quarantined if one.kind == "record" and one.received_at >= since]
    if any(one.seen_by is None for one in after):
        return {**state, "state": "quarantined"}
    if after:
        seen = after[-1]
        returned = told(seen.note or "", seen.seen_by or "", seen.seen_at or "")
        return {**state, "state": "returned", "returned": returned}
    return state


def told(reasons: str, by: str, at: str) -> dict[str, str]:
    return {"reasons": reasons, "by": by, "at": at}


class Undo(Exception):  # noqa: N818
    """Ends a transaction whose result is only looked at."""


# A visit or unit that nothing was signed for may have no row: that reads as these.
NOTHING_SIGNED = {
    "visit_states": ("draft", None, None),
    "unit_states": ("not_commissioned", None, None, None, "[]", None),
}


class Listing:
    def __init__(self, connection: Connection, records: Records, quarantine: Quarantine):
        self.connection = connection
        self.records = records
        self.quarantine = quarantine

    def rebuild(self) -> None:
        """Make every derived row anew from the documents."""
        with self.connection.write() as db:
            for table in STATE_TABLES:
                db.table(table).delete_where()
            for row in list(db.query("select id from visits")):
                self._refresh_visit(db, row["id"])
            for row in list(db.query("select id from units")):
                self._refresh_unit(db, row["id"])

    def differences(self) -> list[str]:
        """Where the derived rows are not those that follow from the documents; nothing is changed."""
        before, after = self._rows(), {}
        with suppress(Undo), self.connection.write():
            self.rebuild()
            after = self._rows()
            raise Undo
        return [
            f"List {table}: the row of {key} does not follow from the documents."
            for table in STATE_TABLES
            for key in sorted(before[table].keys() | after[table].keys())
            if before[table].get(key, NOTHING_SIGNED.get(table))
            != after[table].get(key, NOTHING_SIGNED.get(table))
        ]

    def _rows(self) -> dict[str, dict[str, tuple]]:
        """By table and key."""
        read = self.connection.read()
        return {
            table: {row[0]: tuple(row[1:]) for row in read.execute(f"select * from {table}")}  # noqa: S608
            for table in STATE_TABLES
        }

    def refresh(self, visit: str, unit: str) -> None:
        """After a document about them came."""
        with self.connection.write() as db:
            self._refresh_visit(db, visit)
            self._refresh_unit(db, unit)

    def _refresh_visit(self, db: Database, visit: str) -> None:
        records = self.records.select("visit = ?", [visit], "sequence")
        state = visit_state(records, self.quarantine.of_visit(visit))
        returned = json.dumps(state["returned"]) if state["returned"] else None
        row = {"visit": visit, "state": state["state"], "record": state["record"], "returned": returned}
        upsert(db, "visit_states", "visit", row)
        for record in records:
            self._list_record(db, record)

    def _list_record(self, db: Database, record: Record) -> None:
        row = {name: getattr(record, name) for name in OF_RECORD}
        row |= {"record": record.sha256, "state": state_by(record.decisions)}
        upsert(db, "record_states", "record", {**row, "pending": int(waits_for_results(record))})

    def _refresh_unit(self, db: Database, unit: str) -> None:
        row = self._accepted(db, unit) or {"state": "not_commissioned", "conditions": "[]"}
        upsert(db, "unit_states", "unit", {"unit": unit, **row})

    def _accepted(self, db: Database, unit: str) -> dict[str, Any] | None:
        sql = """select d.*, back.received_at as reopened_at from decisions d
                join records r on r.sha256 = d.record
                left join decisions back on back.record = d.record and back.decision = 'returned'
            where r.unit = ? and d.decision <> 'returned' order by d.sequence desc limit 1"""
        decision = next(iter(rows(db, sql, [unit])), None)
        if decision is None:
            return None
        return {
            "state": decision["decision"],
            "record": decision["record"],
            "accepted_on": decision["received_at"][:10],
            "next_service": decision["next_service"],
            "conditions": json.dumps([decision["reasons"]] if decision["reasons"].strip() else []),
            "reopened_on": (decision["reopened_at"] or "")[:10] or None,
        }

    def unit_state(self, unit: str) -> UnitState:
        for row in rows(self.connection.read(), "select * from unit_states where unit = ?", [unit]):
            return UnitState(**{**row, "conditions": tuple(json.loads(row["conditions"]))})
        return UnitState(unit, "not_commissioned")

    def conditional(self, limit: int) -> list[UnitState]:
        """The units that were accepted with conditions and not re-opened since."""
        return self._units("state = 'accepted_with_conditions' and reopened_on is null limit ?", limit)

    def reopened(self, limit: int) -> list[UnitState]:
        """The units whose acceptance was re-opened for a corrected record."""
        return self._units("reopened_on is not null limit ?", limit)

    def overdue(self, today: str, limit: int) -> list[UnitState]:
        """The units whose service date has passed, the longest overdue first."""
        return self._units("next_service < ? order by next_service limit ?", today, limit)

    def awaiting_results(self) -> set[str]:
        """The accepted records of which a requirement is still pending."""
        sql = "select record from record_states where pending and state = 'accepted_with_conditions'"
        return {row["record"] for row in self.connection.read().query(sql)}

    def _units(self, where: str, *values: str | int) -> list[UnitState]:
        rows = self.connection.read().query(f"select * from unit_states where {where}", values)  # noqa: S608
        return [UnitState(**{**row, "conditions": tuple(json.loads(row["conditions"]))}) for row in rows]

    def unit_states(self) -> dict[str, UnitState]:
        """By unit; a unit without any record may be missing."""
        return {state.unit: state for state in self._units("1")}

    def queue(self, limit: int = -1) -> list[ListedRecord]:
        """What waits for a supervisor, the oldest first."""
        return self._listed("where r.state = 'signed' order by r.received_at limit :limit", {"limit": limit})

    def search(self, text: str = "", limit: int = 200, **filters: str | None) -> list[ListedRecord]:
        """Records, the newest first, whose unit, serial number, site or signer contains ``text``.

        ``filters`` are ``state``, ``unit``, ``site``, ``since`` and ``until`` (days of signing), and
        ``before``: the last record of the page before this one.
        """
        given = {name: value for name, value in filters.items() if value}
        values = {**given, "pattern": pattern_of(text), "limit": limit}
        conditions = [FILTERS[name] for name in given]
        is_few = bool(text) and self._is_few(values)
        if text:
            conditions.append(f"r.record in ({RECORDS_OF_FOUND})" if is_few else OF_FOUND)
        is_by_time = not is_few and not {"state", "unit"} & given.keys()
        rows = f"{ROWS} indexed by records_by_time" if is_by_time else ROWS
        where = f"where {' and '.join(conditions)}" if conditions else ""
        return self._listed(f"{where} order by r.received_at desc, r.record desc limit :limit", values, rows)

    def _is_few(self, values: dict[str, object]) -> bool:
        sql = f"select count(*) as count from ({RECORDS_OF_FOUND} limit {FEW})"  # noqa: S608
        return next(self.connection.read().query(sql, values))["count"] < FEW

    def record(self, sha256: str) -> ListedRecord:
        found = self._listed("where r.record = :record", {"record": sha256})
        if not found:
            raise NotInStore("record", sha256)
        return found[0]

    def _listed(self, rest: str, values: dict[str, object], rows: str = ROWS) -> list[ListedRecord]:
        found = self.connection.read().query(f"{LISTED.format(rows=rows)} {rest}", values)
        return [ListedRecord(**{**row, "pending": bool(row["pending"])}) for row in found]


def pattern_of(text: str) -> str:
    """For LIKE: ``text`` anywhere, its own signs taken literally."""
    return "%" + text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_") + "%"


def waits_for_results(record: Record) -> bool:
    """Whether a requirement was judged as pending: its result may come later.

    The payload is canonical, so that these bytes stand for nothing else.
    """
    return b'"verdict":"pending"' in jws.read(record.jws).payload
