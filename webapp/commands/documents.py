"""Signed documents and what is needed to verify them, gathered from files or from a store."""

import base64
import io
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from checks import procedure as procedures
from webapp.commands.group import BadInput
from webapp.signing import Key, jws
from webapp.signing.canonical import NotCanonical, parse
from webapp.store import Store

BUNDLE = "firstwater-bundle"
UNSENT = "firstwater-unsent"


@dataclass(frozen=True)
class Signed:
    """A JWS as it stands in a file, and when the server received it, if the file says so."""

    text: str
    place: str
    received_at: str | None = None


@dataclass
class Documents:
    """`keys` map thumbprints to keys; the person of a key is "" where nothing says whose it is.

    `complete`: every accepted record of the units is there, so that a gap in a chain is a fault.
    """

    records: list[Signed] = field(default_factory=list)
    decisions: list[Signed] = field(default_factory=list)
    keys: dict[str, Key] = field(default_factory=dict)
    procedures: dict[str, Mapping[str, Any]] = field(default_factory=dict)
    photos: dict[str, bytes] = field(default_factory=dict)
    complete: bool = False

    def add_signed(self, signed: Signed) -> None:
        """By the `typ` of its header; what cannot be read is taken for a record, and found faulty as one."""
        try:
            is_decision = jws.read(signed.text).typ == jws.DECISION
        except jws.NotValid:
            is_decision = False
        (self.decisions if is_decision else self.records).append(signed)


def own_procedures() -> dict[str, Mapping[str, Any]]:
    """The procedures that this version of the program brings along, by hash."""
    loaded = [procedures.load(name) for name in procedures.names()]
    return {procedures.procedure_hash(one): one for one in loaded}


def from_files(paths: list[str], keys: str | None) -> Documents:
    """What the files hold; BadInput names a file that is none of ours."""
    documents = Documents(procedures=own_procedures())
    for path in paths:
        add_file(documents, path)
    if keys is not None:
        add_keys(documents, read_json(Path(keys).read_bytes(), keys), keys)
    return documents


def add_file(documents: Documents, path: str) -> None:
    try:
        data: bytes = sys.stdin.buffer.read() if path == "-" else Path(path).read_bytes()
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror}).") from None
    if data.startswith(b"%PDF"):
        add_certificate(documents, data, path)
    elif data.lstrip().startswith(b"{"):
        add_json(documents, read_json(data, path), path)
    elif data.strip().count(b".") == 2 and len(data.split()) == 1:
        documents.add_signed(Signed(data.decode("ascii", "replace").strip(), path))
    else:
        raise BadInput(
            f"{path}: is no signed record or decision (.jws), no certificate (PDF) and no bundle (JSON)."
        )


def read_json(data: bytes, path: str) -> Any:
    try:
        return parse(data)
    except NotCanonical as error:
        raise BadInput(f"{path}: {error}") from None


def add_certificate(documents: Documents, data: bytes, path: str) -> None:
    """The attachments of a certificate: record.jws, decision.jws, reopening.jws, keys.json."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        attached = {one.name: bytes(one.content) for one in PdfReader(io.BytesIO(data)).attachment_list}
    except (PyPdfError, ValueError, KeyError) as error:
        raise BadInput(f"{path}: cannot be read as a PDF ({error}).") from None
    if "record.jws" not in attached:
        raise BadInput(f"{path}: holds no attachment record.jws, so it is no certificate made by Firstwater.")
    for name in ("record.jws", "decision.jws", "reopening.jws"):
        if name in attached:
            text = attached[name].decode("ascii", "replace").strip()
            documents.add_signed(Signed(text, f"{path}#{name}"))
    if "keys.json" in attached:
        place = f"{path}#keys.json"
        add_keys(documents, read_json(attached["keys.json"], place), place)


def add_json(documents: Documents, content: Any, path: str) -> None:
    if content.get("type") == BUNDLE:
        add_bundle(documents, content, path)
    elif content.get("type") == UNSENT:
        add_unsent(documents, content, path)
    elif "keys" in content:
        add_keys(documents, content, path)
    else:
        raise BadInput(
            f"{path}: is JSON, but no bundle and no key set. A readable copy carries no signature; "
            "give the record's .jws, its certificate or a bundle."
        )


def add_bundle(documents: Documents, content: Mapping[str, Any], path: str) -> None:
    try:
        for kind in ("records", "decisions"):
            for number, one in enumerate(content[kind]):
                documents.add_signed(Signed(one["jws"], f"{path}#{kind}.{number}", one["received_at"]))
        add_keys(documents, content["keys"], path)
        for procedure in content["procedures"].values():  # what the bundle calls their hash is not believed
            documents.procedures[procedures.procedure_hash(procedure)] = procedure
        documents.complete = documents.complete or "unit" in content["scope"]
        for sha256, photo in content["photos"].items():
            if "base64" in photo:
                documents.photos[sha256] = base64.b64decode(photo["base64"], validate=True)
    except (KeyError, TypeError, AttributeError, ValueError) as error:
        raise BadInput(f"{path}: is a damaged bundle; {error} is missing or of the wrong kind.") from None


def add_unsent(documents: Documents, content: Mapping[str, Any], path: str) -> None:
    """The signed records in a file of unsent entries; what is not signed proves nothing."""
    try:
        for number, record in enumerate(content.get("records", [])):
            documents.add_signed(Signed(record["jws"], f"{path}#records.{number}"))
    except (KeyError, TypeError, AttributeError) as error:
        raise BadInput(f"{path}: is a damaged file; {error} is missing or of the wrong kind.") from None


def add_keys(documents: Documents, content: Any, path: str) -> None:
    """A JWK set (RFC 7517); a bundle's also says whose a key is and when it was revoked."""
    try:
        for one in content["keys"]:
            jwk = jws.public(one)
            key = Key(jwk, one.get("firstwater_person", ""), one.get("firstwater_revoked_at"))
            documents.keys[jws.thumbprint(jwk)] = key
    except jws.NotValid as error:
        raise BadInput(f"{path}: {error}") from None
    except (KeyError, TypeError, AttributeError):
        raise BadInput(f'{path}: is no key set; it must hold {{"keys": [...]}} (RFC 7517).') from None


def from_store(store: Store) -> Documents:
    """Everything in a store."""
    devices = {one.thumbprint: Key(one.jwk, one.person, one.revoked_at) for one in store.devices.all()}
    kept: dict[str, Mapping[str, Any]] = {one.hash: one.content() for one in store.procedures.all()}
    records = [Signed(one.jws, f"record {one.sha256}", one.received_at) for one in store.records.all()]
    decisions = [Signed(one.jws, f"decision {one.sha256}", one.received_at) for one in store.decisions.all()]
    return Documents(records, decisions, devices, kept, complete=True)
