"""A file of unsent entries, taken in: the same checks as when a phone sends, nothing believed for the file.

When the person of the file carries it in, their session says what it says when their phone sends. Anybody
else's session says nothing about them: then only what the phone's seal names is taken, and signed records.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from webapp.passkeys import ASSERTION, Place
from webapp.receiving.events import KEPT_APART, NotTaken, put_aside, receive_events
from webapp.receiving.photos import check_jpeg, receive_photo
from webapp.receiving.records import receive_record
from webapp.receiving.visits import receive_visit
from webapp.signing import jws
from webapp.signing.canonical import digest
from webapp.signing.shapes import EVENT, VISIT, wrong_places
from webapp.signing.unsent import Part, UnsentFile
from webapp.store import Person, Refused, Store, Taken

NEW, HERE, APART, REFUSED = "new", "here", "quarantined", "refused"

NOT_SEALED = (
    "Nothing shows that it comes from the phone of the person it names. "
    "That person can sign in and take the file in."
)
ALTERED = "It is not what the phone wrote: it was changed in the file or damaged on the way."


@dataclass(frozen=True)
class Line:
    """What became of one part, or would; ``state`` is new, here, quarantined or refused."""

    kind: str
    key: str
    visit: str | None
    state: str
    code: str | None = None
    detail: str | None = None


class NotYours(Exception):  # noqa: N818 - an answer, not a failure
    """The file as a whole cannot be taken in by this person; ``code`` says why."""

    def __init__(self, code: str, sentence: str):
        super().__init__(sentence)
        self.code = code


class DryRun(Exception):  # noqa: N818
    """Ends the transaction of a preview."""


def owner_of(store: Store, file: UnsentFile, carrier: Person, may_carry: bool) -> Person:
    """The person of the file, if ``carrier`` may take it in; ``may_carry``: also that of others.

    What somebody made whose account was disabled meanwhile is kept apart, as what comes from a revoked phone.
    """
    owner = store.people.find(file.person["id"]) if file.person else None
    if owner is None:
        raise NotYours("person_unknown", "The file names nobody who is known here.")
    if owner.id != carrier.id and not may_carry:
        raise NotYours("not_yours", f"This file is {owner.name}'s. {owner.name} or a supervisor takes it in.")
    if owner.role not in {"installer", "supervisor"}:
        sentence = f"{owner.name} may not send entries now. An administrator can change that."
        raise NotYours("forbidden", sentence)
    return owner


def preview_unsent(
    store: Store, file: UnsentFile, owner: Person, carrier: Person, place: Place | None = None
) -> list[Line]:
    """What :func:`take_in_unsent` would do: it is done and undone again."""
    lines: list[Line] = []
    try:
        with store.transaction():
            lines = take_in(store, file, owner, carrier, place, keep_photos=False)
            raise DryRun
    except DryRun:
        return lines


def take_in_unsent(
    store: Store, file: UnsentFile, owner: Person, carrier: Person, place: Place | None = None
) -> list[Line]:
    """Take in what can be, whole or not at all; the same file again changes nothing but the audit trail.

    ``place`` is where passkeys are valid, for the confirmations of signed records.
    """
    with store.transaction():
        lines = take_in(store, file, owner, carrier, place, keep_photos=True)
        counts = Counter(line.state for line in lines)
        store.audit.add(
            "unsent_file_taken_in",
            person=carrier.id,
            subject=file.sha256,
            owner=owner.id,
            device=file.device,
            sealed=file.sealed,
            altered=file.altered,
            counts=dict(sorted(counts.items())),
        )
    return lines


def take_in(
    store: Store, file: UnsentFile, owner: Person, carrier: Person, place: Place | None, keep_photos: bool
) -> list[Line]:
    """In the order in which a phone sends."""
    entered: dict[str, Callable[[Part], Iterator[Line]]] = {
        "visits": lambda part: visit_line(store, part, owner),
        "events": lambda part: event_line(store, part, owner),
        "photos": lambda part: photo_line(store, part, owner, keep_photos),
        "records": lambda part: record_line(store, part, owner, place),
    }
    lines: list[Line] = []
    for kind, enter in entered.items():
        for part in file.of(kind):
            problem = distrust(file, part, owner, carrier)
            lines += [refused(store, part, carrier, *problem)] if problem else enter(part)
    return lines


def distrust(file: UnsentFile, part: Part, owner: Person, carrier: Person) -> tuple[str, str] | None:
    """Why a part is not looked at as something that its person sent: code and sentence."""
    if part.kind == "records":  # signed by its person, wherever it comes from
        return None
    if part.altered or (not file.whole and not file.sealed and part.kind != "photos"):
        return "altered", ALTERED
    if owner.id != carrier.id and not part.sealed:
        return "not_sealed", NOT_SEALED
    return None


def refused(store: Store, part: Part, carrier: Person, code: str, detail: str) -> Line:
    """An altered entry is kept apart, as far as it is one; the rest stays in the file."""
    if code == "altered" and part.kind == "events" and not list(wrong_places(EVENT, part.value)):
        put_aside(store, part.value, carrier, NotTaken(code, detail))
        return Line(part.kind, part.key, part.visit, APART, code, detail)
    return Line(part.kind, part.key, part.visit, REFUSED, code, detail)


def visit_line(store: Store, part: Part, owner: Person) -> Iterator[Line]:
    body = {name: part.value[name] for name in VISIT if name in part.value}
    wrong = next(wrong_places(VISIT, body), None)
    if wrong:
        yield line(part, REFUSED, "shape", f"{wrong[0]} {wrong[1]}.")
        return
    was_here = store.visits.find(body["id"]) is not None
    try:
        receive_visit(store, body, owner)
    except Refused as error:
        yield line(part, REFUSED, error.code, str(error))
    except Taken as error:
        yield line(part, REFUSED, "id_taken", str(error))
    else:
        yield line(part, HERE if was_here else NEW)


def event_line(store: Store, part: Part, owner: Person) -> Iterator[Line]:
    was_here = store.events.find(part.key) is not None
    answer = receive_events(store, [part.value], owner)
    for one in answer["refused"]:
        state = APART if one["code"] in KEPT_APART else REFUSED
        yield line(part, state, one["code"], one["detail"])
    if answer["received"]:
        yield line(part, HERE if was_here else NEW)


def photo_line(store: Store, part: Part, owner: Person, keep: bool) -> Iterator[Line]:
    if store.photos.find(part.key) is not None:
        yield line(part, HERE)
        return
    try:
        if keep:
            receive_photo(store, part.key, part.value, owner)
        else:
            check_jpeg(part.value)
    except Refused as error:
        yield line(part, REFUSED, error.code, str(error))
    else:
        yield line(part, NEW)


def record_line(store: Store, part: Part, owner: Person, place: Place | None) -> Iterator[Line]:
    wrong = part.assertion and next(wrong_places(ASSERTION, part.assertion), None)
    if wrong:
        yield line(part, REFUSED, "shape", f"assertion.{wrong[0]} {wrong[1]}.")
        return
    was_here = is_kept(store, part.value)
    answer = receive_record(store, part.value, owner, part.assertion, place)
    if answer.state == "quarantined":
        reasons = " ".join(reason["detail"] for reason in answer.reasons)
        yield line(part, APART, answer.reasons[0]["code"], reasons)
    else:
        yield line(part, HERE if was_here else NEW)


def is_kept(store: Store, text: str) -> bool:
    try:
        return store.records.find(digest(jws.read(text).payload)) is not None
    except jws.NotValid:
        return False


def line(part: Part, state: str, code: str | None = None, detail: str | None = None) -> Line:
    return Line(part.kind, part.key, part.visit, state, code, detail)
