"""The formulas, one module per subject; importing this package fills the catalogue."""

from checks.formulas import (
    closed_section,
    conductivity,
    decisions,
    earth_fault,
    electrical,
    hydraulics,
    microbiology,
    piping,
    readings,
    supply,
    water_grades,
)

__all__ = [
    "closed_section",
    "conductivity",
    "decisions",
    "earth_fault",
    "electrical",
    "hydraulics",
    "microbiology",
    "piping",
    "readings",
    "supply",
    "water_grades",
]
