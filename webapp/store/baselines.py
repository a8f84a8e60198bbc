"""The unit as it was accepted: the values that later visits are compared with.

A baseline follows from one accepted record, so it is kept under that record's identity once it is asked for.
"""

import json
from typing import Any

from webapp.store.connection import Connection
from webapp.store.records import Records
from webapp.store.visits import Procedures

NONE: dict[str, Any] = {"record": None, "values": {}}


def values_of(judgement: dict[str, Any], procedure: dict[str, Any]) -> dict[str, dict[str, Any]]:
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
        sql = """select r.sha256, v.procedure_hash, b.json from decisions d
                join records r on r.sha256 = d.record
                join visits v on v.id = r.visit
                join procedures p on p.hash = v.procedure_hash
                left join baselines b on b.record = r.sha256
            where r.unit = ? and d.decision <> 'returned' and json_extract(p.json, '$.sets_baseline')
            order by d.sequence desc limit 1"""
        row = next(self.connection.read().query(sql, [unit]), None)
        if row is None:
            return NONE
        values = json.loads(row["json"]) if row["json"] else self._keep(row["sha256"], row["procedure_hash"])
        return {"record": row["sha256"], "values": values}

    def _keep(self, record: str, procedure: str) -> dict[str, dict[str, Any]]:
        content = self.records.get(record).content()
        values = values_of(content["judgement"], self.procedures.get(procedure).content())
        with self.connection.write() as db:
            db.table("baselines").insert({"record": record, "json": json.dumps(values)}, ignore=True)
        return values
