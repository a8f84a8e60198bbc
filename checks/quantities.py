"""Entries and derived quantities, resolved as a graph: each once, with what is missing named.

Free of domain words; `static/judging/quantities.js` is the twin. A quantity keeps how it depends on each
reading, so that two values from one reading do not count its uncertainty twice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from checks.entries import days, fits, milliseconds, read_entry
from checks.fold import ENTERED
from checks.instrument import contributions, property_of, standard_uncertainty
from checks.uncertainty import UNKNOWN, Contribution, combined, repeated

Part = Mapping[str, Any]
OWNERS = ("plate", "site", "baseline")
"""Whose values are set beside the steps: the unit's, the site's, and those of an earlier record."""


@dataclass
class Quantity:
    """A value, or why there is none.

    `applies` is None while what decides it is missing. `slopes` are the derivatives by the readings it
    depends on, each with what that reading brings in; `nu` are the degrees of freedom of `u`, None without
    limit; `used` the entries it rests on, `missing` those that have no usable value.
    """

    value: Any = None
    unit: str | None = None
    u: float | None = 0
    formula: str | None = None
    inputs: dict[str, Any] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)
    reason: dict[str, Any] | None = None
    applies: bool | None = True
    nu: float | None = None
    slopes: dict[str, tuple[float, Contribution]] = field(default_factory=dict)
    used: list[str] = field(default_factory=list)

    def plain(self) -> dict[str, Any]:
        """As it is reported (docs/api.md)."""
        return {
            "value": self.value,
            "unit": self.unit,
            "u": self.u,
            "formula": self.formula,
            "inputs": self.inputs,
            "missing": self.missing,
            "reason": self.reason,
            "applies": self.applies,
        }


@dataclass(frozen=True)
class PlannedStep:
    """A step with the names of its entries and rules."""

    step: Part
    entries: list[tuple[str, Part]]
    rules: list[tuple[str, Part]]


@dataclass(frozen=True)
class Plan:
    """A procedure, indexed by the names of quantities."""

    entries: dict[str, Part] = field(default_factory=dict)
    derived: dict[str, list[Part]] = field(default_factory=dict)
    settable: dict[str, tuple[str, str]] = field(default_factory=dict)
    steps: list[PlannedStep] = field(default_factory=list)

    @classmethod
    def of(cls, procedure: Mapping[str, Any]) -> Plan:
        """The plan of a procedure's plain data."""
        plan = cls()
        for owner in OWNERS:
            for entry in procedure.get(owner) or ():
                plan.entries[f"{owner}.{entry['id']}"] = entry
                plan.settable[f"{owner}.{entry['id']}"] = (owner, entry["id"])
        for step in procedure["steps"]:
            entries, derived, rules = (_named(step, parts) for parts in ("entries", "derived", "rules"))
            plan.steps.append(PlannedStep(step, entries, rules))
            plan.entries.update(entries)
            for name, one in derived:
                plan.derived.setdefault(name, []).append(one)
        return plan


def _named(step: Part, parts: str) -> list[tuple[str, Part]]:
    return [(f"{step['id']}.{part['id']}", part) for part in step[parts]]


