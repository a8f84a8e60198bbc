"""Values of data plate and site that a visit gave or corrected, beside what the office had."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from checks.fold import ENTERED, fold
from checks.units import OFFERED, names_a_unit
from webapp.language import _
from webapp.language import procedure as translated
from webapp.store import Store, Unit

Cell = dict[str, Any]
FIELDS = tuple(f"{owner}." for owner in ENTERED)
KEPT = ("value", "typed", "unit")


@dataclass(frozen=True)
class ValueRead:
    """``office`` is the cell that the record carries, None where the office had none."""

    owner: str
    entry: Mapping[str, Any]
    office: Cell | None
    read: Cell

    @property
    def name(self) -> str:
        """The name of the quantity: ``plate.maximum_pressure``."""
        return f"{self.owner}.{self.entry['id']}"

    @property
    def line(self) -> str:
        """What was read and what the office had, for a person."""
        had = f"the office had {in_words(self.entry, self.office)}" if self.office else "the office had none"
        return f"{self.entry['label']}: {in_words(self.entry, self.read)} ({had})"

    def line_for_reader(self) -> str:
        """The same in the reader's language: ``line`` is kept, and English."""
        entry = translated(self.entry)
        read = in_words(entry, self.read)
        if self.office is None:
            return _("{label}: {read} (the office had none)", label=entry["label"], read=read)
        office = in_words(entry, self.office)
        return _("{label}: {read} (the office had {office})", label=entry["label"], read=read, office=office)

    def cell(self) -> Cell:
        """As a unit or a site keeps it: without whose entry it was."""
        return {name: self.read[name] for name in KEPT if self.read.get(name) is not None}


def values_read(content: Mapping[str, Any], procedure: Mapping[str, Any]) -> list[ValueRead]:
    """The values of a record that were read at the unit, in the procedure's order."""
    entered = [event for event in content["events"] if event["field"].startswith(FIELDS)]
    entries = fold(procedure, entered)["entries"] if entered else {}
    office = {"plate": content["unit"]["plate"], "site": content["site"]["values"]}
    return [
        ValueRead(owner, entry, office[owner].get(entry["id"]), entries[name])
        for owner in ENTERED
        for entry in procedure.get(owner) or ()
        if (name := f"{owner}.{entry['id']}") in entries
    ]


def in_words(entry: Mapping[str, Any], cell: Mapping[str, Any]) -> str:
    """A cell for a person: as it was typed, with its unit; a choice by its label."""
    if "conflict" in cell:
        return "; ".join(in_words(entry, one) for one in cell["conflict"])
    value = cell.get("value")
    for option in entry["options"]:
        if option["value"] == value:
            return str(option["label"])
    unit = OFFERED.get(cell.get("unit") or entry["unit"] or "1")
    typed = cell.get("typed") or value
    parts = (typed, unit.label if unit and not names_a_unit(str(typed)) else "")
    return " ".join(str(part) for part in parts if part not in (None, ""))


def offered(store: Store, unit: Unit) -> dict[str, list[ValueRead]]:
    """By owner what the unit's last accepted record read and the office, as it is now, does not have."""
    sha256 = store.listing.unit_state(unit.id).record
    if sha256 is None:
        return {}
    content = store.records.get(sha256).content()
    procedure = store.procedures.get(content["procedure"]["hash"]).content()
    now = {owner: office_values(store, unit, owner) for owner in ENTERED}
    found: dict[str, list[ValueRead]] = {}
    for one in values_read(content, procedure):
        own = one.entry["id"]
        elsewhere = one.owner == "site" and content["site"]["id"] != unit.site
        same = (now[one.owner].get(own) or {}).get("value") == one.read.get("value")
        if not elsewhere and not same and one.read.get("value") is not None:
            found.setdefault(one.owner, []).append(
                ValueRead(one.owner, one.entry, now[one.owner].get(own), one.read)
            )
    return found


def office_values(store: Store, unit: Unit, owner: str) -> dict[str, Cell]:
    """What the office has now."""
    return unit.plate if owner == "plate" else store.sites.get(unit.site).values


def seen(values: list[ValueRead]) -> str:
    """One text for what a page shows, so that a button never does something else than its page said."""
    shown = [[one.name, one.office, one.cell()] for one in values]
    return hashlib.sha256(json.dumps(shown, sort_keys=True).encode()).hexdigest()
