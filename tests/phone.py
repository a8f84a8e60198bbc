"""A phone as the server meets it: entries, records, decisions, signed with joserfc, not by our own code."""

import hashlib
import uuid
from datetime import timedelta
from typing import Any

import rfc8785
from joserfc import jwk, jws

from checks.engine import judge
from checks.fold import fold
from checks.formulas_hash import FORMULAS_HASH
from checks.procedure import plain, procedure_hash
from checks.procedure.load import parse
from webapp.store import Device, Person, Store, Unit, Visit
from webapp.store.table import written

# The smallest procedure with a reading, a photo and a verdict.
PROCEDURE = plain(
    parse(
        """
id = "trial"
version = 1
title = "Trial"
sets_baseline = true
site = []
cautions = {}

[[plate]]
id = "maximum_pressure"
kind = "reading"
label = "Maximum pressure"
unit = "bar"
units = ["bar"]
minimum = 0
maximum = 100
required = false
source = "The data plate"

[[baseline]]
id = "pressure"
kind = "reading"
label = "Pressure as accepted"
unit = "bar"
units = ["bar"]
minimum = 0
maximum = 100
required = false
from = "test.pressure"
source = "The accepted record"

[[stages]]
id = "only"
title = "Only stage"
steps = ["test"]

[[steps]]
id = "test"
title = "Test"
why = "To have something to judge."

[[steps.entries]]
id = "pressure"
kind = "reading"
label = "Pressure"
unit = "bar"
units = ["bar"]
minimum = 0
maximum = 100

[[steps.entries]]
id = "tight"
kind = "yes_no"
label = "No drop in ten minutes"

[[steps.entries]]
id = "picture"
kind = "photo"
label = "Picture"
required = false

[[steps.derived]]
id = "limit"
label = "Limit"
unit = "bar"
inputs = { value = { value = 10 } }

[[steps.rules]]
id = "tight"
kind = "answer"
label = "Tight"
entry = "test.tight"
is = ["yes"]
source = "invented for tests"
""",
        "trial.toml",
    )
)


def sha256(value: Any) -> str:
    return hashlib.sha256(rfc8785.dumps(value)).hexdigest()


class Phone:
    """A person's phone with a key that the server knows."""

    def __init__(self, store: Store, person: Person, name: str = "trial phone"):
        self.store = store
        self.person = person
        self.key = jwk.generate_key("EC", "P-256")
        self.public = {name: self.key.as_dict(private=False)[name] for name in ("kty", "crv", "x", "y")}
        self.thumbprint = self.key.thumbprint()
        self.device: Device = store.devices.enrol(self.thumbprint, self.public, person.id, name)
        self.count = 0

    def time(self) -> str:
        """A little later at each call, as a phone's clock would be."""
        self.count += 1
        return written(self.store.clock() - timedelta(minutes=5) + timedelta(milliseconds=self.count))

    def sign(self, payload: Any, typ: str) -> str:
        header = {"alg": "ES256", "kid": self.thumbprint, "typ": typ}
        return jws.serialize_compact(header, rfc8785.dumps(payload), self.key, algorithms=["ES256"])

    def start(self, unit: Unit, visit: str | None = None) -> Visit:
        """A visit to ``unit`` by the trial procedure."""
        self.store.procedures.keep(PROCEDURE)
        return self.store.visits.start(
            visit or str(uuid.uuid4()),
            unit=unit.id,
            kind="commissioning",
            procedure=named(PROCEDURE),
            started_at=self.time(),
            started_by=self.person.id,
        )

    def event(self, visit: str, field: str, content: dict | None, **changes: Any) -> dict[str, Any]:
        at = self.time()
        event = {"id": str(uuid.uuid4()), "visit": visit, "field": field, "item": None, "content": content}
        event |= {"replaces": [], "reason": None, "by": self.person.id, "device": self.thumbprint, "at": at}
        event |= {"offset": 60, "hlc": f"{at}-0000-{self.thumbprint[:8]}", "app": "trial"}
        return event | changes

    def reading(self, visit: str, value: float = 6.5, **changes: Any) -> dict[str, Any]:
        content = {"typed": str(value), "unit": "bar", "value": value, "instrument": None}
        return self.event(visit, "test.pressure", content, **changes)

    def done(self, visit: str, **changes: Any) -> dict[str, Any]:
        return self.event(visit, "test#done", {"seen": {}}, **changes)

    def entries(self, visit: str, tight: str = "yes") -> list[dict[str, Any]]:
        """Everything that makes a record complete, the done statement with the basis that was seen."""
        entered = [self.reading(visit), self.event(visit, "test.tight", {"value": tight})]
        seen = judge(PROCEDURE, {**EMPTY, **fold(PROCEDURE, entered)})["steps"]["test"]["basis"]
        return [*entered, self.event(visit, "test#done", {"seen": seen})]

    def record(self, visit: Visit, events: list[dict], **changes: Any) -> dict[str, Any]:
        """The payload of a record; ``changes`` replace members of it."""
        unit = self.store.units.get(visit.unit)
        site = self.store.sites.get(unit.site)
        content = {"type": "firstwater-record", "schema": 1, "visit": visit.id, "kind": visit.kind}
        content["unit"] = {"id": unit.id, "name": unit.name, "serial": unit.serial, "plate": unit.plate}
        content["site"] = {"id": site.id, "name": site.name, "values": site.values}
        content |= {"procedure": visit.procedure, "instruments": {}, "events": events}
        case = {**EMPTY, "plate": unit.plate, "site": site.values, **fold(PROCEDURE, events)}
        content |= {"judgement": judge(PROCEDURE, case), "previous": unit.previous, "corrects": visit.record}
        content |= self.signature("I carried out these checks and the readings are mine.") | {"app": "trial"}
        content["formulas"] = FORMULAS_HASH
        return content | changes

    def decision(
        self, record: str, decision: str = "accepted", reasons: str = "", **changes: Any
    ) -> dict[str, Any]:
        content = {"type": "firstwater-decision", "schema": 1, "record": record, "decision": decision}
        content |= {"reasons": reasons} | self.signature("I reviewed this record.")
        return content | changes

    def signature(self, meaning: str) -> dict[str, Any]:
        signer = {name: getattr(self.person, name) for name in ("id", "name", "role")}
        at = {"signed_at": self.time(), "offset": 60, "device": self.thumbprint}
        return {"signer": signer, "meaning": meaning, **at}

    def signed_record(self, visit: Visit, events: list[dict] | None = None, **changes: Any) -> str:
        """The JWS of a record, with complete entries unless others are given."""
        content = self.record(visit, self.entries(visit.id) if events is None else events, **changes)
        return self.sign(content, "firstwater-record+jws")

    def signed_decision(
        self, record: str, decision: str = "accepted", reasons: str = "", **changes: Any
    ) -> str:
        return self.sign(self.decision(record, decision, reasons, **changes), "firstwater-decision+jws")


EMPTY: dict[str, Any] = {"plate": {}, "site": {}, "instruments": {}, "entries": {}, "steps": {}}


def named(procedure: dict[str, Any]) -> dict[str, Any]:
    """A procedure as visits and records name it."""
    return {"id": procedure["id"], "version": procedure["version"], "hash": procedure_hash(procedure)}
