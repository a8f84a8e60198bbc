"""How fast a server takes in signed records, and how long its lists take then.

    python -m tests.benchmarks.sync_records [NUMBER]

Sends 1,000 records (or NUMBER), each of its own unit and visit, one after the other over HTTP to a server
that verifies, judges again, and stores each durably. One photo of 200 kB goes with every tenth.

Beside that stands the bound of the same machine in the same run: nothing but the library's verification of
the same signatures, and one durable commit of each JWS. Judging alone, which the bound leaves out, is timed
as well.
"""

import hashlib
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
from contextlib import closing
from dataclasses import replace
from http.cookiejar import CookieJar
from pathlib import Path

from cheroot.wsgi import Server
from joserfc import jwk as jose_keys
from joserfc import jws as jose
from PIL import Image

from tests.benchmarks.stage import show, spread
from tests.phone import Phone
from webapp import create_app, current
from webapp.passwords import hash_password
from webapp.receiving.answer import KnownProcedures
from webapp.settings import Settings
from webapp.signing import jws, verify_record
from webapp.store import Store

PASSWORD = "benchmarks need patience"


class Client:
    """One phone's connection: signed in, with its cookie and token."""

    def __init__(self, url: str) -> None:
        self.url = url
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        page = self.opener.open(f"{url}/sign-in").read().decode()
        token = re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page)
        assert token
        form = {"csrf_token": token[1], "login": "installer", "password": PASSWORD}
        self.opener.open(f"{url}/sign-in", urllib.parse.urlencode(form).encode()).read()
        self.csrf = json.loads(self.opener.open(f"{url}/api/session").read())["csrf"]

    def send(self, method: str, path: str, body: bytes | None, kind: str = "application/json") -> float:
        """Milliseconds until the whole answer is there."""
        headers = {"Content-Type": kind, "X-CSRFToken": self.csrf}
        request = urllib.request.Request(f"{self.url}{path}", body, headers, method=method)
        start = time.perf_counter()
        with self.opener.open(request) as answer:
            answer.read()
        return (time.perf_counter() - start) * 1000


def prepare(store: Store, number: int) -> list[tuple[str, bytes | None]]:
    """The records to send, each with a photo or None; units and visits are in the store already."""
    person = store.people.add("installer", "Ilse Brook", "installer", hash_password(PASSWORD))
    site = store.sites.add("Weir House", "3 Mill Lane", {})
    phone = Phone(store, person)
    made = []
    for count in range(number):
        unit = store.units.add(f"Unit {count}", f"FW-{count:05}", site.id, {})
        visit = phone.start(unit)
        events = phone.entries(visit.id)
        photo = picture() if count % 10 == 0 else None
        if photo:
            content = {"sha256": hashlib.sha256(photo).hexdigest(), "type": "image/jpeg", "size": len(photo)}
            events.append(phone.event(visit.id, "test.picture", content))
        made.append((phone.signed_record(visit, events), photo))
    return made


def picture() -> bytes:
    """Noise, which a camera's compression cannot make small: about 200 kB."""
    buffer = io.BytesIO()
    Image.effect_noise((800, 600), 80).save(buffer, "JPEG", quality=75)
    return buffer.getvalue()


def bare(texts: list[str], jwk: dict, folder: Path) -> tuple[float, float]:
    """Seconds to verify all signatures, and to commit all texts one by one to SQLite in WAL, durably."""
    key = jose_keys.import_key(jws.public(jwk))
    start = time.perf_counter()
    for text in texts:
        jose.deserialize_compact(text, key, registry=jws.REGISTRY)
    verified = time.perf_counter()
    with closing(sqlite3.connect(folder / "bare.db", isolation_level=None)) as connection:
        connection.execute("pragma journal_mode = wal")
        connection.execute("pragma synchronous = full")
        connection.execute("create table records (jws text not null) strict")
        begun = time.perf_counter()
        for text in texts:
            connection.execute("insert into records values (?)", [text])
        return verified - start, time.perf_counter() - begun


def only_verified_and_judged(store: Store, texts: list[str]) -> float:
    """Seconds for what :func:`webapp.receiving.receive_record` does before it takes the lock."""
    start = time.perf_counter()
    for text in texts:
        assert verify_record(text, store.devices.find, KnownProcedures(store)).valid
    return time.perf_counter() - start


def compare(store: Store, texts: list[str], sending: float, folder: Path) -> None:
    """Records per second: the bound, and what was reached over HTTP."""
    signatures, commits = bare(texts, store.devices.get(jws.read(texts[0]).kid).jwk, folder)
    bound = signatures + commits
    parts = {
        "signatures alone": signatures,
        "durable commits alone": commits,
        "bound: both": bound,
        "verified and judged again": only_verified_and_judged(store, texts),
        "sent over HTTP and kept": sending,
    }
    rows = [
        {
            "what": name,
            "ms each": 1000 * seconds / len(texts),
            "a second": len(texts) / seconds,
            "% of the bound": 100 * bound / seconds,
        }
        for name, seconds in parts.items()
    ]
    show("Records a second, one after the other", rows)


def main(number: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(replace(Settings.for_tests(Path(folder)), calls_per_minute=0))
        store = app.extensions[current.NAME].store
        records = prepare(store, number)
        server = Server(("127.0.0.1", 0), app)
        server.prepare()
        threading.Thread(target=server.serve, daemon=True).start()
        client = Client(f"http://127.0.0.1:{server.bind_addr[1]}")
        start = time.perf_counter()
        times = []
        for text, photo in records:
            if photo:
                client.send("PUT", f"/api/photos/{hashlib.sha256(photo).hexdigest()}", photo, "image/jpeg")
            times.append(client.send("POST", "/api/records", json.dumps({"jws": text}).encode()))
        seconds = time.perf_counter() - start
        kept = len(store.records.all())
        assert kept == number, f"{number - kept} records were not accepted"
        lists = [
            {"request": path, "ms": client.send("GET", path, None)} for path in ("/api/work", "/api/session")
        ]
        server.stop()
        compare(store, [text for text, _ in records], sum(times) / 1000, Path(folder))
        store.close()
    show(
        f"{number} records with {(number + 9) // 10} photos in {seconds:.1f} s; one record, ms",
        [spread(times)],
    )
    show(f"With {number} records in the store", lists)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
