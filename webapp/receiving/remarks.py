"""What a supervisor should know of a record before deciding; nothing of it keeps the record out."""

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any

from webapp.read_at_unit import values_read
from webapp.receiving.answer import CLOCK_TOLERANCE, note
from webapp.receiving.known import Known
from webapp.signing.judged_again import Judged, listed
from webapp.store import NotInStore, Store
from webapp.store.table import written

CLOCK_OFF = 60_000  # milliseconds by which a phone's clock may be wrong without remark


def formulas_remarks(judged: Judged | None) -> Iterator[dict[str, Any]]:
    """Other formulas that gave the same verdicts keep no record out, and are told."""
    if judged is None or judged.has_own_formulas:
        return
    detail = "The phone judged with other formulas than the server; the verdicts are the same."
    if judged.values:
        shown = listed(judged.values)
        detail = (
            "The phone judged with other formulas than the server; the verdicts are the same, "
            f"values differ at {shown}."
        )
    yield note("formulas_differ", detail)


def remarks(known: Known, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """What the record itself and the server's data say, before its new entries are kept."""
    store = known.store
    signer = known.person(content["signer"]["id"])
    if (signer.name, signer.role) != (content["signer"]["name"], content["signer"]["role"]):
        yield note("signer_changed", f"Here the signer is {signer.name}, {signer.role}.")
    # Entries of others may have come that the signer had not fetched: kept, and shown to the supervisor.
    left_out = store.events.left_out(content["visit"], (event["id"] for event in content["events"]))
    if left_out:
        detail = f"{len(left_out)} entries of this visit are not in the record."
        yield note("events_left_out", detail, events=left_out)
    yield from plate_remarks(store, content)
    yield from clock_remarks(content, store.clock())
    yield from reference_remarks(known, content)


def plate_remarks(store: Store, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Values of plate and site that the limits rest on and that the visit gave instead of the office."""
    read = values_read(content, procedure_of(store, content))
    if read:
        detail = f"Read at the unit: {'; '.join(one.line for one in read)}."
        yield note("plate_read_at_unit", detail, fields=[one.name for one in read])


def clock_remarks(content: Mapping[str, Any], now: datetime) -> Iterator[dict[str, Any]]:
    signed_at = content["signed_at"]
    if signed_at > written(now + timedelta(seconds=CLOCK_TOLERANCE)):
        yield note("clock_ahead", "The phone's clock was ahead when the record was signed.")
    offset = content.get("clock_offset") or 0
    if abs(offset) >= CLOCK_OFF:
        off = f"{round(abs(offset) / 60_000)} min {'slow' if offset > 0 else 'fast'}"
        yield note("clock_off", f"The phone's clock was {off} when it last met the server.")
    if any(event["at"] > signed_at for event in content["events"]):
        yield note("entries_after_signing", "An entry has a later time than the signature.")


def reference_remarks(known: Known, content: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Data plate, site and instruments travel in the record; here they are compared with the server's."""
    store, unit = known.store, known.unit(content["unit"]["id"])
    if unit is None:
        raise NotInStore("unit", content["unit"]["id"])
    places = [f"plate.{name}" for name in changed_cells(content["unit"]["plate"], unit.plate)]
    places += [f"baseline.{name}" for name in changed_baseline(store, content)]
    site = known.site(unit.site)
    places += [f"site.{name}" for name in changed_cells(content["site"]["values"], site.values)]
    named = content["instruments"]
    instruments = store.instruments.find_all(named) if named else {}
    for key, instrument in named.items():
        ours = instruments.get(key)
        if ours is None or ours.as_json() != instrument:
            places.append(f"instrument {instrument.get('name', key)}")
    if content["site"]["id"] != site.id:
        places.append("site")
    if places:
        detail = f"The record was judged with other reference data than the server's: {', '.join(places)}."
        yield note("reference_differs", detail, places=places)


def changed_baseline(store: Store, content: Mapping[str, Any]) -> list[str]:
    """Where a visit that compares was judged against another baseline than the server's."""
    ours = (content["unit"].get("baseline") or {}).get("values", {})
    compares = procedure_of(store, content).get("compares")
    theirs = store.baselines.of_unit(content["unit"]["id"])["values"] if compares else {}
    return changed_cells(ours, theirs)


def procedure_of(store: Store, content: Mapping[str, Any]) -> Mapping[str, Any]:
    sha256 = content["procedure"]["hash"]
    found = store.procedures.shared(sha256)
    if found is None:
        raise NotInStore("procedure", sha256)
    return found


def changed_cells(ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> list[str]:
    return sorted(
        name
        for name in ours.keys() | theirs.keys()
        if (ours.get(name) or {}).get("value") != (theirs.get(name) or {}).get("value")
    )
