"""The formulas, one module per subject; importing this package fills the catalogue."""

from checks.formulas import (
    conductivity,
    decisions,
    earth_fault,
    electrical,
    hydraulics,
    microbiology,
    readings,
    supply,
    water_grades,
)

__all__ = [
    "conductivity",
    "decisions",
    "earth_fault",
    "electrical",
    "hydraulics",
    "microbiology",
    "readings",
    "supply",
    "water_grades",
]
