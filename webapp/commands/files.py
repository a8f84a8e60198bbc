"""Reading signed documents from files: each kind of file that ``firstwater verify`` knows."""

import base64
import io
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from checks import procedure as procedures
from webapp.commands.documents import (
    BUNDLE,
    TRAIL,
    UNSENT,
    Confirmed,
    Documents,
    Signed,
    Trail,
    add_kept,
    own_procedures,
)
from webapp.commands.group import BadInput
from webapp.signing import Key, jws
from webapp.signing.canonical import NotCanonical, parse
from webapp.store import StoreError
from webapp.store.copies import opened_copy

DATABASE_BEGINS = b"SQLite format 3\0"


def from_files(paths: list[str], keys: str | None) -> Documents:
    """What the files hold; BadInput names a file that is none of ours."""
    documents = Documents(procedures=own_procedures())
    for path in paths:
        add_file(documents, path)
    if keys is not None:
        add_keys(documents, read_json(Path(keys).read_bytes(), keys), keys)
    return documents


def add_file(documents: Documents, path: str) -> None:
    if is_copy(path):
        add_copy(documents, Path(path))
        return
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
            f"{path}: is no signed record or decision (.jws), no certificate (PDF), no bundle (JSON) "
            "and no backup (folder)."
        )


def read_json(data: bytes, path: str) -> Any:
    try:
        return parse(data)
    except NotCanonical as error:
        raise BadInput(f"{path}: {error}") from None


def add_certificate(documents: Documents, data: bytes, path: str) -> None:
    """What is attached to a certificate: signed documents, keys, and perhaps confirmations by passkeys."""
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
    if "confirmations.json" in attached:
        place = f"{path}#confirmations.json"
        try:
            add_confirmations(documents, read_json(attached["confirmations.json"], place))
        except (KeyError, TypeError, AttributeError) as error:
            raise BadInput(f"{place}: is damaged; {error} is missing or of the wrong kind.") from None


def add_json(documents: Documents, content: Any, path: str) -> None:
    if content.get("type") == BUNDLE:
        add_bundle(documents, content, path)
    elif content.get("type") == UNSENT:
        add_unsent(documents, content, path)
    elif content.get("type") == TRAIL:
        add_trail(documents, content, path)
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
                signed = Signed(one["jws"], f"{path}#{kind}.{number}", one["received_at"], has_photos=True)
                documents.add_signed(signed)
        add_keys(documents, content["keys"], path)
        for procedure in content["procedures"].values():  # what the bundle calls their hash is not believed
            documents.procedures[procedures.procedure_hash(procedure)] = procedure
        documents.complete = documents.complete or "unit" in content["scope"]
        add_photos(documents, content["photos"])
        add_confirmations(documents, content)
    except (KeyError, TypeError, AttributeError, ValueError) as error:
        raise BadInput(f"{path}: is a damaged bundle; {error} is missing or of the wrong kind.") from None


def add_photos(documents: Documents, photos: Mapping[str, Any]) -> None:
    """A bundle has the bytes of all its photos or of none; some may not have arrived when it was made."""
    is_without = not any("base64" in photo for photo in photos.values())
    for sha256, photo in photos.items():
        if "base64" in photo:
            documents.photos[sha256] = base64.b64decode(photo["base64"], validate=True)
        elif is_without or photo.get("missing"):
            documents.elsewhere.add(sha256)


def add_confirmations(documents: Documents, content: Mapping[str, Any]) -> None:
    """Bundles made before there were passkeys have none, and certificates nobody confirmed with one."""
    passkeys = {one["id"]: one for one in content.get("passkeys", [])}
    for one in content.get("confirmations", []):
        passkey = passkeys.get(one["assertion"]["id"])
        documents.confirmed[one["document"]] = Confirmed(one["assertion"], one["verified_at"], passkey)


def add_unsent(documents: Documents, content: Mapping[str, Any], path: str) -> None:
    """The signed records in a file of unsent entries; what is not signed proves nothing."""
    try:
        for number, record in enumerate(content.get("records", [])):
            documents.add_signed(Signed(record["jws"], f"{path}#records.{number}"))
    except (KeyError, TypeError, AttributeError) as error:
        raise BadInput(f"{path}: is a damaged file; {error} is missing or of the wrong kind.") from None


def add_trail(documents: Documents, content: Mapping[str, Any], path: str) -> None:
    entries = content.get("entries")
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        raise BadInput(f"{path}: is a damaged audit trail; its entries are missing or of the wrong kind.")
    documents.trails.append(Trail(path, entries))


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


def is_copy(path: str) -> bool:
    """Whether this is a folder, or a database file: then it is no document but holds them."""
    if path == "-" or not Path(path).exists():
        return False
    if Path(path).is_dir():
        return True
    with Path(path).open("rb") as file:
        return file.read(len(DATABASE_BEGINS)) == DATABASE_BEGINS


def add_copy(documents: Documents, path: Path) -> None:
    """Everything in a backup, with its photos and its audit trail; nothing is written there."""
    try:
        with opened_copy(path) as copy:
            problems = copy.problems()
            documents.databases[str(path)] = problems
            if any(one.startswith("Database") for one in problems):  # it cannot be gone through row by row
                return
            add_kept(documents, copy, copy.confirmations(), f"{path}#", has_photos=True)
            documents.trails.append(Trail(f"{path}#audit", copy.audit.entries(), is_beside=True))
            documents.photo_files.append(copy.photo)
            documents.elsewhere |= copy.photos_to_come()
    except StoreError as error:
        raise BadInput(str(error)) from None
