"""The unit as it was accepted: the values that later visits are compared with.

A baseline follows from one accepted record. It stands in the unit's row of states, and is made anew with it.
"""

import json
from collections.abc import Mapping
from typing import Any

from webapp.store.connection import Connection
from webapp.store.records import Records
from webapp.store.visits import Procedures

NONE: dict[str, Any] = {"record": None, "values": {}}


def values_of(judgement: dict[str, Any], procedure: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Cells (docs/api.md) by name: what the record has a number for."""
    known = judgement["quantities"]
    found = {}
    for entry in procedure.get("baseline", []):
        value = known.get(entry["from"], {}).get("value")
        if isinstance(value, int | float):
            found[entry["id"]] = {"value": value, "unit": entry["unit"]}
    return found


class Baselines:
    def __init__(self, connection: Connection, records: Records, procedures: Procedures):
        self.connection = connection
        self.records = records
        self.procedures = procedures

    def of_unit(self, unit: str) -> dict[str, Any]:
        """``{"record": SHA-256, "values": cells}`` of the last accepted record that sets a baseline.

        The record is None, and there are no values, while the unit has no such record.
        """
        sql = "select baseline from unit_states where unit = ? and baseline is not null"
        return next((json.loads(row["baseline"]) for row in self.connection.read().query(sql, [unit])), NONE)

    def of_units(self) -> dict[str, dict[str, Any]]:
        """Those of all units that have one, by unit."""
        sql = "select unit, baseline from unit_states where baseline is not null"
        return {row["unit"]: json.loads(row["baseline"]) for row in self.connection.read().query(sql)}

    def following(self, unit: str) -> str | None:
        """The unit's baseline as it follows from the documents, in the form in which it is kept."""
        sql = """select d.record, v.procedure_hash from decisions d
                join records r on r.sha256 = d.record
                join visits v on v.id = r.visit
            where r.unit = ? and d.decision <> 'returned' order by d.sequence desc"""
        for row in self.connection.read().query(sql, [unit]):
            procedure = self.procedures.shared(row["procedure_hash"]) or {}
            if procedure.get("sets_baseline"):
                return self._kept(unit, row["record"], procedure)
        return None

    def _kept(self, unit: str, record: str, procedure: Mapping[str, Any]) -> str:
        """What a record says never changes, so that it is read once."""
        sql = "select baseline from unit_states where unit = ? and json_extract(baseline, '$.record') = ?"
        for row in self.connection.read().query(sql, [unit, record]):
            return row["baseline"]
        values = values_of(self.records.get(record).content()["judgement"], procedure)
        return json.dumps({"record": record, "values": values})
