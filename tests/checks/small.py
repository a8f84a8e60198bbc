"""A small invented procedure, and short ways to build cases for it."""

from pathlib import Path

from checks.procedure import plain
from checks.procedure.load import parse

TEXT = Path(__file__).with_suffix(".toml").read_text(encoding="utf-8")
PROCEDURE = plain(parse(TEXT, "small.toml"))

GAUGE = {
    "id": "g",
    "kind": "gauge",
    "name": "Gauge",
    "unit": "bar",
    "range_minimum": 0,
    "range_maximum": 60,
    "accuracy_of_reading": 0,
    "accuracy_of_range": 0,
    "digits": 0,
    "resolution": 0.1,
    "calibration_uncertainty": 0,
    "calibration_due": "2027-03-01",
}


def case(*, plate=None, site=None, baseline=None, entries=None, steps=None, instruments=None):
    """A case from bare values; readings in bar were taken with the gauge `g`."""
    return {
        "plate": {
            name: {"value": value} for name, value in (plate or {"ceiling": 10, "grade": "plain"}).items()
        },
        "site": {name: {"value": value} for name, value in (site or {}).items()},
        "baseline": {name: {"value": value} for name, value in (baseline or {}).items()},
        "instruments": {one["id"]: one for one in (instruments if instruments is not None else [GAUGE])},
        "entries": {name: _cell(value) for name, value in (entries or {}).items()},
        "steps": steps or {},
    }


def _cell(value):
    if isinstance(value, list):
        return [_cell(one) for one in value]
    if isinstance(value, dict):
        return value
    if isinstance(value, str):
        return {"value": value}
    return {"value": value, "instrument": "g", "at": "2026-11-25T09:00:00.000Z"}


def gauge(**changes):
    """The gauge with some of its data changed."""
    return {**GAUGE, **changes}
