"""The history of the schema: each step runs once, in one transaction with the note that it ran.

A step that has been released is never changed; what comes later is a new step with the next number.
"""

from collections.abc import Callable
from itertools import zip_longest

from webapp.store.connection import Connection

# Importing registers the steps, in their order.
# isort: off
from webapp.store.migrations import first  # noqa: F401
from webapp.store.migrations import people  # noqa: F401
from webapp.store.migrations import lists  # noqa: F401
from webapp.store.migrations import phones  # noqa: F401
from webapp.store.migrations import arrivals  # noqa: F401

# isort: on
from webapp.store.migrations.registry import APPEND_ONLY, MIGRATIONS

__all__ = ["APPEND_ONLY", "MIGRATIONS", "upgrade"]


def upgrade(connection: Connection, finish: Callable[[], None]) -> None:
    """Bring the schema up to date, each step in a transaction of its own, ``finish`` in that of the last.

    A step that fails leaves those before it done, and is tried again at the next start. Another process may
    do the same meanwhile, so that each step looks again under the lock.
    """
    waiting = [step.name for step in MIGRATIONS.pending(connection.read())]
    for name, after in zip_longest(waiting, waiting[1:]):
        with connection.write() as db:
            if name in {step.name for step in MIGRATIONS.pending(db)}:
                MIGRATIONS.apply(db, stop_before=after)
            if after is None:
                finish()
