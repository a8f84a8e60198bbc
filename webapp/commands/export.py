"""firstwater export: a bundle that can be verified anywhere."""

import base64
import json
import sys
from pathlib import Path
from typing import Any

import click

from webapp import current
from webapp.commands.documents import BUNDLE, TRAIL
from webapp.commands.group import BadInput, near
from webapp.commands.opened import opened_store
from webapp.signing.photos import photos_named
from webapp.store import Device, NotInStore, Record, Store, Unit
from webapp.store.table import written


@click.command(short_help="Write records with all that verifies them.")
@click.argument("file", metavar="FILE", type=click.Path(dir_okay=False, allow_dash=True))
@click.option(
    "--unit", "unit_name", metavar="SERIAL", help="All records of the unit with this serial number."
)
@click.option("--visit", "visit_id", metavar="ID", help="The records of one visit.")
@click.option("--photos", "with_photos", is_flag=True, help="Put the photos in as well.")
@click.option("--audit", "is_audit", is_flag=True, help="Write the whole audit trail instead of records.")
def export(file: str, unit_name: str | None, visit_id: str | None, with_photos: bool, is_audit: bool) -> None:
    """Write the records of a unit or a visit into FILE (- for standard output), as a JSON bundle.

    The bundle holds the signed records and decisions as they came, the signers' public keys, the procedures,
    the confirmations by passkeys, and the photos by their hash. With --audit, FILE holds the audit trail.
    firstwater verify reads both without a server.
    """
    if [bool(unit_name), bool(visit_id), is_audit].count(True) != 1:
        raise BadInput("--unit or --visit: name the one or the other, or --audit alone.")
    with opened_store() as store:
        if is_audit:
            entries = store.audit.entries()
            write(file, trail(entries), f"audit entries {len(entries)}")
            return
        if unit_name:
            scope = {"unit": unit_of(store, unit_name).id}
            records = store.records.of_unit(scope["unit"])
        else:
            scope = {"visit": visit_of(store, str(visit_id))}
            records = store.records.of_visit(scope["visit"])
        content = bundle(store, records[::-1], scope, with_photos)
    write(file, content, f"records {len(records)}, decisions {len(content['decisions'])}")


def write(file: str, content: dict[str, Any], counted: str) -> None:
    text = json.dumps(content, ensure_ascii=False, indent=1) + "\n"
    if file == "-":
        sys.stdout.write(text)
        return
    Path(file).write_text(text, encoding="utf-8")
    click.echo(f"Written to {file}: {counted}.")


def trail(entries: list[dict[str, Any]]) -> dict[str, Any]:
    """Each entry with its hash and the hash of the one before it, the oldest first."""
    return {"type": TRAIL, "schema": 1, "made_at": written(current.utc_now()), "entries": entries}


def unit_of(store: Store, serial: str) -> Unit:
    units = store.units.all()
    found = [unit for unit in units if serial in {unit.serial, unit.id, unit.short_code}]
    if not found:
        raise BadInput(
            f"--unit: no unit has the serial number {serial!r}{near(serial, [one.serial for one in units])}"
        )
    return found[0]


def visit_of(store: Store, key: str) -> str:
    try:
        return store.visits.get(key).id
    except NotInStore as error:
        raise BadInput(f"--visit: {error}") from None


def bundle(store: Store, records: list[Record], scope: dict[str, str], with_photos: bool) -> dict[str, Any]:
    """The records, the oldest first, with everything that verifies them."""
    decisions = [decision for record in records for decision in record.decisions]
    contents = [record.content() for record in records]
    signers = dict.fromkeys([*(one.device for one in records), *(one.device for one in decisions)])
    hashes = dict.fromkeys(content["procedure"]["hash"] for content in contents)
    photos = dict.fromkeys(photo for content in contents for photo in photos_named(content["events"]))
    documents = [*(one.sha256 for one in records), *(one.sha256 for one in decisions)]
    return {
        "type": BUNDLE,
        "schema": 1,
        "made_at": written(current.utc_now()),
        "scope": scope,
        "keys": {"keys": [public_key(store.devices.get(one)) for one in signers]},
        "procedures": store.procedures.contents(*hashes),
        "records": [signed(one) for one in records],
        "decisions": [signed(one) for one in decisions],
        "photos": {sha256: photo_json(store, sha256, with_photos) for sha256 in photos},
        **store.passkeys.evidence(documents),
    }


def signed(document: Any) -> dict[str, str]:
    return {"sha256": document.sha256, "received_at": document.received_at, "jws": document.jws}


def public_key(device: Device) -> dict[str, Any]:
    """A JWK (RFC 7517) that also says whose it is, and since when it is not to be trusted."""
    key = {**device.jwk, "kid": device.thumbprint, "alg": "ES256", "use": "sig"}
    return key | {"firstwater_person": device.person, "firstwater_revoked_at": device.revoked_at}


def photo_json(store: Store, sha256: str, with_photos: bool) -> dict[str, Any]:
    photo = store.photos.find(sha256)
    if photo is None:
        return {"missing": True}
    described: dict[str, Any] = {"type": "image/jpeg", "size": photo.size}
    if with_photos:
        described["base64"] = base64.b64encode(store.photos.read_bytes(sha256)).decode()
    return described
