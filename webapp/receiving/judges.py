"""Processes that verify and judge records, so that one that takes long holds up no other request.

Each has a reader of the database of its own, for keys and procedures. What depends on other documents is not
theirs, and whether a phone was revoked meanwhile is asked once more in the transaction that keeps a record.
"""

import gc
import logging
import os
import signal
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from functools import partial
from multiprocessing import get_context, parent_process
from pathlib import Path

from checks.catalogue import FORMULAS
from webapp.current import utc_now
from webapp.receiving.examined import Examined, Examining, KnownProcedures, examine_each
from webapp.store.connection import Connection
from webapp.store.devices import Devices
from webapp.store.visits import Procedures

log = logging.getLogger(__name__)

WORTH_IT = 32 * 1024
"""Characters below which records are judged faster where they came in."""

SHARES = 4  # of the records of one call, for each process

NICENESS = 5
NEW_OBJECTS = 20_000  # before Python looks for garbage: one record is a hundred thousand

TRY_AGAIN_AFTER = 60.0  # seconds, once processes could not be had or died


class Judges:
    """``processes`` of them, started for the first work; ``here`` judges where they cannot be had."""

    def __init__(self, database: Path, processes: int, here: Examining):
        self.processes = processes
        self._database = database
        self._here = here
        self._pool: ProcessPoolExecutor | None = None
        self._not_before = 0.0
        self._lock = threading.Lock()

    def examine(self, texts: Sequence[str], received_at: str) -> Iterator[list[Examined | None]]:
        """See :data:`webapp.receiving.examined.Examining`; the first can be kept while others are judged."""
        pool = self._started() if sum(map(len, texts)) >= WORTH_IT else None
        if pool is None:
            yield from self._here(texts, received_at)
            return
        shares = shared_out(texts, SHARES * self.processes)
        for share, work in [(share, self._submit(pool, share, received_at)) for share in shares]:
            if work is not None and not work.done():
                yield []
            found = self._result(pool, work)
            if found is None:
                yield []  # nobody should hold a lock while this process judges
                yield from self._here(share, received_at)
            else:
                yield found

    def _result(
        self, pool: ProcessPoolExecutor, work: "Future[list[Examined | None]] | None"
    ) -> list[Examined | None] | None:
        """What a judge found, None if it died."""
        try:
            return work.result() if work else None
        except (BrokenProcessPool, OSError, RuntimeError) as error:
            self._give_up(pool, error)
            return None

    def _submit(
        self, pool: ProcessPoolExecutor, share: list[str], received_at: str
    ) -> "Future[list[Examined | None]] | None":
        try:
            return pool.submit(examine_here, share, received_at)
        except (BrokenProcessPool, OSError, RuntimeError) as error:
            self._give_up(pool, error)
            return None

    def warm_up(self) -> None:
        """Start them and compile the formulas, which takes seconds; returns at once."""
        pool = self._started()
        if pool is None:
            threading.Thread(target=compile_formulas, daemon=True).start()
            return
        for _ in range(self.processes):  # each of them takes one, because it takes long
            pool.submit(compile_formulas)

    def close(self) -> None:
        """End them; whatever comes still is judged here."""
        with self._lock:
            pool, self._pool, self.processes = self._pool, None, 0
        if pool is not None:
            pool.shutdown(cancel_futures=True)

    def _started(self) -> ProcessPoolExecutor | None:
        with self._lock:
            if self._pool is None and self.processes and time.monotonic() >= self._not_before:
                # Not forked: the server has threads, and a copy of it would have their locks.
                context = get_context("spawn")
                self._pool = ProcessPoolExecutor(self.processes, context, begin, (self._database,))
            return self._pool

    def _give_up(self, pool: ProcessPoolExecutor, error: Exception) -> None:
        log.warning("Records are judged in the server's own process for a while (%r)", error)
        with self._lock:
            if self._pool is pool:
                self._pool = None
                self._not_before = time.monotonic() + TRY_AGAIN_AFTER
        pool.shutdown(wait=False, cancel_futures=True)


def shared_out(texts: Sequence[str], shares: int) -> list[list[str]]:
    """The texts in their order, in about so many shares of about the same size."""
    target = sum(map(len, texts)) / shares
    found: list[list[str]] = []
    size = target
    for text in texts:
        if size >= target:
            found.append([])
            size = 0
        found[-1].append(text)
        size += len(text)
    return found


# In the process of a judge

_examining: list[Callable[[Sequence[str], str], list[Examined | None]]] = []
"""How this process examines; empty in any other process."""


def begin(database: Path) -> None:
    """Make this process a judge. It ends with the server, which may be killed, and not before at a Ctrl-C."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    make_way()
    gc.set_threshold(NEW_OBJECTS)
    threading.Thread(target=end_with_parent, daemon=True).start()
    connection = Connection(database)
    devices, procedures = Devices(connection, utc_now), Procedures(connection, utc_now)
    _examining.append(partial(examine_each, devices.find, KnownProcedures(procedures)))


def make_way() -> None:
    """For the server, which has somebody's request to answer meanwhile."""
    with suppress(AttributeError, OSError):  # not everywhere
        os.nice(NICENESS)


def end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(0)


def compile_formulas() -> None:
    """Which takes seconds otherwise when a record is judged for the first time."""
    for formula in FORMULAS.values():
        formula.compile()
    gc.freeze()  # what is there now stays: no collection has to look through it


def examine_here(texts: Sequence[str], received_at: str) -> list[Examined | None]:
    return _examining[0](texts, received_at)
