"""The file by which unsent entries leave a phone: read, and every part compared with the phone's seal.

The seal is a JWS over the hashes of the parts. With it a file that was changed says which part was, and one
that somebody else carries in shows that its parts come from the phone of the person it names.
"""

import base64
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from webapp.signing import shapes
from webapp.signing.canonical import NotCanonical, digest, identity, parse
from webapp.signing.verify import DeviceLookup, verify_document

SEAL = "firstwater-seal+jws"
KINDS = ("visits", "events", "photos", "records")


class NotUnsent(ValueError):  # noqa: N818 - says what the file is
    """This is no file of unsent entries, or it cannot be read; ``code`` says why."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code


@dataclass(frozen=True)
class Part:
    """One visit, event, photo or record of the file.

    ``value`` is what would have been sent: a dict, the text of a JWS, or the bytes of a photo; None when
    those are not the ones of its name. ``sealed``: its hash is the one in the seal. ``altered``: it is not
    what the phone wrote. ``assertion``: a record's confirmation by a passkey, as it stands in the file.
    """

    kind: str
    key: str
    visit: str | None
    value: Any
    sealed: bool = False
    altered: bool = False
    assertion: Any = None


@dataclass(frozen=True)
class UnsentFile:
    """What a file says, and what can be said about it.

    ``whole``: its hash fits. ``seal_problem``: why its seal does not count, None when it does. ``missing``:
    kinds and keys of the parts that the seal names and the file does not hold.
    """

    person: dict[str, str] | None
    device: str | None
    made_at: str
    app: str
    sha256: str
    whole: bool
    sealed: bool
    seal_problem: str | None
    parts: tuple[Part, ...] = field(default=())
    missing: tuple[tuple[str, str], ...] = field(default=())

    def of(self, kind: str) -> list[Part]:
        return [part for part in self.parts if part.kind == kind]

    @property
    def altered(self) -> bool:
        """Whether the file is not as the phone wrote it."""
        return not self.whole or bool(self.missing) or any(part.altered for part in self.parts)


def read_unsent(data: bytes, device_lookup: DeviceLookup) -> UnsentFile:
    """Read the file; :class:`NotUnsent` when it is none. Nothing in it is believed because it is there."""
    content = parsed(data)
    sealed_content = {name: value for name, value in content.items() if name not in {"sha256", "seal"}}
    sha256 = identity_of(sealed_content)
    seal, problem = read_seal(content, device_lookup)
    parts = tuple(compared(part, seal) for part in parts_of(content))
    return UnsentFile(
        person=content["person"],
        device=content["device"],
        made_at=content["made_at"],
        app=content["app"],
        sha256=sha256,
        whole=sha256 == content["sha256"],
        sealed=seal is not None,
        seal_problem=problem,
        parts=parts,
        missing=tuple(missing(seal, parts)),
    )


def parsed(data: bytes) -> dict[str, Any]:
    try:
        content = parse(data)
    except NotCanonical as error:
        raise NotUnsent("not_json", f"The file cannot be read; it may be cut off. {error}") from error
    if not isinstance(content, dict) or content.get("type") != "firstwater-unsent":
        raise NotUnsent("not_unsent", "This is not a file of unsent entries that a phone exported.")
    for place, what in shapes.wrong_places(shapes.UNSENT, content):
        raise NotUnsent("shape", f"{place or 'The file'} {what}.")
    return content


def identity_of(content: Mapping[str, Any]) -> str:
    try:
        return identity(content)
    except NotCanonical as error:
        raise NotUnsent("not_canonical", str(error)) from error


def read_seal(
    content: Mapping[str, Any], device_lookup: DeviceLookup
) -> tuple[Mapping[str, Any] | None, str | None]:
    """The seal's content when the key of the file's person made it, or else why it does not count."""
    if not content.get("seal"):
        return None, "The file carries no seal of the phone."
    result = verify_document(content["seal"], SEAL, shapes.SEAL, device_lookup, None)
    # A revoked phone still says where the file comes from; its entries are refused one by one.
    wrong = [finding for finding in result.findings if finding.code != "device_revoked"]
    if result.content is None or wrong:
        return None, f"The seal of the phone does not count. {wrong[0].detail}"
    if result.content["signer"]["id"] != (content["person"] or {}).get("id"):
        return None, "The seal of the phone does not count. It was made by somebody else than the file names."
    return result.content, None


def parts_of(content: Mapping[str, Any]) -> Iterator[Part]:
    for visit in content["visits"]:
        yield Part("visits", str(visit.get("id")), visit_of(visit), visit)
    for one in content["events"]:
        yield Part("events", str(one["event"].get("id")), visit_of(one["event"], "visit"), one["event"])
    for one in content["photos"]:
        data = decoded(one["base64"])
        good = data is not None and digest(data) == one["sha256"]
        yield Part("photos", one["sha256"], one["visit"], data if good else None, altered=not good)
    for one in content["records"]:
        key = digest(one["jws"].encode("utf-8", "replace"))
        yield Part("records", key, None, one["jws"], assertion=one.get("assertion"))


def visit_of(value: Mapping[str, Any], name: str = "id") -> str | None:
    found = value.get(name)
    return found if isinstance(found, str) else None


def decoded(text: str) -> bytes | None:
    try:
        return base64.b64decode(text, validate=True)
    except ValueError:
        return None


def compared(part: Part, seal: Mapping[str, Any] | None) -> Part:
    if seal is None:
        return part
    named = seal[part.kind]
    fits = part.key in named if isinstance(named, list) else named.get(part.key) == hash_of(part.value)
    is_good = fits and not part.altered
    return replace(part, sealed=is_good, altered=not is_good)


def hash_of(value: Any) -> str | None:
    try:
        return identity(value)
    except NotCanonical:
        return None


def missing(seal: Mapping[str, Any] | None, parts: tuple[Part, ...]) -> Iterator[tuple[str, str]]:
    there = {(part.kind, part.key) for part in parts}
    for kind in KINDS if seal else ():
        yield from ((kind, key) for key in seal[kind] if (kind, key) not in there)  # type: ignore[index]
