"""A full disk, a database that another process holds: refused clearly, nothing half, then on again."""

import resource
import secrets
import subprocess
import sys
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask

from tests.faults.handset import Handset, waiting
from tests.faults.installer import Installer
from tests.faults.launcher import Launcher
from tests.faults.promises import broken_promises
from tests.faults.wires import InProcess, Reply
from tests.phone import PROCEDURE
from webapp import current
from webapp.store import Store, Unit

HOLDER = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("begin immediate")
print("held", flush=True)
sys.stdin.read()
"""


@pytest.fixture
def handset(app: Flask, store: Store, unit: Unit) -> Handset:
    """A phone in this process with a visit that the server knows."""
    store.procedures.keep(PROCEDURE)
    person = store.people.add("ilse", "Ilse", "installer", "!")
    token = secrets.token_urlsafe(32)
    store.sessions.start(current.session_key(token), person.id)
    handset = Handset(store, person, wire=InProcess(app, token))
    handset.begin(str(uuid.uuid4()), unit.id)
    handset.send()
    return handset


def send_notes_until_refused(handset: Handset, count: int = 300) -> Reply:
    """Entries of 20 kB each, until the server has no room for one more."""
    (visit,) = handset.visits
    for _ in range(count):
        handset.enter(visit, "test#note", {"value": secrets.token_hex(10_000)})
        reply = handset.send_events(handset.sendable_events())
        if reply.status != 200:
            return reply
    return pytest.fail("the server never ran out of room")


def assert_all_is_well(store: Store, handset: Handset) -> None:
    handset.send()
    assert broken_promises(store, [handset]) == []
    assert [held for held in handset.held.everything() if held.state != "received"] == []


def test_a_full_database_is_told_and_what_was_sent_stays_on_the_phone(handset: Handset, store: Store) -> None:
    writer = store.connection._writer.conn
    pages = writer.execute("pragma page_count").fetchone()[0]
    writer.execute(f"pragma max_page_count = {pages + 20}")
    refused = send_notes_until_refused(handset)
    assert (refused.status, refused.code) == (503, "storage_full")
    assert "free space" in refused.body["detail"]
    kept = [event.id for event in store.events.of_visit(next(iter(handset.visits)))]
    assert kept == [key for key, held in handset.held.events.items() if held.state == "received"]
    assert waiting(handset.held.events) != []
    assert handset.wire.call("GET", "/api/work").status == 200, "reading needs no room"
    assert store.check() == []
    writer.execute(f"pragma max_page_count = {2**30}")
    assert_all_is_well(store, handset)


@pytest.fixture
def held(store: Store) -> Iterator[subprocess.Popen]:
    """Another process in the middle of a transaction; it ends when its input is closed."""
    store.connection._writer.conn.execute("pragma busy_timeout = 100")
    command = [sys.executable, "-c", HOLDER, str(store.connection.path)]
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdin
    assert process.stdout
    assert process.stdout.readline() == "held\n"
    yield process
    process.stdin.close()
    process.wait()
    process.stdout.close()


def test_a_database_held_by_another_process_is_told(
    handset: Handset, store: Store, held: subprocess.Popen
) -> None:
    (visit,) = handset.visits
    handset.read_off(visit, 6.5)
    refused = handset.send_events(handset.sendable_events())
    assert (refused.status, refused.code) == (503, "storage_busy")
    assert store.events.of_visit(visit) == []
    held.stdin.close()
    held.wait()
    assert_all_is_well(store, handset)


def test_a_database_held_for_a_moment_is_waited_for(
    handset: Handset, store: Store, held: subprocess.Popen
) -> None:
    (visit,) = handset.visits
    store.connection._writer.conn.execute("pragma busy_timeout = 10000")
    handset.read_off(visit, 6.5)
    held.stdin.close()  # it ends while the request waits
    assert handset.send_events(handset.sendable_events()).status == 200
    assert_all_is_well(store, handset)


def test_a_real_server_without_room_refuses_and_goes_on_when_there_is_room(
    launcher: Launcher, installers: list[Installer], store: Store
) -> None:
    """The operating system limits the size of every file of the server, as a full disk or a quota would."""
    handset = installers[0].handset
    store.connection._writer.conn.execute("pragma wal_checkpoint(truncate)")
    server = launcher.start(str(store.connection.path.stat().st_size + 100_000))
    handset.begin(str(uuid.uuid4()), installers[0].unit)
    handset.send()
    assert waiting(handset.held.visits) == []
    refused = send_notes_until_refused(handset)
    assert refused.status == 503
    assert refused.code in {"storage_full", "storage_failed"}
    handset.photograph(next(iter(handset.visits)), 1)
    resource.prlimit(server, resource.RLIMIT_FSIZE, (100, resource.RLIM_INFINITY))
    handset.send_photos()
    assert len(waiting(handset.held.photos)) == 1
    assert list(store.photos.folder.rglob("*.part")) == []
    resource.prlimit(server, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    assert_all_is_well(store, handset)
    launcher.kill()


def test_a_database_that_may_only_be_read_is_told_in_the_office(
    app: Flask, handset: Handset, store: Store, tmp_path: Path
) -> None:
    store.connection._writer.conn.execute("pragma query_only = on")
    (visit,) = handset.visits
    handset.read_off(visit, 6.5)
    refused = handset.send_events(handset.sendable_events())
    assert (refused.status, refused.code) == (503, "storage_failed")
    store.connection._writer.conn.execute("pragma query_only = off")
    assert_all_is_well(store, handset)
