"""The formulas, one module per subject; importing this package fills the catalogue."""

from checks.formulas import (
    carbonate,
    closed_section,
    conductivity,
    decisions,
    earth_fault,
    electrical,
    hydraulics,
    membrane,
    membrane_performance,
    microbiology,
    piping,
    pretreatment,
    readings,
    supply,
    water_grades,
)

__all__ = [
    "carbonate",
    "closed_section",
    "conductivity",
    "decisions",
    "earth_fault",
    "electrical",
    "hydraulics",
    "membrane",
    "membrane_performance",
    "microbiology",
    "piping",
    "pretreatment",
    "readings",
    "supply",
    "water_grades",
]
