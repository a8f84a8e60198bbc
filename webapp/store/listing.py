"""Derived tables: the states of visits, records and units, and the lists made of them.

Everything here follows from the documents and can be rebuilt from them at any time.
"""

import json
from collections.abc import Sequence
from contextlib import suppress
from typing import Any

from sqlite_utils import Database

from webapp.signing import jws
from webapp.store.awaited import awaited_results
from webapp.store.baselines import Baselines
from webapp.store.connection import Connection
from webapp.store.quarantine import Quarantine, Quarantined
from webapp.store.records import Record, Records, state_by
from webapp.store.rows import insert, rows, upsert
from webapp.store.search import Search
from webapp.store.words import refresh_words

OF_RECORD = ("visit", "unit", "person", "verdict", "signed_at", "received_at")
KEYS = {
    "visit_states": ("visit",),
    "record_states": ("record",),
    "unit_states": ("unit",),
    "unit_words": ("unit",),
    "quarantine_states": ("item",),
    "entries_under_way": ("visit", "device"),
}
STATE_TABLES = tuple(KEYS)


def visit_state(records: Sequence[Record], quarantined: Sequence[Quarantined]) -> dict[str, Any]:
    """The state of a visit by its records (the oldest first) and what of it was quarantined."""
    last = records[-1] if records else None
    state: dict[str, Any] = {"state": "draft", "record": last.sha256 if last else None, "returned": None}
    state["finished_at"] = None
    since = ""
    if last and not last.decisions:
        return {**state, "state": "signed"}
    if last:
        decision = last.decisions[-1]
        if decision.decision != "returned":
            # The first decision counts: it is the one that ended the visit.
            return {**state, "state": "accepted", "finished_at": last.decisions[0].received_at}
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


# A visit that nothing was signed for, and a unit that nothing was accepted for, may have no row: as these.
NOTHING_SIGNED = {
    "visit_states": ("draft", None, None, None),
    "unit_states": ("not_commissioned", None, None, None, "[]", None, None, "[]"),
}


class Listing(Search):
    def __init__(
        self, connection: Connection, records: Records, quarantine: Quarantine, baselines: Baselines
    ):
        self.connection = connection
        self.records = records
        self.quarantine = quarantine
        self.baselines = baselines

    def rebuild(self) -> None:
        """Make every derived row anew from the documents."""
        with self.connection.write() as db:
            for table in STATE_TABLES:
                db.table(table).delete_where()
            refresh_words(db)
            self.quarantine.refresh_states()
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
            table: {
                " ".join(str(row.pop(name)) for name in key): tuple(row.values())
                for row in rows(read, f"select * from {table}")  # noqa: S608 - no outside text in it
            }
            for table, key in KEYS.items()
        }

    def add(self, record: Record, awaited: list[dict[str, Any]]) -> None:
        """A record that was just kept, the last of its visit; ``awaited`` are the results that it waits for.

        Says what :meth:`refresh` would: only decisions change the unit, or other records of the visit.
        """
        with self.connection.join() as db:
            self._put_visit(db, record.visit, visit_state([record], []))
            self._put_record(db, record, awaited)

    def refresh(self, visit: str, unit: str) -> None:
        """After a document about them came."""
        with self.connection.write() as db:
            self._refresh_visit(db, visit)
            self._refresh_unit(db, unit)

    def _refresh_visit(self, db: Database, visit: str) -> None:
        records = self.records.select("visit = ?", [visit], "sequence")
        self._put_visit(db, visit, visit_state(records, self.quarantine.of_visit(visit)))
        for record in records:
            self._list_record(db, record)

    def _put_visit(self, db: Database, visit: str, state: dict[str, Any]) -> None:
        returned = json.dumps(state["returned"]) if state["returned"] else None
        upsert(db, "visit_states", "visit", {"visit": visit, **state, "returned": returned})

    def _list_record(self, db: Database, record: Record) -> None:
        """Only its state ever changes: the rest follows from what was signed."""
        state = state_by(record.decisions)
        sql = "update record_states set state = ? where record = ?"
        if db.conn.execute(sql, [state, record.sha256]).rowcount == 0:
            self._put_record(db, record, self._awaited(record))

    def _put_record(self, db: Database, record: Record, awaited: list[dict[str, Any]]) -> None:
        row = {name: getattr(record, name) for name in OF_RECORD}
        row |= {"record": record.sha256, "state": state_by(record.decisions), "awaited": json.dumps(awaited)}
        insert(db, "record_states", row)

    def _awaited(self, record: Record) -> list[dict[str, Any]]:
        payload = jws.read(record.jws).payload
        if not waits_for_results(payload):
            return []
        content = json.loads(payload)
        procedure = self.baselines.procedures.shared(content["procedure"]["hash"])
        return awaited_results(content, procedure) if procedure else []

    def _refresh_unit(self, db: Database, unit: str) -> None:
        row = self._accepted(db, unit)
        if row is None:
            db.conn.execute("delete from unit_states where unit = ?", [unit])
        else:
            row["baseline"] = self.baselines.following(unit)
            upsert(db, "unit_states", "unit", {"unit": unit, **row})

    def _accepted(self, db: Database, unit: str) -> dict[str, Any] | None:
        sql = """select d.*, listed.awaited, back.received_at as reopened_at from decisions d
                join records r on r.sha256 = d.record
                join record_states listed on listed.record = d.record
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
            "awaited": decision["awaited"],
        }


def waits_for_results(payload: bytes) -> bool:
    """Whether a requirement was judged as pending: its result may come later.

    The payload is canonical, so that these bytes stand for nothing else.
    """
    return b'"verdict":"pending"' in payload
