"""A visit of the scenario: its entries, its record, and the supervisor's decision if there is one.

Everything goes the way that a phone's data goes: received, verified, judged again. A scenario that would not
be accepted stops the seeding.
"""

import io
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from typing import Any, Protocol

from PIL import Image, ImageDraw

from checks import procedure as procedures
from checks.formulas_hash import FORMULAS_HASH
from checks.units import read_typed
from webapp.receiving import receive_decision, receive_events, receive_record
from webapp.signing import jws
from webapp.signing.canonical import digest
from webapp.signing.judged_again import judgement_of
from webapp.store import Person, Store
from webapp.store.table import written

BUILD = "demo"
SECONDS_BETWEEN_ENTRIES = 12
SERVICE_MONTHS = 12

Event = dict[str, Any]
KeyOf = Callable[[str, str], str]


class Clock(Protocol):
    at: datetime


class Signer:
    """A person with a key that is made here and forgotten after the seeding."""

    def __init__(self, store: Store, person: Person):
        self.person = person
        self.key = jws.new_key()
        self.thumbprint = jws.thumbprint(self.key)
        store.devices.enrol(self.thumbprint, jws.public(self.key), person.id, "Demonstration phone")

    @property
    def named(self) -> dict[str, str]:
        return {"id": self.person.id, "name": self.person.name, "role": self.person.role}


def commission(store: Store, visit: dict[str, Any], started: datetime, clock: Clock, key_of: KeyOf) -> None:
    """Receive the visit's entries, its record and the decision, each at its own time."""
    clock.at = started - timedelta(days=1)
    installer = Signer(store, store.people.get(key_of("person", visit["installer"])))
    diary = Diary(store, visit, started, installer, key_of)
    clock.at = started + timedelta(minutes=visit["signed_after"])
    diary.start()
    events = diary.write()
    answer = receive_events(store, events, installer.person)
    must(not answer["refused"], answer["refused"])
    if visit.get("in_work"):
        return
    signed = record_of(diary, visit, events, clock.at)
    kept = receive_record(store, jws.sign(signed, installer.key, jws.RECORD), installer.person)
    must(kept.state == "signed", kept.reasons)
    if "decision" in visit:
        decide(store, visit, kept.sha256, started, clock, key_of)


def decide(
    store: Store, visit: dict[str, Any], record: str, started: datetime, clock: Clock, key_of: KeyOf
) -> None:
    supervisor = Signer(store, store.people.get(key_of("person", "supervisor")))
    clock.at = started + timedelta(minutes=visit["decided_after"])
    decided = decision_of(visit, record, supervisor, clock.at)
    text = jws.sign(decided, supervisor.key, jws.DECISION)
    final = receive_decision(store, text, supervisor.person, SERVICE_MONTHS)
    must(final.state == visit["decision"]["decision"], final.reasons)


def must(holds: bool, details: object) -> None:
    if not holds:
        raise ValueError(f"The scenario was not accepted: {details}")