class Quantities:
    """The quantities of one case, each resolved when it is first asked for."""

    def __init__(self, plan: Plan, case: Mapping[str, Any], formulas: Mapping[str, Any]) -> None:
        self.plan, self.case, self.formulas = plan, case, formulas
        self.known: dict[str, Quantity] = {}
        self._cells: dict[str, Any] = {}

    def __getitem__(self, name: str) -> Quantity:
        found = self.known.get(name)
        if found is None:
            entry = self.plan.entries.get(name)
            found = self._entry(name, entry) if entry else self._derived(name, self.plan.derived[name])
            self.known[name] = found
        return found

    def cell(self, name: str) -> Any:
        """What was entered under this name: a cell, a list of cells, a conflict, or None.

        What was given in the visit goes before what was set beside the steps, and that before the default.
        """
        if name not in self._cells:
            self._cells[name] = self._cell(name)
        return self._cells[name]

    def _cell(self, name: str) -> Any:
        owner, own = self.plan.settable.get(name, (None, name))
        entered = self.case["entries"].get(name) if owner is None or owner in ENTERED else None
        if owner is None or entered is not None:
            return entered
        cell = (self.case.get(owner) or {}).get(own)
        default = self.plan.entries[name]["default"]
        return {"value": default} if cell is None and default is not None else cell

    def instrument(self, name: str) -> Mapping[str, Any] | None:
        """The instrument of a reading, or of the last reading of a series."""
        return self.case["instruments"].get(self._chosen(name))

    def _chosen(self, name: str) -> str | None:
        cell = self.cell(name)
        if isinstance(cell, list):
            cell = cell[-1] if cell else None
        chosen = (cell or {}).get("instrument")
        return chosen if isinstance(chosen, str) else None

    def uncertainty_at(self, name: str, value: float) -> float | None:
        """The standard uncertainty that a reading of this value has; 0 where no instrument is meant."""
        entry = self.plan.entries[name]
        instrument = self.instrument(name)
        if instrument is None:
            return 0 if entry["instrument"] is None else None
        return standard_uncertainty(instrument, value, entry["unit"], self.formulas)

    def holds(
        self, conditions: Sequence[Mapping[str, Any]] | None
    ) -> tuple[bool | None, list[str], list[str]]:
        """Whether all conditions hold (None: not known yet), what is missing for that, what it rests on."""
        missing: list[str] = []
        used: list[str] = []
        unknown = False
        for condition in conditions or ():
            quantity = self[condition["quantity"]]
            add(used, quantity.used)
            holds = _holds(condition, quantity)
            if holds is False:
                return False, [], used
            if holds is None:
                unknown = True
                add(missing, quantity.missing or [condition["quantity"]])
        return (None if unknown else True), missing, used

    def _entry(self, name: str, entry: Mapping[str, Any]) -> Quantity:
        applies, missing, used = self.holds(entry["when"])
        quantity = Quantity(unit=entry["unit"], applies=applies, missing=missing, used=add(used, [name]))
        if not applies:
            return quantity
        value, quantity.reason = read_entry(entry, self.cell(name))
        if quantity.reason is not None:
            quantity.reason["quantity"] = name
        if value is None:
            quantity.missing = [name]
            return quantity
        quantity.value = value
        if entry["kind"] in ("reading", "series"):
            quantity.u, at = self._least_certain(name, value if isinstance(value, list) else [value])
            quantity.slopes = {} if quantity.u == 0 else {name: (1.0, self._contribution(name, at))}
        return quantity

    def _least_certain(self, name: str, values: Sequence[float]) -> tuple[float | None, float]:
        """The greatest of the readings' uncertainties, and the reading that has it."""
        found: tuple[float | None, float] = (-1.0, values[0])
        for value in values:
            u = self.uncertainty_at(name, value)
            if u is None:
                return None, value
            if found[0] is not None and u > found[0]:
                found = u, value
        return found

    def _contribution(self, name: str, value: float) -> Contribution:
        """What a reading of this value brings into everything that is computed from it."""
        instrument = self.instrument(name)
        unit = self.plan.entries[name]["unit"]
        known = None if instrument is None else contributions(instrument, value, unit, self.formulas)
        if instrument is None or known is None:
            return UNKNOWN
        return Contribution(own=known[1], common=known[0], instrument=self._chosen(name))

    def _derived(self, name: str, alternatives: Sequence[Mapping[str, Any]]) -> Quantity:
        used: list[str] = []
        for one in alternatives:
            applies, missing, rests_on = self.holds(one["when"])
            add(used, rests_on)
            if applies is None:
                return Quantity(unit=one["unit"], applies=None, missing=missing, used=used)
            if applies:
                quantity = Quantity(unit=one["unit"], formula=one["formula"], used=used)
                self._compute(name, one, quantity)
                return quantity
        return Quantity(unit=alternatives[0]["unit"], applies=False, used=used)

    def _compute(self, name: str, derived: Mapping[str, Any], quantity: Quantity) -> None:
        sources: dict[str, tuple[str, Quantity]] = {}
        left_out: dict[str, list[str]] = {}
        for input_name, given in derived["inputs"].items():
            self._take(input_name, given, quantity, sources, left_out)
        if quantity.missing or quantity.reason:
            return
        if derived["formula"] is None:
            quantity.value = quantity.inputs.get("value")
            quantity.missing = add([], left_out.get("value", []))
        else:
            self._evaluate(name, derived["formula"], quantity, left_out)
        if quantity.value is not None:
            self._propagate(derived["formula"], quantity, sources)

    def _take(
        self,
        input_name: str,
        given: Any,
        quantity: Quantity,
        sources: dict[str, tuple[str, Quantity]],
        left_out: dict[str, list[str]],
    ) -> None:
        """One input: its value, or why there is none. An optional entry may be left to the formula."""
        if isinstance(given, Mapping) and "value" in given:
            quantity.inputs[input_name] = given["value"]
            return
        if isinstance(given, Mapping) and "instrument" in given:
            self._take_property(input_name, given, quantity)
            return
        newest = given["newest"] if isinstance(given, Mapping) else 0
        given = given["quantity"] if isinstance(given, Mapping) else given
        source = self[given]
        add(quantity.used, source.used)
        if source.value is not None and newest > 0 and len(source.value) < newest:
            add(quantity.missing, [given])
        elif source.value is not None:
            quantity.inputs[input_name] = self._as_input(given, source.value, newest)
            sources[input_name] = given, self._newest(given, source, newest)
        elif source.reason is not None:
            quantity.reason = quantity.reason or source.reason
            add(quantity.missing, source.missing)
        elif source.applies is False or self._optional(given):
            left_out[input_name] = [given]
        else:
            add(quantity.missing, source.missing)

    def _newest(self, name: str, source: Quantity, newest: int) -> Quantity:
        """A series as far as it is taken: what was read before makes the newest readings no less certain."""
        if newest == 0 or not source.slopes:
            return source
        _, at = self._least_certain(name, source.value[-newest:])
        return replace(source, slopes={f"{name} newest {newest}": (1.0, self._contribution(name, at))})

    def _take_property(self, input_name: str, given: Mapping[str, Any], quantity: Quantity) -> None:
        name = given["instrument"]
        reading = self[name]
        add(quantity.used, reading.used)
        instrument = self.instrument(name)
        if instrument is None:
            if reading.value is None:
                add(quantity.missing, reading.missing or [name])
            else:
                quantity.reason = quantity.reason or {"code": "no_instrument", "quantity": name}
            return
        value = reading.value[-1] if isinstance(reading.value, list) else reading.value
        number = property_of(instrument, given["property"], value, reading.unit or "1")
        if number is None:
            quantity.reason = quantity.reason or {
                "code": "instrument_incomplete",
                "name": instrument.get("name"),
                "quantity": name,
            }
        else:
            quantity.inputs[input_name] = number

    def _as_input(self, name: str, value: Any, newest: int) -> Any:
        if newest > 0:
            return value[-newest:]
        entry = self.plan.entries.get(name)
        counted = _COUNTED.get(entry["kind"]) if entry is not None else None
        return counted(value) if counted else value

    def _optional(self, name: str) -> bool:
        entry = self.plan.entries.get(name)
        return entry is not None and not entry["required"]

    def _evaluate(
        self, name: str, formula: str, quantity: Quantity, left_out: Mapping[str, list[str]]
    ) -> None:
        outcome = self.formulas[formula].evaluate(quantity.inputs)
        quantity.value, quantity.reason = outcome.value, None
        reason = outcome.reason
        if reason is None:
            return
        if reason["code"] == "missing_input" and reason["input"] in left_out:
            add(quantity.missing, left_out[reason["input"]])
        else:
            quantity.reason = {**reason, "quantity": name}

    def _propagate(
        self, formula: str | None, quantity: Quantity, sources: Mapping[str, tuple[str, Quantity]]
    ) -> None:
        """u from the sensitivities; a reading that comes in twice does not count twice."""
        found = {
            one: self._slopes(formula, one, name, source, quantity) for one, (name, source) in sources.items()
        }
        if not any(found.values()):
            return
        factors = self.formulas[formula].sensitivities(quantity.inputs) if formula else {"value": 1.0}
        for one, slopes in found.items():
            factor = factors.get(one)
            for key, (slope, brought) in slopes.items():
                before = quantity.slopes[key][0] if key in quantity.slopes else 0.0
                more = math.nan if factor is None else factor * slope
                quantity.slopes[key] = before + more, brought
        quantity.u, quantity.nu = combined(quantity.slopes, self.formulas)

    def _slopes(
        self, formula: str | None, input_name: str, name: str, source: Quantity, quantity: Quantity
    ) -> Mapping[str, tuple[float, Contribution]]:
        """What comes in through one input; repeats bring their scatter, and the meter's at their mean."""
        if formula is None or not getattr(self.formulas[formula].inputs[input_name], "repeats", False):
            return source.slopes
        values = quantity.inputs[input_name]
        middle = self.formulas["series_mean"].evaluate({"readings": values}).value
        found = {}
        if source.slopes and middle is not None:
            found[f"{name} mean of {len(values)}"] = 1.0, self._contribution(name, middle)
        scatter = repeated(values, self.formulas)
        if scatter is not None:
            found[f"{name} scatter of {len(values)}"] = 1.0, scatter
        return found


_COUNTED = {"instant": milliseconds, "date": days}
"""How what is a text becomes the number that a formula takes."""


def _holds(condition: Mapping[str, Any], quantity: Quantity) -> bool | None:
    if quantity.applies is None:
        return None
    if quantity.applies is False:
        return False
    if quantity.value is None:
        return False if condition["given"] and quantity.reason is None else None
    return fits(condition, quantity.value)


def add(names: list[str], more: Iterable[str]) -> list[str]:
    """Add the names that are not there yet, in their order."""
    for name in more:
        if name not in names:
            names.append(name)
    return names
