"""What it costs to take in a record, however many things there are."""

from sqlite_utils import Database

from webapp.store.migrations.phones import KEPT_NUMBERS, NUMBERED
from webapp.store.migrations.registry import MIGRATIONS, run


# Each change took the next number through SQLite's table of sequences, and looked for it three times more. A
# number is never given twice without that table either: the greatest one always stays.
@MIGRATIONS()
def m0017_less_for_each_arrival(db: Database) -> None:
    run(
        db,
        "create table numbers_anew (number integer primary key, word text not null) strict",
        "insert into numbers_anew select number, word from news_numbers",
        *(f"drop trigger {table}_{change}_is_numbered" for table, change, *_ in NUMBERED),
        "drop table news_numbers",
        "alter table numbers_anew rename to news_numbers",
        # Each entry asks whether it names one of them: no look through those that are in use.
        "create index instruments_out_of_use on instruments (id) where not active",
    )
    for thing in ("unit", "visit"):
        run(
            db,
            f"""create table news_anew (
                {thing} text primary key references {thing}s, number integer not null
            ) strict, without rowid""",
            f"insert into news_anew select {thing}, number from {thing}_news",  # noqa: S608 - no outside text in it
            f"drop table {thing}_news",
            f"alter table news_anew rename to {thing}_news",
            f"create index {thing}_news_by_number on {thing}_news (number)",
        )
    for table, change, thing, key, when in NUMBERED:
        db.execute(
            f"""create trigger {table}_{change}_is_numbered after {change} on {table} {when} begin
                insert into news_numbers (word) values (hex(randomblob(8)));
                delete from news_numbers where number <= last_insert_rowid() - {KEPT_NUMBERS};
                delete from {thing}_news where {thing} = {key};
                insert into {thing}_news values ({key}, last_insert_rowid());
            end"""  # noqa: S608 - no outside text in it
        )
