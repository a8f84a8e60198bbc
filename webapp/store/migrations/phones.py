"""What phones are asked and told, however many visits are open."""

from sqlite_utils import Database

from webapp.store.migrations.registry import MIGRATIONS, run

OPEN = "{row}.state <> 'accepted' and {row}.state <> 'signed'"
COUNT = """insert into entries_under_way (visit, device, number)
    select new.visit, device, count(*) from events where visit = new.visit group by device;"""
FORGET = "delete from entries_under_way where visit = old.visit;"


# How many entries of a phone stand in open visits is asked with every contact of a phone, and by the queue
# for each phone that fell silent. Counted in the entries themselves it costs a look into each open visit.
@MIGRATIONS()
def m0015_entries_under_way(db: Database) -> None:
    opened, closed = OPEN.format(row="new"), f"not ({OPEN.format(row='new')})"
    run(
        db,
        """create table entries_under_way (
            visit text not null references visits, device text not null references devices,
            number integer not null, primary key (visit, device)
        ) strict, without rowid""",
        "create index under_way_by_device on entries_under_way (device, visit)",
        """insert into entries_under_way
            select t.visit, e.device, count(*) from visit_states t cross join events e on e.visit = t.visit
            where t.state <> 'accepted' and t.state <> 'signed' group by t.visit, e.device""",
        """create trigger an_entry_is_under_way after insert on events
            when (select state from visit_states where visit = new.visit) not in ('accepted', 'signed') begin
            insert or ignore into entries_under_way values (new.visit, new.device, 0);
            update entries_under_way set number = number + 1 where visit = new.visit and device = new.device;
        end""",
        f"""create trigger a_visit_is_open after insert on visit_states when {opened} begin
            {FORGET.replace("old.", "new.")} {COUNT}
        end""",
        f"""create trigger a_visit_is_open_again after update of state on visit_states
            when {opened} and not ({OPEN.format(row="old")}) begin {FORGET} {COUNT} end""",
        f"""create trigger a_visit_is_closed after update of state on visit_states
            when {closed} begin {FORGET} end""",
        f"create trigger a_visit_has_no_state after delete on visit_states begin {FORGET} end",
        # What was not accepted is searched by unit and sender, without a look at every line of it.
        "create index quarantine_of_unit on quarantine_states (unit, item)",
        "create index quarantine_of_person on quarantine_states (person, item)",
    )


KEPT_NUMBERS = 100_000
NUMBER = "(select max(number) from news_numbers)"
UNIT_CHANGED = "when (old.record, old.baseline) is not (new.record, new.baseline)"
VISIT_CHANGED = "when (old.state, old.record, old.returned) is not (new.state, new.record, new.returned)"

# A change of a table, whose news it is, and when.
NUMBERED = (
    ("units", "insert", "unit", "new.id", ""),
    ("units", "update", "unit", "new.id", ""),
    ("unit_states", "insert", "unit", "new.unit", ""),
    ("unit_states", "delete", "unit", "old.unit", ""),
    ("unit_states", "update", "unit", "new.unit", UNIT_CHANGED),
    ("visit_states", "insert", "visit", "new.visit", ""),
    ("visit_states", "delete", "visit", "old.visit", ""),
    ("visit_states", "update", "visit", "new.visit", VISIT_CHANGED),
)


# A phone that has been told everything up to a number asks for what came after it. The word beside each
# number shows that this history gave it: after a backup was restored numbers come again, but not words.
@MIGRATIONS()
def m0016_news_by_number(db: Database) -> None:
    run(
        db,
        "create table news_numbers (number integer primary key autoincrement, word text not null) strict",
        "create table unit_news (unit text primary key references units, number integer not null) strict",
        "create table visit_news (visit text primary key references visits, number integer not null) strict",
        "create index unit_news_by_number on unit_news (number)",
        "create index visit_news_by_number on visit_news (number)",
        "insert into news_numbers (word) select hex(randomblob(8)) from units",
        "insert into news_numbers (word) values (hex(randomblob(8)))",
        "insert into unit_news select id, row_number() over (order by name, id) from units",
        "insert into visit_news select id, (select max(number) from news_numbers) from visits",
    )
    for change in NUMBERED:
        numbered(db, *change)


def numbered(db: Database, table: str, change: str, thing: str, key: str, when: str) -> None:
    """Give the thing the next number with each ``change`` of ``table``."""
    db.execute(
        f"""create trigger {table}_{change}_is_numbered after {change} on {table} {when} begin
            insert into news_numbers (word) values (hex(randomblob(8)));
            delete from news_numbers where number <= {NUMBER} - {KEPT_NUMBERS};
            delete from {thing}_news where {thing} = {key};
            insert into {thing}_news values ({key}, {NUMBER});
        end"""  # noqa: S608 - no outside text in it
    )
