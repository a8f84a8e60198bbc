"""A phone that holds what it made until the server has proved to hold it, as `static/sync` does."""

import hashlib
import io
import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

import rfc8785
from PIL import Image

from checks.engine import judge
from checks.fold import fold
from tests.faults.wires import Reply, Wire
from tests.phone import EMPTY, PROCEDURE, Phone, named, sha256
from webapp.store import Visit
from webapp.store.photo_parts import PART

LATER = {403, 408, 425, 429}


@dataclass
class Held:
    """Something made on this phone: waiting, received (the server named its hash), or refused for good."""

    content: Any
    state: str = "waiting"
    answer: Any = None


@dataclass
class Holding:
    visits: dict[str, Held] = field(default_factory=dict)
    events: dict[str, Held] = field(default_factory=dict)
    photos: dict[str, Held] = field(default_factory=dict)
    records: dict[str, Held] = field(default_factory=dict)

    def everything(self) -> list[Held]:
        return [one for kind in vars(self).values() for one in kind.values()]


class Handset(Phone):
    """What one person's phone knows and holds. ``clock_error`` is how far its clock is off."""

    def __init__(self, *args: Any, wire: Wire, **more: Any):
        super().__init__(*args, **more)
        self.wire = wire
        self.clock_error = timedelta()
        self.held = Holding()
        self.fetched: dict[str, dict[str, Any]] = {}  # events of others, by id
        self.visits: dict[str, dict[str, Any]] = {}  # as the server told
        self.previous: dict[str, str | None] = {}
        self.procedures: set[str] = set()  # by hash: what is here does not travel again

    def time(self) -> str:
        self.count += 1
        at = self.store.clock() + self.clock_error + timedelta(milliseconds=self.count)
        return at.isoformat(timespec="milliseconds").replace("+00:00", "Z")

    # Working, without any network

    def begin(self, visit: str, unit: str) -> None:
        body = {"id": visit, "unit": unit, "kind": "commissioning", "procedure": named(PROCEDURE)}
        self.held.visits[visit] = Held({**body, "started_at": self.time()})
        self.visits[visit] = {**body, "record": None, "state": "draft"}

    def known_events(self, visit: str) -> list[dict[str, Any]]:
        own = {key: one.content for key, one in self.held.events.items()}
        return [one for one in {**self.fetched, **own}.values() if one["visit"] == visit]

    def enter(self, visit: str, name: str, content: dict[str, Any] | None) -> None:
        """A new entry in the place of what this phone shows for the field."""
        known = self.known_events(visit)
        replaced = {old for one in known for old in one["replaces"]}
        heads = [one["id"] for one in known if one["field"] == name and one["id"] not in replaced]
        event = self.event(visit, name, content, replaces=sorted(heads))
        self.held.events[event["id"]] = Held(event)

    def read_off(self, visit: str, value: float) -> None:
        content = {"typed": str(value), "unit": "bar", "value": value, "instrument": None}
        self.enter(visit, "test.pressure", content)

    def photograph(self, visit: str, number: int, more: int = 0) -> None:
        """A photo with so many bytes ``more`` behind it: large ones travel in parts."""
        data = picture(f"{self.thumbprint} {number}") + bytes(more)
        name = hashlib.sha256(data).hexdigest()
        self.held.photos[name] = Held(data)
        self.enter(visit, "test.picture", {"sha256": name, "type": "image/jpeg", "size": len(data)})

    def finish(self, visit: str) -> None:
        """Enter what is missing or in conflict, and say that the step is done."""
        entries = fold(PROCEDURE, self.known_events(visit))["entries"]
        for name in ("test.pressure", "test.picture"):
            if "conflict" in entries.get(name, {}):
                self.enter(visit, name, None)
        if "test.pressure" not in entries or "conflict" in entries["test.pressure"]:
            self.read_off(visit, 6.5)
        self.enter(visit, "test.tight", {"value": "yes"})
        seen = self.judged(visit)["steps"]["test"]["basis"]
        self.enter(visit, "test#done", {"seen": seen})

    def judged(self, visit: str) -> dict[str, Any]:
        return judge(PROCEDURE, {**EMPTY, **fold(PROCEDURE, self.known_events(visit))})

    def sign_record(self, visit: str) -> None:
        """The record as this phone sees the visit; what it was last told about it may be old."""
        if self.judged(visit)["record"]["state"] != "complete":
            self.finish(visit)
        known = self.visits[visit]
        about = Visit(visit, known["unit"], known["kind"], known["procedure"], "", "", "", None, None)
        chain = {"previous": self.previous.get(known["unit"]), "corrects": known["record"]}
        content = self.record(about, self.known_events(visit), **chain)
        self.held.records[sha256(content)] = Held(content)

    # Sending and fetching; every method may raise Lost

    def send_visits(self) -> None:
        for key, held in waiting(self.held.visits):
            reply = self.post("/api/visits", held.content)
            if reply.status == 200:
                assert (reply.body["id"], reply.body["unit"]) == (key, held.content["unit"])
            self.note(held, reply)

    def send_events(self, events: list[dict[str, Any]]) -> Reply:
        """These entries, which may come twice and in any order; each is answered for by its hash."""
        reply = self.post("/api/events", {"events": events})
        if reply.status != 200:
            return reply
        for one in reply.body["received"]:
            held = self.held.events[one["id"]]
            assert one["sha256"] == sha256(held.content)
            held.state = "received"
        for one in reply.body["refused"]:
            held = self.held.events[one["id"]]
            assert held.state != "received", f"taken back: {one}"
            held.state, held.answer = "refused", one["code"]
        return reply

    def sendable_events(self) -> list[dict[str, Any]]:
        """Those whose visit has arrived: a phone sends it first."""
        return [
            held.content
            for _, held in waiting(self.held.events)
            if (own := self.held.visits.get(held.content["visit"])) is None or own.state == "received"
        ]

    def send_photos(self) -> None:
        for key, held in waiting(self.held.photos):
            if len(held.content) > PART:
                self.send_in_parts(key, held)
                continue
            reply = self.wire.call("PUT", f"/api/photos/{key}", held.content, "image/jpeg")
            assert reply.status != 200 or reply.body == {"sha256": key}
            self.note(held, reply)

    def send_in_parts(self, key: str, held: Held) -> None:
        """What is missing, the last part first: the order must not matter. The photo arrives as a whole."""
        path, size = f"/api/photos/{key}/parts", len(held.content)
        reply = self.wire.call("GET", path)
        if reply.status != 200:
            return self.note(held, reply)
        missing = reply.body["missing"]
        for number in sorted(range(-(-size // PART)) if missing is None else missing, reverse=True):
            part = held.content[number * PART : (number + 1) * PART]
            first = number * PART
            span = {"Content-Range": f"bytes {first}-{first + len(part) - 1}/{size}"}
            reply = self.wire.call("PUT", path, part, "image/jpeg", span)
            if reply.status != 200:
                return self.note(held, reply)
        if reply.body["complete"]:
            assert reply.body["sha256"] == key
            self.note(held, reply)
        return None

    def send_records(self) -> None:
        """Together where there are several, then what was not taken alone."""
        ready = self.sendable_records()
        if len(ready) > 1:
            self.send_together(ready)
        self.send_one_by_one()

    def sendable_records(self) -> list[tuple[str, Held]]:
        visits = self.held.visits
        return [
            (key, held)
            for key, held in waiting(self.held.records)
            if (own := visits.get(held.content["visit"])) is None or own.state == "received"
        ]

    def send_together(self, records: list[tuple[str, Held]], bad: Sequence[Any] = ()) -> Reply:
        """In one call, each signed anew; ``bad`` stand between them and are answered in their places."""
        texts = [self.sign(held.content, "firstwater-record+jws") for _, held in records]
        mixed = [*({"jws": text} for text in texts[:1]), *bad, *({"jws": text} for text in texts[1:])]
        reply = self.post("/api/records/batch", {"records": mixed})
        if reply.status == 200:
            answers = reply.body["answers"]
            assert len(answers) == len(mixed)
            first = len(texts[:1])
            ours = [*answers[:first], *answers[first + len(bad) :]]
            for (key, held), answer in zip(records, ours, strict=True):
                if answer["state"] != "failed":  # the database broke off in its middle
                    assert answer["sha256"] == key
                    self.visits[held.content["visit"]]["state"] = answer["state"]
                    held.state, held.answer = "received", answer
        return reply

    def send_one_by_one(self) -> None:
        """Each signed anew: the signature is another one, the record the same."""
        for key, held in self.sendable_records():
            if held.state == "waiting":
                text = self.sign(held.content, "firstwater-record+jws")
                reply = self.post("/api/records", {"jws": text})
                assert reply.status != 200 or reply.body["sha256"] == key
                if reply.status == 200:
                    self.visits[held.content["visit"]]["state"] = reply.body["state"]
                self.note(held, reply)

    def fetch(self) -> None:
        reply = self.wire.call("GET", f"/api/work?have={','.join(self.procedures)}")
        if reply.status != 200:
            return
        self.procedures |= {one["hash"] for one in reply.body["procedures"]}
        self.visits |= {one["id"]: one for one in reply.body["visits"]}
        self.previous = {one["id"]: one["previous"] for one in reply.body["units"]}
        for visit in reply.body["visits"]:
            if visit["state"] not in {"draft", "returned"}:
                continue
            events = self.wire.call("GET", f"/api/visits/{visit['id']}/events?after=0")
            if events.status == 200:
                self.fetched |= {one["id"]: one for one in events.body["events"]}

    def send(self) -> None:
        self.send_visits()
        if events := self.sendable_events():
            self.send_events(events)
        self.send_photos()
        self.send_records()

    def sync(self) -> None:
        self.send()
        self.fetch()

    def post(self, path: str, body: Any) -> Reply:
        return self.wire.call("POST", path, json.dumps(body).encode())

    def note(self, held: Held, reply: Reply) -> None:
        """Received when the server says so; an answer to come back later changes nothing."""
        if reply.status == 200:
            held.state, held.answer = "received", reply.body
        elif 400 <= reply.status < 500 and reply.status not in LATER | {401} and reply.code != "csrf":
            held.state, held.answer = "refused", reply.code


def waiting(kind: dict[str, Held]) -> list[tuple[str, Held]]:
    return [(key, held) for key, held in kind.items() if held.state == "waiting"]


def small_jpeg() -> bytes:
    buffer = io.BytesIO()
    Image.new("RGB", (8, 8), "teal").save(buffer, "JPEG")
    return buffer.getvalue()


JPEG = small_jpeg()


def picture(text: str) -> bytes:
    """A photo like no other: the text stands in a comment segment (ITU-T T.81 B.2.4.5)."""
    comment = text.encode()
    return JPEG[:2] + b"\xff\xfe" + (len(comment) + 2).to_bytes(2, "big") + comment + JPEG[2:]


def canonical(content: Any) -> bytes:
    return rfc8785.dumps(content)
