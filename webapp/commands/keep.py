"""firstwater backup, restore, check and rebuild: copies that can be relied on, and lists."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from webapp import current
from webapp.commands.documents import from_store
from webapp.commands.group import NOT_ACCEPTABLE, BadInput, json_option, print_json
from webapp.commands.opened import opened_store, read_settings
from webapp.commands.verdicts import verify_all
from webapp.settings import Settings
from webapp.store import Store, StoreError, keeping


@click.command(short_help="Copy all data into a folder, while the server runs.")
@click.argument("target", metavar="FOLDER", type=click.Path(file_okay=False, path_type=Path))
@json_option
def backup(target: Path, as_json: bool) -> None:
    """Copy all data into FOLDER, while the server runs.

    The copy is read back and checked, with every photo, before it counts; one that was there before stays
    until then. Its signatures and verdicts: firstwater verify FOLDER, on any machine.
    """
    with opened_store() as store:
        counts = store.backup(target)
    if as_json:
        print_json({"folder": str(target), "counts": counts})
    else:
        click.echo(
            f"Copied to {target}: " + ", ".join(f"{noun} {count}" for noun, count in counts.items()) + "."
        )


@click.command(short_help="Put a copy back.")
@click.argument("source", metavar="FOLDER", type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--replace", is_flag=True, help="Move data that is there aside instead of refusing.")
def restore(source: Path, replace: bool) -> None:
    """Put the copy in FOLDER where the settings say that the data lives. Stop the server first.

    A copy that is damaged, or of which a photo is missing, is refused before anything is written.

    With --replace the present data is kept beside it, with the ending .replaced and the time.
    """
    settings = read_settings()
    if not (source / keeping.DATABASE).is_file():
        raise BadInput(
            f"FOLDER: {source} holds no {keeping.DATABASE}, so it is no copy made by firstwater backup, "
            "or one that was interrupted."
        )
    if settings.database.exists() and not replace:
        raise BadInput(
            f"FIRSTWATER_DATABASE: {settings.database} exists. With --replace it is moved aside first."
        )
    with moved_aside(settings):
        try:
            keeping.restore(source, settings.database, settings.photos)
        except StoreError as error:
            raise BadInput(f"FOLDER: {error}") from None
    with opened_store() as store:
        records = len(store.records.all())
    click.echo(
        f"Restored to {settings.database}: records {records}. Look through them with: firstwater check"
    )


@contextmanager
def moved_aside(settings: Settings) -> Iterator[None]:
    """Rename the database with its WAL files and the photos; back again when what follows fails."""
    database = settings.database
    ending = f".replaced-{current.utc_now():%Y-%m-%dT%H-%M-%S}"
    paths = [database.with_name(database.name + end) for end in ("", "-wal", "-shm")]
    moved = {path: path.with_name(path.name + ending) for path in (*paths, settings.photos) if path.exists()}
    for path, aside in moved.items():
        path.rename(aside)
    try:
        yield
    except BaseException:
        for path, aside in moved.items():
            if path.is_dir():
                shutil.rmtree(path)
            aside.rename(path)
        raise


@click.command(short_help="Look through all data for damage.")
@json_option
def check(as_json: bool) -> int:
    """Look through all data: database, hashes, photos, lists, audit trail, signatures, chains, verdicts.

    Lists that do not follow from the documents are made anew by: firstwater rebuild
    """
    settings = read_settings()
    with opened_store() as store:
        problems = [*store.check(), *signature_problems(store)]
        counted = len(store.records.all())
    if as_json:
        print_json({"database": str(settings.database), "records": counted, "problems": problems})
    else:
        for problem in problems:
            click.echo(problem)
        click.echo(
            f"Records looked through: {counted}. "
            + (f"Problems: {len(problems)}." if problems else "All is well.")
        )
    return NOT_ACCEPTABLE if problems else 0


def signature_problems(store: Store) -> list[str]:
    """What is wrong with signatures, chains and verdicts, as sentences."""
    return [
        f"{one.place}: {finding.detail} ({finding.code})"
        for one in verify_all(from_store(store))
        for finding in one.findings
    ]


@click.command(short_help="Make all lists anew from the documents.")
@json_option
def rebuild(as_json: bool) -> None:
    """Make the states and lists of visits, records and units anew from the documents, and tell what changed.

    No document is touched, and the server may run meanwhile.
    """
    with opened_store() as store:
        changed = store.listing.differences()
        store.listing.rebuild()
        store.audit.add("lists_rebuilt", person=None, changed=len(changed))
    if as_json:
        print_json({"changed": changed})
        return
    for one in changed:
        click.echo(one)
    click.echo(f"Lists made anew. Rows that changed: {len(changed)}.")
