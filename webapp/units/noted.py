"""What an administrator does to units, sites and instruments, in the audit trail."""

from collections.abc import Mapping
from typing import Any

from webapp import current
from webapp.store import Instrument, Site, Unit

Thing = Unit | Site | Instrument

# The address of a label opens the unit's public page: it is never noted.
NOT_NOTED = {"id", "token", "short_code", "previous"}


def note(action: str, subject: str, changes: dict[str, str]) -> None:
    person = current.person()
    current.store().audit.add(action, person=person.id if person else None, subject=subject, **changes)


def changed(before: Thing | None, after: Thing) -> dict[str, str]:
    """Each value that is not what it was, as "old -> new"; of something new its name."""
    if before is None:
        return {"name": after.name}
    old, new = flat(before), flat(after)
    names = sorted(old.keys() | new.keys())
    return {
        name.replace(".", "_"): f"{old.get(name, '-')} -> {new.get(name, '-')}"
        for name in names
        if old.get(name) != new.get(name)
    }


def flat(thing: Thing) -> dict[str, str]:
    """The values by name; those of a plate or a site under the name of their entry, as they were typed."""
    found: dict[str, str] = {}
    for name, value in thing.__dict__.items():
        if isinstance(value, Mapping):
            found |= {f"{name}.{key}": words(cell) for key, cell in value.items()}
        elif name not in NOT_NOTED:
            found[name] = "-" if value is None else str(value)
    return found


def words(cell: Mapping[str, Any]) -> str:
    parts = (cell.get("typed") or cell.get("value"), cell.get("unit"))
    return " ".join(str(part) for part in parts if part is not None)
