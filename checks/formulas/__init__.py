"""The formulas, one module per subject; importing this package fills the catalogue."""

from checks.formulas import (
    conductivity,
    decisions,
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
    "electrical",
    "hydraulics",
    "microbiology",
    "readings",
    "supply",
    "water_grades",
]
