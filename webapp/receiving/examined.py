"""A record looked at by itself: this takes the longest and needs no lock, so it comes before one is taken."""

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from webapp.signing import Verification, verify_record
from webapp.signing.canonical import canonical, digest
from webapp.signing.verify import DeviceLookup, Procedures
from webapp.store.awaited import awaited_results
from webapp.store.visits import Procedures as KeptProcedures

log = logging.getLogger(__name__)


class KnownProcedures:
    """The procedures of the store, as the verification asks for them."""

    def __init__(self, procedures: KeptProcedures):
        self.procedures = procedures

    def get(self, sha256: str, /) -> Mapping[str, Any] | None:
        return self.procedures.shared(sha256)


@dataclass(frozen=True)
class EventText:
    """The canonical text of an event, and its hash."""

    text: bytes
    sha256: str


@dataclass(frozen=True)
class Examined:
    """``result`` is the verification; of the judgement its content keeps what is said of the whole record.

    ``events`` are the texts of its events, in their order, ``awaited`` the results that it waits for: both
    empty for a record that cannot be accepted.
    """

    result: Verification
    events: tuple[EventText, ...] = ()
    awaited: tuple[dict[str, Any], ...] = ()


Examining = Callable[[Sequence[str], str], Iterator[list[Examined | None]]]
"""From the texts of records, and the time at which they were received, to what each is by itself.

Some after others, in their order; None where looking at one failed, which is no fault of the record. An empty
list says that the next take a while, so that nobody holds a lock until then.
"""


def examine_each(
    device: DeviceLookup, procedures: Procedures, texts: Sequence[str], received_at: str
) -> list[Examined | None]:
    """One after the other; one that fails is logged and spoils no other."""
    found: list[Examined | None] = []
    device = cache(device)  # asked once more when the records are kept: it may be revoked meanwhile
    for text in texts:
        try:
            found.append(examine(text, device, procedures, received_at))
        except Exception:
            log.exception("A record of %d characters could not be examined", len(text))
            found.append(None)
    return found


def examine(text: str, device: DeviceLookup, procedures: Procedures, received_at: str) -> Examined:
    """Verify the JWS of a record and judge it again; see :func:`webapp.signing.verify_record`."""
    result = verify_record(text, device, procedures, received_at)
    if result.content is None or not result.valid:
        return Examined(result)
    content = result.content
    texts = [canonical(event) for event in content["events"]]
    return Examined(
        replace(result, content={**content, "judgement": {"record": content["judgement"]["record"]}}),
        tuple(EventText(one, digest(one)) for one in texts),
        tuple(awaited_results(content, procedures.get(content["procedure"]["hash"]) or {"steps": []})),
    )
