"""The first twelve steps: people and units, the documents, and the first lists made of them."""

from sqlite_utils import Database

from webapp.store.migrations.registry import APPEND_ONLY, MIGRATIONS, refuse, run


@MIGRATIONS()
def m0001_people_and_devices(db: Database) -> None:
    run(
        db,
        """create table people (
            id text primary key, login text not null unique collate nocase, name text not null,
            role text not null check (role in ('installer', 'supervisor', 'quality', 'administrator')),
            active integer not null default 1, password text not null,
            one_time_password integer not null default 0, password_until text, created_at text not null
        ) strict""",
        """create table sessions (
            key text primary key, person text not null references people, created_at text not null,
            seen_at text not null
        ) strict""",
        """create table sign_in_failures (
            key text primary key, count integer not null, last_at text not null
        ) strict""",
        """create table devices (
            thumbprint text primary key, jwk text not null, person text not null references people,
            name text not null, enrolled_at text not null, revoked_at text
        ) strict""",
        "create index sessions_of_person on sessions (person)",
        "create index devices_of_person on devices (person)",
    )
    refuse(db, "people", "delete", "a person is disabled, never deleted")
    refuse(db, "devices", "delete", "a device is revoked, never deleted")


@MIGRATIONS()
def m0002_sites_units_and_instruments(db: Database) -> None:
    run(
        db,
        """create table sites (
            id text primary key, name text not null, address text not null, "values" text not null
        ) strict""",
        """create table units (
            id text primary key, name text not null, serial text not null unique,
            site text not null references sites, plate text not null,
            token text not null unique, short_code text not null unique
        ) strict""",
        """create table instruments (
            id text primary key, kind text not null, name text not null, serial text not null,
            calibration_due text, unit text not null, range_minimum real, range_maximum real,
            accuracy_of_reading real not null, accuracy_of_range real not null, digits real not null,
            resolution real not null, calibration_uncertainty real not null,
            active integer not null default 1
        ) strict""",
    )


# merged_events stand apart from the events: a late one gets its place only when its visit is returned, and
# the row of an event cannot be changed then. A phone that has read up to a number misses nothing by it.
@MIGRATIONS()
def m0003_visits_events_and_photos(db: Database) -> None:
    run(
        db,
        """create table procedures (
            hash text primary key, id text not null, version integer not null, json text not null,
            kept_at text not null
        ) strict""",
        """create table visits (
            id text primary key, unit text not null references units, kind text not null,
            procedure text not null, version integer not null, procedure_hash text not null,
            started_at text not null, started_by text not null references people, received_at text not null
        ) strict""",
        """create table events (
            id text primary key, visit text not null references visits,
            person text not null references people, device text not null references devices,
            field text not null, json text not null, sha256 text not null,
            late integer not null, received_at text not null
        ) strict""",
        """create table merged_events (
            visit text not null references visits, sequence integer not null,
            event text not null unique references events, primary key (visit, sequence)
        ) strict""",
        """create table photos (
            sha256 text primary key, size integer not null, person text not null references people,
            received_at text not null
        ) strict""",
        "create index visits_of_unit on visits (unit)",
        "create index events_of_visit on events (visit)",
    )


# record_photos is what a record waits for: photos may come after it, when the signal is better. The sequence
# of records and decisions is a column, because VACUUM may number the hidden rowid anew.
@MIGRATIONS()
def m0004_records_decisions_and_quarantine(db: Database) -> None:
    run(
        db,
        """create table records (
            sequence integer primary key, sha256 text not null unique, visit text not null references visits,
            unit text not null references units, jws text not null, verdict text not null,
            person text not null references people, device text not null,
            previous text references records (sha256), corrects text references records (sha256),
            signed_at text not null, received_at text not null, notes text not null
        ) strict""",
        """create table record_photos (
            record text not null references records (sha256), photo text not null, primary key (record, photo)
        ) strict""",
        """create table decisions (
            sequence integer primary key, sha256 text not null unique,
            record text not null unique references records (sha256), jws text not null,
            decision text not null check (decision in ('accepted', 'accepted_with_conditions', 'returned')),
            reasons text not null, person text not null references people, device text not null,
            signed_at text not null, received_at text not null, next_service text
        ) strict""",
        """create table quarantine (
            id integer primary key, kind text not null check (kind in ('record', 'decision', 'event')),
            sha256 text not null, document text not null, visit text, unit text,
            person text not null references people, reasons text not null, received_at text not null,
            unique (kind, sha256, reasons)
        ) strict""",
        """create table quarantine_seen (
            item integer primary key references quarantine, person text not null references people,
            note text not null, seen_at text not null
        ) strict""",
        "create index records_of_visit on records (visit)",
        "create index records_of_unit on records (unit)",
        "create index quarantine_of_visit on quarantine (visit)",
    )


@MIGRATIONS()
def m0005_audit(db: Database) -> None:
    run(
        db,
        """create table audit (
            sequence integer primary key, at text not null, person text, action text not null,
            subject text, details text not null, previous text not null, sha256 text not null unique
        ) strict""",
    )
    for table in APPEND_ONLY:
        refuse(db, table, "update", f"{table} is append-only")
        refuse(db, table, "delete", f"{table} is append-only")


