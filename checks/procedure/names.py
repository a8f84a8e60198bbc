"""The quantities of a procedure by their dotted names."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from checks.procedure.errors import Place
from checks.procedure.model import MEASURED_KINDS, Derived, Entry, Procedure

NUMBER = "number"
OWNERS = ("plate", "site", "baseline")


@dataclass(frozen=True)
class Known:
    """What a quantity is: the kind of its entry (`number` for a derived one), its unit and its choices."""

    kind: str
    unit: str | None
    options: tuple[object, ...] = ()
    entry: Entry | None = None
    derived: tuple[Derived, ...] = ()

    @property
    def is_number(self) -> bool:
        """Whether it is one number, so that it can be compared."""
        return self.kind in (NUMBER, "reading")

    @property
    def is_series(self) -> bool:
        """Whether it is a list of numbers."""
        return self.kind == "series"


class Names:
    """Every quantity of a procedure; a name that leads nowhere is an error that offers near ones."""

    def __init__(self, procedure: Procedure, place: Place) -> None:
        self.known: dict[str, Known] = {}
        for owner in OWNERS:
            entries = getattr(procedure, owner)
            self._add_entries(owner, entries, place)
        for step in procedure.steps:
            self._add_entries(step.id, step.entries, place)
            for derived in step.derived:
                self._add_derived(f"{step.id}.{derived.id}", derived, place)

    def find(self, name: object, place: Place) -> Known:
        """The quantity of this name."""
        found = self.known.get(name) if isinstance(name, str) else None
        if found is None:
            near = get_close_matches(str(name), self.known, n=3)
            hint = (
                f"; did you mean {' or '.join(near)}?"
                if near
                else "; write STEP.NAME, plate.NAME, site.NAME or baseline.NAME"
            )
            place.wrong(f"there is no quantity {name!r}{hint}")
        return found

    def _add_entries(self, owner: str, entries: tuple[Entry, ...], place: Place) -> None:
        for entry in entries:
            name = f"{owner}.{entry.id}"
            if name in self.known:
                place.inside(owner, entry.id).wrong(f"there are two entries {name!r}; rename one")
            options = tuple(option.value for option in entry.options)
            if entry.kind == "yes_no":
                options = ("yes", "no")
            unit = entry.unit if entry.kind in MEASURED_KINDS else None
            self.known[name] = Known(entry.kind, unit, options, entry=entry)

    def _add_derived(self, name: str, derived: Derived, place: Place) -> None:
        before = self.known.get(name)
        here = place.inside("derived", name)
        if before is not None and before.entry is not None:
            here.wrong("an entry has the same name; rename one")
        if before is None:
            self.known[name] = Known(NUMBER, derived.unit, derived=(derived,))
            return
        if not before.derived[-1].when:
            here.wrong("the one before it has no condition, so this one never counts; give that one a `when`")
        if derived.unit != before.unit:
            here.wrong(f"its unit is {derived.unit}, that of the one before {before.unit}; use one unit")
        self.known[name] = Known(NUMBER, derived.unit, derived=(*before.derived, derived))
