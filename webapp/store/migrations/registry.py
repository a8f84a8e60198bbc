"""What the steps of the schema share."""

from sqlite_utils import Database
from sqlite_utils.migrations import Migrations

MIGRATIONS = Migrations("firstwater")

APPEND_ONLY = (
    "procedures",
    "visits",
    "events",
    "merged_events",
    "photos",
    "records",
    "record_photos",
    "decisions",
    "quarantine",
    "quarantine_seen",
    "audit",
)


def run(db: Database, *statements: str) -> None:
    for statement in statements:
        db.execute(statement)


def refuse(db: Database, table: str, change: str, reason: str) -> None:
    """A trigger that refuses every ``change`` of ``table``."""
    db.execute(
        f"create trigger {table}_refuses_{change} before {change} on {table} "
        f"begin select raise(abort, '{reason}'); end"
    )
