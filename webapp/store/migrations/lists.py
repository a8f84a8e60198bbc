"""The lists of a store with very many documents: narrow rows, and an index for every page."""

from sqlite_utils import Database

from webapp.store.migrations.registry import MIGRATIONS, run

NEW_VERSION = "update work_version set value = hex(randomblob(16))"


# Every page of the office asks an index for its first rows and goes on after the last one, so none of them
# counts, sorts or reads what it does not show. The store fills the rows anew after an upgrade.
@MIGRATIONS()
def m0014_lists_that_do_not_grow(db: Database) -> None:
    records_and_units(db)
    visits_and_entries(db)
    search(db)
    work_version(db)


def records_and_units(db: Database) -> None:
    run(
        db,
        "drop index records_awaiting",
        "alter table record_states drop column pending",
        "alter table record_states add column awaited text not null default '[]'",
        "drop index records_by_time",
        "create index records_by_time on record_states (received_at, unit, person, state, signed_at)",
        "create index records_by_signing on record_states (signed_at)",
        # The unit as it was accepted stands with the state that it follows from like the rest of it.
        "drop table baselines",
        "alter table unit_states add column baseline text",
        "alter table unit_states add column awaited text not null default '[]'",
        "drop index units_by_state",
        "drop index units_by_service",
        "drop index units_reopened",
        "create index units_by_service on unit_states (next_service, unit) where next_service is not null",
        "create index units_reopened on unit_states (reopened_on, unit) where reopened_on is not null",
        """create index units_awaiting on unit_states (accepted_on, unit)
            where state = 'accepted_with_conditions' and reopened_on is null and awaited <> '[]'""",
        """create index units_with_conditions on unit_states (accepted_on, unit)
            where state = 'accepted_with_conditions' and reopened_on is null and awaited = '[]'""",
        "create index instruments_by_calibration on instruments (calibration_due, id) where active",
    )


def visits_and_entries(db: Database) -> None:
    """Every visit has a row of its state, so that the few that are not finished are found by it."""
    run(
        db,
        "alter table visit_states add column finished_at text",
        "create index unfinished_visits on visit_states (visit) where state <> 'accepted'",
        "create index finished_visits on visit_states (finished_at) where state = 'accepted'",
        """create trigger visits_begin_as_drafts after insert on visits begin
            insert or ignore into visit_states (visit, state) values (new.id, 'draft');
        end""",
        "create index visits_by_procedure on visits (procedure_hash, started_at)",
        "drop index events_of_visit",
        "create index events_of_visit on events (visit, device)",
        "create index devices_by_enrolment on devices (enrolled_at, thumbprint)",
    )


def search(db: Database) -> None:
    """``name`` and ``words`` in small letters, as :func:`webapp.store.words.folded` makes them."""
    run(
        db,
        """create table unit_words (
            name text not null, unit text not null references units, site text not null,
            words text not null, primary key (name, unit)
        ) strict, without rowid""",
        "create unique index words_of_unit on unit_words (unit)",
        "create index words_of_site on unit_words (site, name, unit)",
        """create table quarantine_states (
            item integer primary key references quarantine, kind text not null, visit text, unit text,
            person text not null, detail text not null, more integer not null, received_at text not null,
            seen_at text
        ) strict""",
        "create index quarantine_waiting on quarantine_states (item) where seen_at is null",
    )


# Random and not counted: after a backup was restored, no phone may hold the name of another content.
def work_version(db: Database) -> None:
    """One word that changes whenever anything changes that phones are told (``GET /api/work``)."""
    run(
        db,
        "create table work_version (value text not null) strict",
        "insert into work_version values (hex(randomblob(16)))",
    )
    for table in ("people", "sites", "units", "instruments", "visits", "procedures"):
        bump(db, table, "insert")
    for table in ("sites", "units", "instruments"):
        bump(db, table, "update")
    bump(db, "people", "update of name")
    for table in ("visit_states", "unit_states"):
        bump(db, table, "insert")
        bump(db, table, "delete")
    bump(
        db,
        "visit_states",
        "update",
        "when (old.state, old.record, old.returned) is not (new.state, new.record, new.returned)",
    )
    bump(db, "unit_states", "update", "when (old.record, old.baseline) is not (new.record, new.baseline)")
    # Phones are told of an instrument that is out of use as long as an open visit was measured with it.
    bump(
        db,
        "events",
        "insert",
        "when exists (select 1 from instruments where not active and instr(new.json, id))",
    )


def bump(db: Database, table: str, change: str, when: str = "") -> None:
    name = f"{table}_{change.split()[0]}_is_news"
    db.execute(f"create trigger {name} after {change} on {table} {when} begin {NEW_VERSION}; end")