# Nothing in these tables is a document; Listing.rebuild makes them anew.
@MIGRATIONS()
def m0006_listing(db: Database) -> None:
    run(
        db,
        """create table visit_states (
            visit text primary key references visits, state text not null, record text, returned text
        ) strict""",
        """create table unit_states (
            unit text primary key references units, state text not null, record text, accepted_on text,
            next_service text, conditions text not null
        ) strict""",
        """create table record_states (
            record text primary key references records (sha256), state text not null
        ) strict""",
        """create view known_units as
            select units.*, unit_states.record as previous
            from units left join unit_states on unit_states.unit = units.id""",
        """create view known_visits as
            select visits.*, coalesce(visit_states.state, 'draft') as state, visit_states.record,
                visit_states.returned
            from visits left join visit_states on visit_states.visit = visits.id""",
        """create view known_events as
            select events.*, merged_events.sequence
            from events left join merged_events on merged_events.event = events.id""",
        """create view known_quarantine as
            select quarantine.*, quarantine_seen.person as seen_by, quarantine_seen.seen_at,
                quarantine_seen.note
            from quarantine left join quarantine_seen on quarantine_seen.item = quarantine.id""",
        """create view known_records as
            select records.*, coalesce(record_states.state, 'signed') as state
            from records left join record_states on record_states.record = records.sha256""",
    )


# A record has at most one acceptance and one return: an accepted one may be returned when a result came after
# it. SQLite cannot take the old constraint off a table, so the table is made anew.
@MIGRATIONS()
def m0007_decisions_after_acceptance(db: Database) -> None:
    run(
        db,
        """create table decisions_anew (
            sequence integer primary key, sha256 text not null unique,
            record text not null references records (sha256), jws text not null,
            decision text not null check (decision in ('accepted', 'accepted_with_conditions', 'returned')),
            reasons text not null, person text not null references people, device text not null,
            signed_at text not null, received_at text not null, next_service text
        ) strict""",
        "insert into decisions_anew select * from decisions",
        "drop table decisions",
        "alter table decisions_anew rename to decisions",
        "create index decisions_of_record on decisions (record)",
        "create unique index one_return on decisions (record) where decision = 'returned'",
        "create unique index one_acceptance on decisions (record) where decision <> 'returned'",
        "alter table unit_states add column reopened_on text",
    )
    refuse(db, "decisions", "update", "decisions is append-only")
    refuse(db, "decisions", "delete", "decisions is append-only")


@MIGRATIONS()
def m0008_retired_labels(db: Database) -> None:
    run(
        db,
        """create table retired_labels (
            token text primary key, unit text not null references units, retired_at text not null
        ) strict""",
        "create index retired_labels_of_unit on retired_labels (unit)",
    )
    refuse(db, "retired_labels", "update", "retired_labels is append-only")
    refuse(db, "retired_labels", "delete", "retired_labels is append-only")


@MIGRATIONS()
def m0009_passkeys_and_sessions_with_names(db: Database) -> None:
    run(
        db,
        """create table passkeys (
            id text primary key, person text not null references people, name text not null,
            public_key text not null, counter integer not null, made_at text not null,
            used_at text, removed_at text
        ) strict""",
        "create table used_challenges (challenge text primary key, used_at text not null) strict",
        """create table confirmations (
            document text primary key, passkey text not null references passkeys,
            assertion text not null, verified_at text not null
        ) strict""",
        "create index passkeys_of_person on passkeys (person)",
        "alter table sessions add column browser text not null default ''",
        "alter table sessions add column passkey text",
        "create index events_of_device on events (device, received_at)",
        "create index records_of_device on records (device, received_at)",
        "create index decisions_of_device on decisions (device, received_at)",
    )
    refuse(db, "passkeys", "delete", "a passkey is removed, never deleted")
    refuse(db, "confirmations", "update", "confirmations is append-only")
    refuse(db, "confirmations", "delete", "confirmations is append-only")


@MIGRATIONS()
def m0010_baselines(db: Database) -> None:
    """What later visits compare with; each follows from its record and can be made again."""
    run(
        db,
        """create table baselines (
            record text primary key references records (sha256), json text not null
        ) strict""",
    )


# Not a document: what phones said last, written over each time.
@MIGRATIONS()
def m0011_phone_contacts(db: Database) -> None:
    run(
        db,
        """create table phone_contacts (
            device text primary key references devices, at text not null, short text not null, short_at text
        ) strict""",
    )


# The lists of a busy office, by index: everything a line needs stands in one narrow row, because the columns
# of a record lie behind its signed text of 250 kB. The store fills it anew after an upgrade.
@MIGRATIONS()
def m0012_lists_by_index(db: Database) -> None:
    run(
        db,
        "drop view known_records",
        "drop table record_states",
        """create table record_states (
            record text primary key references records (sha256), visit text not null, unit text not null,
            person text not null, verdict text not null, signed_at text not null, received_at text not null,
            pending integer not null, state text not null
        ) strict""",
        "create index records_by_state on record_states (state, received_at)",
        "create index records_by_unit on record_states (unit, received_at)",
        "create index records_by_person on record_states (person, received_at)",
        "create index records_awaiting on record_states (state) where pending",
        "create index records_by_time on record_states (received_at, unit, person, state)",
        "create index units_by_state on unit_states (state)",
        "create index units_by_service on unit_states (next_service) where next_service is not null",
        "create index units_reopened on unit_states (unit) where reopened_on is not null",
        "create index units_of_site on units (site)",
        "create index corrections on records (corrects) where corrects is not null",
        """create view known_records as
            select records.*, coalesce(record_states.state, 'signed') as state
            from records left join record_states on record_states.record = records.sha256""",
    )
