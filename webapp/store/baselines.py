"""The unit as it was accepted: the values that later visits are compared with.

A baseline follows from the unit's accepted records, the oldest first. The acceptance sets it and it stays, so
that small losses add up and are seen; a later record sets anew what speaks about a part that it replaced. It
stands in the unit's row of states, and goes on from there when another record is accepted.
"""

import json
from collections.abc import Mapping
from typing import Any

from checks.entries import fits
from webapp.store.connection import Connection
from webapp.store.records import Records
from webapp.store.visits import Procedures

NONE: dict[str, Any] = {"record": None, "values": {}, "last": None}
START: dict[str, Any] = {**NONE, "records": []}
"""What is kept, before the first record: `records` are those that it was made from."""


def values_of(judgement: dict[str, Any], procedure: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Cells (docs/api.md) by name: what the record has a number for."""
    known = judgement["quantities"]
    found = {}
    for entry in procedure.get("baseline", []):
        value = known.get(entry["from"], {}).get("value")
        if isinstance(value, int | float):
            found[entry["id"]] = {"value": value, "unit": entry["unit"]}
    return found


def gone_on(
    before: Mapping[str, Any], sha256: str, content: Mapping[str, Any], procedure: Mapping[str, Any]
) -> dict[str, Any]:
    """The baseline after one more accepted record."""
    judgement = content["judgement"]
    found = values_of(judgement, procedure)
    records = [*before["records"], sha256]
    if sets_all(procedure):
        return {"record": sha256, "values": found, "last": None, "records": records}
    values = dict(before["values"])
    for name in anew(judgement, procedure):
        values.pop(name, None)
        if name in found:
            values[name] = {**found[name], "record": sha256}
    if procedure.get("sets_baseline"):
        values = {name: {**cell, "record": sha256} for name, cell in found.items()} | values
    last = {"record": sha256, "at": content["signed_at"], "values": found} if found else before["last"]
    record = before["record"] or (sha256 if values else None)
    return {"record": record, "values": values, "last": last, "records": records}


def sets_all(procedure: Mapping[str, Any]) -> bool:
    """A commissioning does, and so did a requalification while procedures could not say what is new."""
    tells = any("anew" in entry for entry in procedure.get("baseline", []))
    return bool(procedure.get("sets_baseline")) and not (procedure.get("compares") and tells)


def anew(judgement: Mapping[str, Any], procedure: Mapping[str, Any]) -> list[str]:
    """The values whose part is another one since this record."""
    known = judgement["quantities"]
    return [
        entry["id"]
        for entry in procedure.get("baseline", [])
        if entry.get("anew")
        and all(fits(one, known.get(one["quantity"], {}).get("value")) for one in entry["anew"])
    ]


class Baselines:
    def __init__(self, connection: Connection, records: Records, procedures: Procedures):
        self.connection = connection
        self.records = records
        self.procedures = procedures

    def of_unit(self, unit: str) -> dict[str, Any]:
        """The unit's baseline (docs/api.md): the record of its acceptance, the values, the last visit's.

        The record is None, and there are no values, while the unit has no such record.
        """
        sql = "select baseline from unit_states where unit = ? and baseline is not null"
        return next((told(row["baseline"]) for row in self.connection.read().query(sql, [unit])), NONE)

    def of_units(self) -> dict[str, dict[str, Any]]:
        """Those of all units that have one, by unit."""
        sql = "select unit, baseline from unit_states where baseline is not null"
        return {row["unit"]: told(row["baseline"]) for row in self.connection.read().query(sql)}

    def following(self, unit: str) -> str | None:
        """The unit's baseline as it follows from the documents, in the form in which it is kept."""
        accepted = self._accepted(unit)
        state = self._kept(unit)
        if state["records"] != list(accepted)[: len(state["records"])]:
            state = START
        for sha256 in list(accepted)[len(state["records"]) :]:
            procedure = self.procedures.shared(accepted[sha256]) or {}
            state = gone_on(state, sha256, self.records.get(sha256).content(), procedure)
        return json.dumps(state) if state["record"] else None

    def _accepted(self, unit: str) -> dict[str, str]:
        """The hash of the procedure by record; a record gives way to the accepted one that corrects it."""
        sql = """select d.record, v.procedure_hash from decisions d
                join records r on r.sha256 = d.record
                join visits v on v.id = r.visit
            where r.unit = ? and d.decision <> 'returned' and not exists (
                select 1 from records c join decisions a on a.record = c.sha256
                where c.corrects = d.record and a.decision <> 'returned')
            order by d.sequence"""
        return {row["record"]: row["procedure_hash"] for row in self.connection.read().query(sql, [unit])}

    def _kept(self, unit: str) -> dict[str, Any]:
        """What a record says never changes, so that it is read once."""
        sql = "select baseline from unit_states where unit = ? and baseline is not null"
        for row in self.connection.read().query(sql, [unit]):
            kept: dict[str, Any] = json.loads(row["baseline"])
            return kept if "records" in kept else START
        return START


def told(kept: str) -> dict[str, Any]:
    """A kept baseline without what only the store needs."""
    return NONE | {name: value for name, value in json.loads(kept).items() if name in NONE}
