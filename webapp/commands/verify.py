"""firstwater verify: records, decisions, certificates and bundles, without a server."""

from pathlib import Path

import click

from webapp import current
from webapp.commands.documents import Documents, from_files, from_store
from webapp.commands.group import NOT_ACCEPTABLE, BadInput, json_option, print_json
from webapp.commands.verdicts import Verified, verify_all
from webapp.store import Store

FILE = click.Path(exists=True, dir_okay=False)


@click.command(short_help="Verify records, decisions, certificates, bundles.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--keys", type=FILE, help="A JWK set (RFC 7517) with the signers' public keys.")
@click.option("--database", type=FILE, help="Take the keys and the procedures from this database.")
@json_option
def verify(files: tuple[str, ...], keys: str | None, database: str | None, as_json: bool) -> int:
    """Verify signed documents, without a server: signatures, canonical bytes, chain, verdicts judged again.

    FILE is a record or a decision (.jws), a certificate (PDF), a bundle made by firstwater export, or - for
    standard input. Several files are verified together: a decision needs its record.

    The keys come from the files themselves, from --keys or from --database. Keys that travel with a document
    show that nothing was changed after signing, and not who signed; ask the organisation for its key set.
    """
    documents = from_files(list(files), keys)
    if database is not None:
        add_database(documents, Path(database))
    if not documents.records and not documents.decisions:
        raise BadInput(f"{files[0]}: holds no signed record or decision.")
    if not documents.keys:
        raise BadInput("--keys: the files carry no public keys. Give a JWK set, or --database.")
    results = verify_all(documents)
    if as_json:
        valid = all(one.valid for one in results)
        print_json({"valid": valid, "documents": [one.as_json() for one in results]})
    else:
        for one in results:
            print_verified(one)
    return 0 if all(one.valid for one in results) else NOT_ACCEPTABLE


def add_database(documents: Documents, path: Path) -> None:
    store = Store(path, current.utc_now)
    try:
        kept = from_store(store)
    finally:
        store.close()
    documents.keys.update(kept.keys)
    documents.procedures.update(kept.procedures)


def print_verified(one: Verified) -> None:
    """The verdict first, then what it is about; of what is wrong, the first thing first."""
    word = "valid" if one.valid else "NOT VALID"
    click.echo(f"{one.kind} {one.place}: {word}")
    for finding in one.findings:
        where = f" (at {finding.field})" if finding.field else ""
        click.echo(f"  {finding.code}: {finding.detail}{where}")
    # What an invalid document says about itself is only what it says.
    for line in summary(one):
        click.echo(f"  {line}" if one.valid else f"  it claims: {line}")
    for note in one.notes:
        click.echo(f"  {note}")


def summary(one: Verified) -> list[str]:
    if one.content is None:
        return [f"last record {one.sha256}"] if one.kind == "chain" and one.sha256 else []
    content, signer = one.content, one.content["signer"]
    lines = [f"signed by {signer['name']} ({signer['role']}) at {content['signed_at']}"]
    if one.kind == "record":
        unit = content["unit"]
        lines.append(f"{content['kind']} of {unit['name']}, serial number {unit['serial']}")
        lines.append(f"verdict: {content['judgement']['record']['verdict'].replace('_', ' ')}")
    else:
        lines.append(f"{content['decision'].replace('_', ' ')}: record {content['record']}")
    return [*lines, f"identity (SHA-256 of the payload) {one.sha256}"]
