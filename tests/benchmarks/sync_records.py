"""How fast a server takes in signed records, and how long its lists take then.

    python -m tests.benchmarks.sync_records [NUMBER]

Sends 1,000 small records (or NUMBER) of three entries, and a tenth as many whole commissionings, each of its
own unit and visit, over HTTP to a server that verifies, judges again, and stores each durably: one after the
other over one connection, then by four phones at once. One photo of 200 kB goes with every tenth.

Beside that stands the bound of the same machine in the same run, in turns of a few records: nothing but the
library's verification of the same signatures, and one durable commit of each JWS. Judging again, which the
bound leaves out, is timed as well.
"""

import hashlib
import http.client
import io
import json
import re
import sqlite3
import sys
import tempfile
import threading
import time
import urllib.parse
import urllib.request
import uuid
from collections import defaultdict
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from http.cookiejar import CookieJar
from pathlib import Path

from cheroot.wsgi import Server
from joserfc import jwk as jose_keys
from joserfc import jws as jose
from PIL import Image

from tests.benchmarks.stage import show, spread
from tests.phone import Phone
from webapp import create_app, current
from webapp.demo import seed
from webapp.passwords import hash_password
from webapp.receiving.answer import KnownProcedures
from webapp.settings import Settings
from webapp.signing import jws, verify_record
from webapp.store import Store

PASSWORD = "benchmarks need patience"
TURNS = 20
PHONES = 4


class Client:
    """One phone's connection, which stays open as a browser's does: signed in, with its cookie and token."""

    def __init__(self, url: str) -> None:
        jar = CookieJar()
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar))
        page = opener.open(f"{url}/sign-in").read().decode()
        token = re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page)
        assert token
        form = {"csrf_token": token[1], "login": "benchmark", "password": PASSWORD}
        opener.open(f"{url}/sign-in", urllib.parse.urlencode(form).encode()).read()
        csrf = json.loads(opener.open(f"{url}/api/session").read())["csrf"]
        cookies = "; ".join(f"{cookie.name}={cookie.value}" for cookie in jar)
        self.headers = {"Cookie": cookies, "X-CSRFToken": csrf}
        self.connection = http.client.HTTPConnection(urllib.parse.urlsplit(url).netloc)

    def send(self, method: str, path: str, body: bytes | None, kind: str = "application/json") -> float:
        """Milliseconds until the whole answer is there."""
        start = time.perf_counter()
        self.connection.request(method, path, body, {**self.headers, "Content-Type": kind})
        answer = self.connection.getresponse()
        text = answer.read()
        assert answer.status == 200, text
        return (time.perf_counter() - start) * 1000

    def send_record(self, text: str) -> float:
        return self.send("POST", "/api/records", json.dumps({"jws": text}).encode())

    def send_photo(self, photo: bytes | None) -> None:
        if photo:
            self.send("PUT", f"/api/photos/{hashlib.sha256(photo).hexdigest()}", photo, "image/jpeg")


def small(store: Store, phone: Phone, number: int) -> list[tuple[str, bytes | None]]:
    """The records to send, each with a photo or None; units and visits are in the store already."""
    site = store.sites.add("Weir House", "3 Mill Lane", {})
    made = []
    for count in range(number):
        visit = phone.start(store.units.add(f"Unit {count}", f"FW-{count:05}", site.id, {}))
        events = phone.entries(visit.id)
        photo = picture() if count % 10 == 0 else None
        if photo:
            content = {"sha256": hashlib.sha256(photo).hexdigest(), "type": "image/jpeg", "size": len(photo)}
            events.append(phone.event(visit.id, "test.picture", content))
        made.append((phone.signed_record(visit, events), photo))
    return made


def whole(store: Store, phone: Phone, number: int) -> list[tuple[str, bytes | None]]:
    """The demonstration's accepted commissioning, as if this phone had done it at so many units."""
    visits = [visit for visit in store.visits.all() if visit.state == "accepted"]
    visit = next(one for one in visits if one.kind == "commissioning")
    record = store.records.of_visit(visit.id)[0]
    content = record.content()
    old = [visit.id, *(event["id"] for event in content["events"])]
    text = json.dumps({**content, "signer": None, "previous": None})
    text = text.replace(record.person, phone.person.id).replace(record.device, phone.thumbprint)
    made = []
    for count in range(number):
        serial = f"WH-{count:05}"
        unit = store.units.add(f"Whole {count}", serial, content["site"]["id"], content["unit"]["plate"])
        new = {one: str(uuid.uuid4()) for one in old}
        copy = json.loads(re.sub("|".join(old), lambda found, new=new: new[found[0]], text))
        copy["unit"] |= {"id": unit.id, "name": unit.name, "serial": unit.serial}
        copy |= phone.signature(content["meaning"])
        store.visits.start(
            copy["visit"],
            unit=unit.id,
            kind=visit.kind,
            procedure=visit.procedure,
            started_at=visit.started_at,
            started_by=phone.person.id,
        )
        made.append((phone.sign(copy, jws.RECORD), None))
    return made


def picture() -> bytes:
    """Noise, which a camera's compression cannot make small: about 200 kB."""
    buffer = io.BytesIO()
    Image.effect_noise((800, 600), 80).save(buffer, "JPEG", quality=75)
    return buffer.getvalue()


