"""The formulas, one module per subject; importing this package fills the catalogue."""

from checks.formulas import hydraulics, supply

__all__ = ["hydraulics", "supply"]
