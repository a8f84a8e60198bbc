"""What accounts hold."""

from sqlite_utils import Database

from webapp.store.migrations.registry import MIGRATIONS, run


@MIGRATIONS()
def m0013_language_of_a_person(db: Database) -> None:
    run(db, "alter table people add column language text not null default ''")