class Bare:
    """The bound: what no server can do without."""

    def __init__(self, jwk: dict, folder: Path) -> None:
        self.key = jose_keys.import_key(jws.public(jwk))
        self.connection = sqlite3.connect(folder / "bare.db", isolation_level=None)
        self.connection.execute("pragma journal_mode = wal")
        self.connection.execute("pragma synchronous = full")
        self.connection.execute("create table if not exists records (jws text not null) strict")

    def verify(self, texts: list[str]) -> None:
        for text in texts:
            jose.deserialize_compact(text, self.key, registry=jws.REGISTRY)

    def commit(self, texts: list[str]) -> None:
        """One by one, durably."""
        for text in texts:
            self.connection.execute("insert into records values (?)", [text])


def judge_again(store: Store, texts: list[str]) -> None:
    """What :func:`webapp.receiving.receive_record` does before it takes the lock."""
    for text in texts:
        assert verify_record(text, store.devices.find, KnownProcedures(store)).valid


def send_at_once(clients: list[Client], texts: list[str]) -> None:
    """Phones that send at the same time, each its share."""
    shares = [texts[place :: len(clients)] for place in range(len(clients))]
    with ThreadPoolExecutor(len(clients)) as pool:
        list(pool.map(lambda client, share: [client.send_record(text) for text in share], clients, shares))


@dataclass
class Taken:
    """What some measurement took for a number of records."""

    records: int = 0
    seconds: float = 0
    processor: float = 0

    def add(self, work: Callable[[list[str]], object], texts: list[str]) -> None:
        processor, start = time.process_time(), time.perf_counter()
        work(texts)
        self.seconds += time.perf_counter() - start
        self.processor += time.process_time() - processor
        self.records += len(texts)

    def row(self, name: str, entries: float, bound: float) -> dict[str, object]:
        each = self.seconds / self.records
        return {
            "what": name,
            "ms each": 1000 * each,
            "processor ms": 1000 * self.processor / self.records,
            "records/s": 1 / each,
            "entries/s": entries / each,
            "% of the bound": 100 * bound / each,
        }


def measure(
    store: Store, clients: list[Client], bare: Bare, records: list[tuple[str, bytes | None]], entries: float
) -> tuple[list[dict[str, object]], list[float]]:
    """A row for each measurement, and the milliseconds of each record that was sent alone.

    In turns, because the machine may be busier at one time than at another. One in five goes to the four.
    """
    found: dict[str, Taken] = defaultdict(Taken)
    alone: list[float] = []
    send = partial(map, clients[0].send_record)
    size = max(1, len(records) // TURNS)
    for turn, first in enumerate(range(0, len(records), size)):
        texts = [text for text, _ in records[first : first + size]]
        for _, photo in records[first : first + size]:
            clients[0].send_photo(photo)
        found["signatures alone"].add(bare.verify, texts)
        found["durable commits alone"].add(bare.commit, texts)
        found["verified and judged again"].add(lambda texts: judge_again(store, texts), texts)
        if turn % 5 == 4:
            found["by four phones at once"].add(lambda texts: send_at_once(clients, texts), texts)
        else:
            found["sent one after the other"].add(lambda texts: alone.extend(send(texts)), texts)
    signatures, commits = found["signatures alone"], found["durable commits alone"]
    found["bound: both"] = Taken(
        len(records), signatures.seconds + commits.seconds, signatures.processor + commits.processor
    )
    bound = found["bound: both"].seconds / len(records)
    return [found[name].row(name, entries, bound) for name in ORDER], alone


ORDER = (
    "signatures alone",
    "durable commits alone",
    "bound: both",
    "verified and judged again",
    "sent one after the other",
    "by four phones at once",
)


def main(number: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        app = create_app(replace(Settings.for_tests(Path(name)), calls_per_minute=0))
        store = app.extensions[current.NAME].store
        seed(store, current.utc_now)
        person = store.people.add("benchmark", "Ilse Brook", "installer", hash_password(PASSWORD))
        phone = Phone(store, person)
        kinds = {
            "small records": small(store, phone, number),
            "whole commissionings": whole(store, phone, number // 10),
        }
        server = Server(("127.0.0.1", 0), app)
        server.prepare()
        threading.Thread(target=server.serve, daemon=True).start()
        clients = [Client(f"http://127.0.0.1:{server.bind_addr[1]}") for _ in range(PHONES)]
        bare = Bare(phone.public, Path(name))
        before = len(store.records.all())
        print("The bound commits one by one, and so does the server: one transaction for each record.")
        for kind, records in kinds.items():
            judge_again(store, [records[0][0]])  # formulas are compiled when they are first used
            entries = sum(len(events_of(text)) for text, _ in records) / len(records)
            rows, alone = measure(store, clients, bare, records, entries)
            size = sum(len(text) for text, _ in records) / len(records) / 1000
            show(f"{len(records)} {kind} of {entries:.0f} entries and {size:.0f} kB", rows)
            show("One record sent alone, ms", [spread(alone)])
        kept = len(store.records.all()) - before
        expected = sum(map(len, kinds.values()))
        assert kept == expected, f"{expected - kept} records were not accepted"
        paths = ("/api/work", "/api/session")
        lists = [{"request": path, "ms": clients[0].send("GET", path, None)} for path in paths]
        show(f"With {kept} records in the store", lists)
        server.stop()
        store.close()


def events_of(text: str) -> list[object]:
    return json.loads(jws.read(text).payload)["events"]


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
