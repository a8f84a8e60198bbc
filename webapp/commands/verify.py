"""firstwater verify: records, decisions, certificates, bundles, backups and trails, without a server."""

from pathlib import Path

import click

from webapp.commands.documents import Documents
from webapp.commands.files import add_copy, from_files
from webapp.commands.group import NOT_ACCEPTABLE, BadInput, json_option, print_json
from webapp.commands.verdicts import Verified, first_broken, verify_all
from webapp.signing.judged_again import Judged, listed

FILE = click.Path(exists=True, dir_okay=False)
LINKS = {"chain": "record", "audit trail": "hash"}


@click.command(short_help="Verify records, certificates, bundles, backups.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--keys", type=FILE, help="A JWK set (RFC 7517) with the signers' public keys.")
@click.option("--database", type=FILE, help="Take the keys and the procedures from this database.")
@json_option
def verify(files: tuple[str, ...], keys: str | None, database: str | None, as_json: bool) -> int:
    """Verify signed documents, without a server: signatures, canonical bytes, chain, verdicts judged again.

    FILE is a record or a decision (.jws), a certificate (PDF), a bundle or an audit trail made by
    firstwater export, the folder of a backup, which is only read, or - for standard input.
    Several files are verified together: a decision needs its record.
    What is not valid is told with its place, and the first broken link once more at the end.

    The keys come from the files themselves, from --keys or from --database. Keys that travel with a document
    show that nothing was changed after signing, and not who signed; ask the organisation for its key set.

    Exit status: 0 all is valid; 1 something is not valid; 2 a file cannot be read or is none of these.
    """
    documents = from_files(list(files), keys)
    if database is not None:
        add_database(documents, Path(database))
    refuse_nothing(documents, files[0])
    results = verify_all(documents)
    if as_json:
        print_json(as_document(results))
    else:
        print_results(results)
    return 0 if first_broken(results) is None else NOT_ACCEPTABLE


def refuse_nothing(documents: Documents, file: str) -> None:
    """What holds nothing to verify must not look valid."""
    is_signed = documents.records or documents.decisions
    if not is_signed and not documents.trails and not documents.databases:
        raise BadInput(f"{file}: holds no signed record or decision.")
    if is_signed and not documents.keys and not documents.databases:
        raise BadInput("--keys: the files carry no public keys. Give a JWK set, or --database.")


def add_database(documents: Documents, path: Path) -> None:
    """Keys and procedures of a database, which is only read."""
    kept = Documents()
    add_copy(kept, path)
    documents.keys.update(kept.keys)
    documents.procedures.update(kept.procedures)


def as_document(results: list[Verified]) -> dict[str, object]:
    broken = first_broken(results)
    return {
        "valid": broken is None,
        "first_broken": None if broken is None else {"file": broken.place, "says": broken_link(broken)},
        "documents": [one.as_json() for one in results],
    }


def print_results(results: list[Verified]) -> None:
    for one in results:
        print_verified(one)
    broken = first_broken(results)
    if broken is not None:
        click.echo(f"First broken link: {broken_link(broken)}")


def broken_link(one: Verified) -> str:
    """Which document it is, what is wrong with it, and where it stands."""
    name = one.kind
    if one.kind == "record" and one.content:
        name = f"the record of unit {one.content['unit']['serial']} that says it was signed at "
        name += one.content["signed_at"]
    elif one.kind == "decision" and one.content:
        name = f"the decision that says it was signed at {one.content['signed_at']}"
    return f"{name}, {one.place}: {one.findings[0].detail}"


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
    if one.judged:
        click.echo(f"  {judged_again(one.judged)}")
    for note in one.notes:
        click.echo(f"  {note}")


def judged_again(judged: Judged) -> str:
    """With which formulas a record was judged and was judged again, and whether that gave the same."""
    if judged.has_own_formulas:
        return f"Judged with the formulas {judged.today}, and again today with the same."
    named = f"the formulas {judged.formulas}" if judged.formulas else "formulas that it does not name"
    if judged.problem:
        return f"Judged with {named}; today's, {judged.today}, cannot judge it ({judged.problem})."
    result = f"these differ: {listed(judged.verdicts)}" if judged.verdicts else "the same verdicts"
    return f"Judged with {named}; judged again today with {judged.today}: {result}."


def summary(one: Verified) -> list[str]:
    if one.content is None:
        return [f"last {LINKS[one.kind]} {one.sha256}"] if one.kind in LINKS and one.sha256 else []
    content, signer = one.content, one.content["signer"]
    lines = [f"signed by {signer['name']} ({signer['role']}) at {content['signed_at']}"]
    if one.kind == "record":
        unit = content["unit"]
        lines.append(f"{content['kind']} of {unit['name']}, serial number {unit['serial']}")
        lines.append(f"verdict: {content['judgement']['record']['verdict'].replace('_', ' ')}")
    else:
        lines.append(f"{content['decision'].replace('_', ' ')}: record {content['record']}")
    return [*lines, f"identity (SHA-256 of the payload) {one.sha256}"]