class Diary:
    """Turns the scenario's lines into the events that a phone would have made."""

    def __init__(self, store: Store, visit: dict[str, Any], started: datetime, signer: Signer, key_of: KeyOf):
        self.store, self.visit, self.started, self.signer, self.key_of = store, visit, started, signer, key_of
        self.document = store.procedures.get(procedures.own_hash(visit["procedure"])).content()
        self.id = key_of("visit", visit["key"])
        self.unit = store.units.get(key_of("unit", visit["unit"]))
        self.events: list[Event] = []
        self.entries = {
            f"{step['id']}.{entry['id']}": entry
            for step in self.document["steps"]
            for entry in step["entries"]
        }

    @property
    def procedure(self) -> dict[str, Any]:
        name = self.document["id"]
        return {"id": name, "version": self.document["version"], "hash": procedures.own_hash(name)}

    def start(self) -> None:
        self.store.visits.start(
            self.id,
            unit=self.unit.id,
            kind=self.document["id"],
            procedure=self.procedure,
            started_at=written(self.started),
            started_by=self.signer.person.id,
        )

    def write(self) -> list[Event]:
        """Every entry in its order; a step is said to be done when its last line is written.

        What each statement rested on is taken from one judgement at the end: no later step changes it.
        """
        lines = self.visit["entries"]
        for place, line in enumerate(lines):
            self.write_line(line)
            is_last = all(other["step"] != line["step"] for other in lines[place + 1 :])
            if is_last and not line.get("unfinished"):
                self.say_done(line["step"])
        judged = judgement_of(self.contents(self.events), self.document)["steps"]
        for event in self.events:
            step, _, said = event["field"].partition("#")
            if said == "done":
                event["content"] = {"seen": judged[step]["basis"]}
        return self.events

    def write_line(self, line: dict[str, Any]) -> None:
        at = self.started + timedelta(minutes=line["at"])
        for name, value in line["values"].items():
            field = f"{line['step']}.{name}"
            for one in value if isinstance(value, list) else [value]:
                at += timedelta(seconds=SECONDS_BETWEEN_ENTRIES)
                self.write_value(field, one, at, line.get("reason"))
        for note in self.visit.get("notes", []):
            if note["step"] == line["step"]:
                moment = self.started + timedelta(minutes=note["at"])
                self.add(f"{line['step']}#note", {"value": note["text"]}, moment)
        for defect in self.visit.get("defects", []):
            if defect["step"] == line["step"]:
                self.write_defect(defect)

    def write_defect(self, defect: dict[str, Any]) -> None:
        due = (self.started + timedelta(days=defect["due_in_days"])).date().isoformat()
        content = {name: defect[name] for name in ("text", "severity", "owner")}
        moment = self.started + timedelta(minutes=defect["at"])
        event = self.add(
            f"{defect['step']}#defect", content | {"due": due, "photo": None, "closed": None}, moment
        )
        event["item"] = event["id"]

    def write_value(self, field: str, value: Any, at: datetime, reason: dict[str, str] | None) -> None:
        entry = self.entries[field]
        if entry["kind"] == "series":
            moment = self.started + timedelta(minutes=value["minute"]) if "minute" in value else at
            event = self.add(field, self.measured(entry, value), moment)
            event["item"] = event["id"]
            return
        before = [one["id"] for one in self.events if one["field"] == field]
        self.add(field, self.content(entry, value), at, before[-1:], reason)

    def content(self, entry: dict[str, Any], value: Any) -> dict[str, Any]:
        if entry["kind"] == "reading":
            return self.measured(entry, value)
        if entry["kind"] == "instant":
            return {"value": written(self.started + timedelta(minutes=value["minute"]))}
        if entry["kind"] == "date":
            return {"value": (self.started + timedelta(minutes=value["minute"])).date().isoformat()}
        if entry["kind"] == "photo":
            return keep_photo(self.store, value["drawn"], self.signer.person)
        if entry["kind"] == "drawing":
            return {**value, "means": entry["meaning"], "stated": False}
        return {"value": value}

    def measured(self, entry: dict[str, Any], value: dict[str, Any] | str | float) -> dict[str, Any]:
        """A reading; by the instrument whose key is the kind asked for, unless its line names another."""
        value = value if isinstance(value, dict) else {"typed": str(value)}
        read = read_typed(value["typed"], entry["unit"], entry["units"])
        used = value.get("instrument", entry["instrument"])
        instrument = self.key_of("instrument", used) if used else None
        return {"typed": value["typed"], "unit": read.unit, "value": read.value, "instrument": instrument}

    def say_done(self, step: str) -> None:
        at = datetime.fromisoformat(self.events[-1]["at"]) + timedelta(seconds=SECONDS_BETWEEN_ENTRIES)
        self.add(f"{step}#done", {"seen": {}}, at)

    def add(
        self,
        field: str,
        content: dict[str, Any],
        at: datetime,
        replaces: list[str] | None = None,
        reason: dict[str, str] | None = None,
    ) -> Event:
        moment = written(at)
        event = {
            "id": self.key_of("event", f"{self.id}/{len(self.events)}"),
            "visit": self.id,
            "field": field,
            "item": None,
            "content": content,
            "replaces": replaces or [],
            "reason": reason,
            "by": self.signer.person.id,
            "device": self.signer.thumbprint,
            "at": moment,
            "offset": self.visit["offset"],
            "hlc": f"{moment}-{len(self.events):04x}-{self.signer.thumbprint[:8]}",
            "app": BUILD,
        }
        self.events.append(event)
        return event

    def contents(self, events: list[Event]) -> dict[str, Any]:
        """The parts of a record that the judging needs."""
        site = self.store.sites.get(self.unit.site)
        unit = {name: getattr(self.unit, name) for name in ("id", "name", "serial", "plate")}
        if self.document["compares"]:
            kept = self.store.baselines.of_unit(self.unit.id)
            unit["baseline"] = {name: kept[name] for name in ("record", "values")}
        return {
            "unit": unit,
            "site": {name: getattr(site, name) for name in ("id", "name", "values")},
            "instruments": {key: self.store.instruments.get(key).as_json() for key in used_in(events)},
            "events": events,
        }


def used_in(events: list[Event]) -> Iterator[str]:
    named = (event["content"].get("instrument") for event in events)
    yield from dict.fromkeys(one for one in named if one)


def record_of(diary: Diary, visit: dict[str, Any], events: list[Event], at: datetime) -> dict[str, Any]:
    contents = diary.contents(events)
    return {
        "type": "firstwater-record",
        "schema": 1,
        "visit": diary.id,
        "kind": diary.document["id"],
        **contents,
        "procedure": diary.procedure,
        "formulas": FORMULAS_HASH,
        "judgement": judgement_of(contents, diary.document),
        "previous": diary.store.units.get(diary.unit.id).previous,
        "corrects": None,
        "signer": diary.signer.named,
        "meaning": visit["meaning"],
        "signed_at": written(at),
        "offset": visit["offset"],
        "device": diary.signer.thumbprint,
        "app": BUILD,
    }


def decision_of(visit: dict[str, Any], record: str, signer: Signer, at: datetime) -> dict[str, Any]:
    return {
        "type": "firstwater-decision",
        "schema": 1,
        "record": record,
        **visit["decision"],
        "signer": signer.named,
        "signed_at": written(at),
        "offset": visit["offset"],
        "device": signer.thumbprint,
    }


def keep_photo(store: Store, what: str, person: Person) -> dict[str, Any]:
    """A drawing in the place of a photo: it says itself that it is one."""
    picture = Image.new("RGB", (960, 720), "#dfe8ea")
    pen = ImageDraw.Draw(picture)
    pen.rectangle((420, 80, 540, 640), fill="#b7c4c8", outline="#43555d", width=6)
    pen.rectangle((540, 300, 760, 380), fill="#b7c4c8", outline="#43555d", width=6)
    pen.ellipse((380, 220, 580, 440), fill="#93a7ad", outline="#12232b", width=6)
    pen.text((40, 660), f"Drawing for the demonstration: {what}", fill="#12232b", font_size=28)
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=80)
    data = file.getvalue()
    store.photos.keep(digest(data), data, person.id)
    return {"sha256": digest(data), "type": "image/jpeg", "size": len(data)}
