"""How fast a server takes in signed records, and how long its lists take then.

    python -m tests.benchmarks.sync_records [NUMBER]

Sends 1,000 small records (or NUMBER) of three entries, and a tenth as many whole commissionings, each of its
own unit and visit, over HTTP to `firstwater serve`, which verifies, judges again, and stores each durably: by
one phone and by four at once, each in a call of its own and many in a call. One photo of 200 kB goes with
every tenth.

Beside that stands the bound of the same machine in the same run, in turns of a few records: nothing but the
library's verification of the same signatures, and one durable commit of each JWS. Judging again, which the
bound leaves out, is timed as well, by one process.
"""

import hashlib
import http.client
import io
import json
import os
import re
import socket
import sqlite3
import subprocess
import sys
import tempfile
import time
import urllib.parse
import urllib.request
import uuid
from collections import defaultdict
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from dataclasses import dataclass
from http.cookiejar import CookieJar
from pathlib import Path

from joserfc import jwk as jose_keys
from joserfc import jws as jose
from PIL import Image

from tests.benchmarks.stage import show, spread
from tests.phone import Phone
from webapp import current
from webapp.demo import seed
from webapp.passwords import hash_password
from webapp.receiving.examined import KnownProcedures
from webapp.signing import jws, verify_record
from webapp.store import Store

PASSWORD = "benchmarks need patience"
TURNS = 12
PHONES = 4
TOGETHER = 50  # records in one call
CHARACTERS = 6_000_000  # in one call


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

    def send_together(self, texts: list[str]) -> None:
        """In as few calls as the limits allow; each record has to be accepted."""
        while texts:
            size, share = 0, 0
            while share < min(len(texts), TOGETHER) and (size := size + len(texts[share])) <= CHARACTERS:
                share += 1
            body = {"records": [{"jws": text} for text in texts[:share]]}
            self.send("POST", "/api/records/batch", json.dumps(body).encode())
            texts = texts[share:]

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


def whole(store: Store, phone: Phone, number: int, name: str = "WH") -> list[tuple[str, bytes | None]]:
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
        serial = f"{name}-{count:05}"
        unit = store.units.add(f"Whole {serial}", serial, content["site"]["id"], content["unit"]["plate"])
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
    """What is done before the lock is taken, in one process."""
    for text in texts:
        assert verify_record(text, store.devices.find, KnownProcedures(store.procedures)).valid


def at_once(clients: list[Client], texts: list[str], send: Callable[[Client, list[str]], object]) -> None:
    """Phones that send at the same time, each its share."""
    shares = [texts[place :: len(clients)] for place in range(len(clients))]
    with ThreadPoolExecutor(len(clients)) as pool:
        list(pool.map(send, clients, shares))


def processor_of(process: int) -> float:
    """Seconds of the processor that a process and its children have used, as Linux counts them."""
    try:
        seconds = sum(map(int, Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[11:13]))
        children = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    except OSError:  # ended meanwhile, or another system
        return 0
    return seconds / os.sysconf("SC_CLK_TCK") + sum(processor_of(int(child)) for child in children)


@contextmanager
def serving(database: Path) -> Iterator[tuple[str, int]]:
    """Address and process of `firstwater serve` over a database, with no limits on calls."""
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-c", "from webapp.commands import main; main()", "serve", "--port", str(port)]
    variables = {"FIRSTWATER_DATABASE": str(database), "FIRSTWATER_CALLS_PER_MINUTE": "0"}
    server = subprocess.Popen(
        command, env={**os.environ, **variables}, stdout=subprocess.PIPE, text=True, bufsize=1
    )
    assert server.stdout
    assert "Firstwater is at" in server.stdout.readline()
    try:
        yield f"http://127.0.0.1:{port}", server.pid
    finally:
        server.terminate()
        server.wait()


