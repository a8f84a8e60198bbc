"""How the pages write what the procedure names."""

from checks.units import OFFERED, unit_named

UNLABELLED = {"dimensionless": ""}


def unit_label(name: str | None) -> str:
    """The sign of a unit as a page shows it: ``uS/cm`` becomes µS/cm; nothing for a bare number."""
    if not name or name in UNLABELLED:
        return ""
    offered = OFFERED.get(name) or OFFERED.get(unit_named(name) or "")
    return offered.label if offered else name
