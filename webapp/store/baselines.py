"""The unit as it was accepted: the values that later visits are compared with.

A baseline follows from one accepted record, so it is kept under that record's identity once it is asked for.
"""

import json
from collections.abc import Iterator
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
        return next((found for _, found in self._found("r.unit = ?", [unit])), NONE)

    def of_units(self) -> dict[str, dict[str, Any]]:
        """Those of all units that have one, by unit, with one query once they are kept."""
        return dict(self._found("1", []))

    def _found(self, where: str, given: list[str]) -> Iterator[tuple[str, dict[str, Any]]]:
        # The procedures are asked by themselves: a join would parse their JSON once for each record.
        # With one max() the other columns are of its row: https://www.sqlite.org/lang_select.html#bareagg
        sql = f"""select r.unit, r.sha256, v.procedure_hash, b.json, max(d.sequence) from decisions d
                join records r on r.sha256 = d.record
                join visits v on v.id = r.visit
                left join baselines b on b.record = r.sha256
            where {where} and d.decision <> 'returned' and v.procedure_hash in (
                select hash from procedures where json_extract(json, '$.sets_baseline'))
            group by r.unit"""  # noqa: S608 - no outside text in it
        for row in list(self.connection.read().query(sql, given)):
            record, kept = row["sha256"], row["json"]
            values = json.loads(kept) if kept else self._keep(record, row["procedure_hash"])
            yield row["unit"], {"record": record, "values": values}

    def _keep(self, record: str, procedure: str) -> dict[str, dict[str, Any]]:
        content = self.records.get(record).content()
        values = values_of(content["judgement"], self.procedures.get(procedure).content())
        with self.connection.write() as db:
            db.table("baselines").insert({"record": record, "json": json.dumps(values)}, ignore=True)
        return values