@dataclass
class Taken:
    """What some measurement took for a number of records."""

    records: int = 0
    seconds: float = 0
    processor: float = 0

    def add(self, work: Callable[[list[str]], object], texts: list[str], process: int = 0) -> None:
        """``process`` is who does the work, where it is not this one."""
        used = (lambda: processor_of(process)) if process else time.process_time
        processor, start = used(), time.perf_counter()
        work(texts)
        self.seconds += time.perf_counter() - start
        self.processor += used() - processor
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
    store: Store,
    clients: list[Client],
    server: int,
    bare: Bare,
    records: list[tuple[str, bytes | None]],
    entries: float,
) -> tuple[list[dict[str, object]], list[float]]:
    """A row for each measurement, and the milliseconds of each record that was sent alone.

    In turns, because the machine may be busier at one time than at another; each turn is sent in another way.
    """
    found: dict[str, Taken] = defaultdict(Taken)
    alone: list[float] = []
    ways: dict[str, Callable[[list[str]], object]] = {
        ONE: lambda texts: alone.extend(map(clients[0].send_record, texts)),
        FOUR: lambda texts: at_once(clients, texts, lambda one, share: list(map(one.send_record, share))),
        MANY: lambda texts: clients[0].send_together(texts),
        FOUR_MANY: lambda texts: at_once(clients, texts, Client.send_together),
    }
    size = max(1, len(records) // TURNS)
    for turn, first in enumerate(range(0, len(records), size)):
        texts = [text for text, _ in records[first : first + size]]
        for _, photo in records[first : first + size]:
            clients[0].send_photo(photo)
        found["signatures alone"].add(bare.verify, texts)
        found["durable commits alone"].add(bare.commit, texts)
        found["verified and judged again"].add(lambda texts: judge_again(store, texts), texts)
        way = list(ways)[turn % len(ways)]
        found[way].add(ways[way], texts, server)
    signatures, commits = found["signatures alone"], found["durable commits alone"]
    found["bound: both"] = Taken(
        len(records), signatures.seconds + commits.seconds, signatures.processor + commits.processor
    )
    bound = found["bound: both"].seconds / len(records)
    return [found[name].row(name, entries, bound) for name in ORDER if name in found], alone


ONE, FOUR = "one phone, one in a call", "four phones, one in a call"
MANY, FOUR_MANY = "one phone, many in a call", "four phones, many in a call"
ORDER = (
    "signatures alone",
    "durable commits alone",
    "bound: both",
    "verified and judged again",
    ONE,
    FOUR,
    MANY,
    FOUR_MANY,
)


def main(number: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        database = Path(name) / "test.db"
        store = Store(database, current.utc_now)
        seed(store, current.utc_now)
        person = store.people.add("benchmark", "Ilse Brook", "installer", hash_password(PASSWORD))
        phone = Phone(store, person)
        kinds = {
            "small records": small(store, phone, number),
            "whole commissionings": whole(store, phone, number // 10),
        }
        before = len(store.records.all())
        print("The bound commits one by one, a call of many records once or a few times before its answer.")
        with serving(database) as (url, server):
            clients = [Client(url) for _ in range(PHONES)]
            bare = Bare(phone.public, Path(name))
            warm_up(store, clients, phone)
            for kind, records in kinds.items():
                judge_again(store, [records[0][0]])  # formulas are compiled when they are first used
                entries = sum(len(events_of(text)) for text, _ in records) / len(records)
                rows, alone = measure(store, clients, server, bare, records, entries)
                size = sum(len(text) for text, _ in records) / len(records) / 1000
                show(f"{len(records)} {kind} of {entries:.0f} entries and {size:.0f} kB", rows)
                show("One record sent alone, ms", [spread(alone)])
            kept = len(store.records.all()) - before
            expected = WARMING + sum(map(len, kinds.values()))
            assert kept == expected, f"{expected - kept} records were not accepted"
            paths = ("/api/work", "/api/session")
            lists = [{"request": path, "ms": clients[0].send("GET", path, None)} for path in paths]
            show(f"With {kept} records in the store", lists)
        store.close()


WARMING = 8


def warm_up(store: Store, clients: list[Client], phone: Phone) -> None:
    """A server compiles the formulas while it starts; each of its processes has judged once afterwards."""
    for text, _ in whole(store, phone, WARMING, "WU"):
        clients[0].send_record(text)


def events_of(text: str) -> list[object]:
    return json.loads(jws.read(text).payload)["events"]


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
