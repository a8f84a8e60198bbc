"""Cases made up from a procedure: values in and out of range, missing, nonsense, conflicts, stale steps.

The same seed gives the same case. Hypothesis needs minutes for thousands of cases as large as these.
"""

from __future__ import annotations

import copy
import random
from typing import Any

from checks.engine import judge

NONSENSE = [
    {},
    {"value": None},
    {"value": ""},
    {"value": None, "typed": "8,,1"},
    {"value": None, "typed": 7},
    {"value": "12"},
    {"value": True},
    {"value": [1]},
    {"value": {"a": 1}},
    {"value": 1e300},
    {"value": -1e300},
    {"value": 5e-324},
    {"value": -0.0},
    {"value": "constructor"},
    {"value": 3, "instrument": "constructor"},
    {"value": 3, "instrument": 7},
    {"value": 3, "at": 7},
    {"value": 0.3, "id": 7},
    {"value": "2026-02-30T09:00Z"},
    {"value": "٢٠٢٦-11-25"},
]
INSTANTS = [
    "2026-11-25T09:00Z",
    "2026-11-25T09:00:01Z",
    "2026-11-25T09:00:01.5Z",
    "2026-02-30T09:00:00Z",
    "2000-02-29T00:00Z",
    "1900-02-29T00:00Z",
    "1969-12-31T23:59:59.999Z",
    "2026-11-25T24:00:00Z",
]
DATES = ["2026-11-25", "2026-02-29", "25.11.2026", "0000-01-01", "2024-02-29"]
ALSO = {
    "uS/cm": ["mS/m", "Mohm cm"],
    "bar": ["kPa", "psi"],
    "ohm": ["mohm"],
    "degC": ["degF"],
    "L/min": ["L/h"],
}
SPECIFIED = ("accuracy_of_reading", "accuracy_of_range", "digits", "resolution", "calibration_uncertainty")
REASONS = [{"reason": "So decided."}, {"reason": {"code": "other", "text": "So."}}, {}]


CONTENTS = [
    None,
    {"value": 1, "typed": "1", "unit": "bar", "instrument": "g"},
    {"value": 1.0, "typed": "1.0"},
    {"value": 0.1, "typed": "0,1"},
    {"value": None, "typed": "x"},
    {"value": "yes"},
    {"seen": {"a": [1, None]}},
    {"reason": "So."},
    {"sha256": "f" * 64, "size": 3},
    "text",
    [1],
]


class MakeUp:
    """One seed's cases."""

    def __init__(self, procedure: dict[str, Any], seed: int) -> None:
        self.procedure, self.chance = procedure, random.Random(seed)
        self.entries = {
            f"{step['id']}.{entry['id']}": entry for step in procedure["steps"] for entry in step["entries"]
        }
        self.settable = {
            f"{owner}.{entry['id']}": entry
            for owner in ("plate", "site", "baseline")
            for entry in procedure.get(owner, ())
        }
        self.kinds = {
            entry["instrument"]: entry["unit"] for entry in self.entries.values() if entry["instrument"]
        }

    def case(self) -> dict[str, Any]:
        """A case from nothing; how much of it is there varies."""
        density = self.chance.random()
        owned = {
            owner: {
                entry["id"]: self.cell(entry)
                for entry in self.procedure.get(owner, ())
                if self.chance.random() < density
            }
            for owner in ("plate", "site", "baseline")
        }
        entries = {
            name: self.value(entry) for name, entry in self.entries.items() if self.chance.random() < density
        }
        rare = density / 5
        entries |= {
            name: self.cell(entry) for name, entry in self.settable.items() if self.chance.random() < rare
        }
        case = {**owned, "instruments": self.instruments(), "entries": entries, "steps": self.steps()}
        return self.confirmed({**case, "defects": self.defects()})

    def defects(self) -> dict[str, Any]:
        """Of few steps, some open, some closed, some in two versions."""
        found: dict[str, Any] = {}
        for step in self.procedure["steps"]:
            if self.chance.random() < 0.2:
                found[step["id"]] = [self.defect(number) for number in range(self.chance.randint(1, 3))]
        return found

    def defect(self, number: int) -> dict[str, Any]:
        severity = self.chance.choice(["safety", "major", "minor", "minor", None])
        cell = {"severity": severity, "closed": self.chance.choice([None, "", "Done."]), "id": f"e{number}"}
        if self.chance.random() < 0.2:
            return {"conflict": [cell, {**cell, "severity": "safety"}], "item": f"d{number}"}
        return {**cell, "item": f"d{number}"}

    def changed(self, case: dict[str, Any]) -> dict[str, Any]:
        """A copy of a sensible case with a few things changed."""
        case = copy.deepcopy(case)
        for _ in range(self.chance.randint(1, 6)):
            owner = self.chance.choice(["plate", "site", "entries", "entries", "entries", "instruments"])
            if owner == "instruments":
                one = self.chance.choice(list(case["instruments"].values()))
                one |= {
                    self.chance.choice([*SPECIFIED, "range_maximum", "calibration_due", "unit"]): self.odd()
                }
            elif owner == "entries":
                name = self.chance.choice(list(self.entries))
                case["entries"][name] = self.value(self.entries[name])
            else:
                entry = self.chance.choice(self.procedure[owner])
                case[owner][entry["id"]] = self.cell(entry)
        return self.confirmed(case) if self.chance.random() < 0.5 else case

    def value(self, entry: dict[str, Any]) -> Any:
        if entry["kind"] == "series":
            return [self.cell(entry) for _ in range(self.chance.randint(0, 6))]
        return self.cell(entry)

    def cell(self, entry: dict[str, Any]) -> dict[str, Any]:
        luck = self.chance.random()
        if luck < 0.04:
            return copy.deepcopy(self.chance.choice(NONSENSE))
        if luck < 0.06:
            return {"conflict": [self.whole(entry), self.whole(entry)]}
        return self.whole(entry)

    def whole(self, entry: dict[str, Any]) -> dict[str, Any]:
        cell = {"value": self.content(entry)}
        if entry["instrument"] and self.chance.random() < 0.9:
            quality = "odd" if self.chance.random() < 0.15 else "right"
            cell["instrument"] = f"{quality}-{entry['instrument']}" if self.chance.random() < 0.95 else "lost"
        if entry["kind"] == "drawing":
            cell |= {
                "strokes": self.chance.choice([[], [[1, 2, 3]]]),
                "stated": self.chance.choice([True, False]),
            }
        if self.chance.random() < 0.6:
            cell["at"] = (
                "2026-11-25T10:00:00.000Z" if self.chance.random() < 0.9 else "2029-01-01T00:00:00.000Z"
            )
        if self.chance.random() < 0.5:
            cell["id"] = f"event-{self.chance.randint(1, 9)}"
        return cell

    def content(self, entry: dict[str, Any]) -> Any:
        kind = entry["kind"]
        if kind in ("reading", "series"):
            return self.number(entry)
        if kind in ("choice", "yes_no"):
            return self.chance.choice(
                [option["value"] for option in entry["options"]] or ["yes", "yes", "no"]
            )
        if kind == "instant":
            minute, second, fraction = (self.chance.randint(0, most) for most in (59, 59, 999))
            at = f"2026-11-25T09:{minute:02d}:{second:02d}.{fraction:03d}Z"
            return at if self.chance.random() < 0.8 else self.chance.choice(INSTANTS)
        return self.chance.choice(DATES) if kind == "date" else self.chance.choice(["nobody", "x", "ä—∞"])

    def number(self, entry: dict[str, Any]) -> float:
        low, high = entry["minimum"], entry["maximum"]
        chance = self.chance
        return chance.choice(
            [
                lambda: chance.uniform(low, high),
                lambda: low + (high - low) * 10 ** chance.uniform(-9, 0),
                lambda: min(high, max(low, chance.uniform(0, 5))),
                lambda: min(high, max(low, chance.uniform(0, 1))),
                lambda: float(chance.randint(int(low), int(high))),
                lambda: chance.choice([low, high, low - 1, high + 1]),
            ]
        )()

    def instruments(self) -> dict[str, Any]:
        """A good and a doubtful instrument of each kind."""
        chance = self.chance
        found = {}
        for kind, unit in self.kinds.items():
            found[f"right-{kind}"] = {
                "id": f"right-{kind}",
                "kind": kind,
                "name": "Meter",
                "range_minimum": chance.choice([0, -1]),
                "range_maximum": chance.choice([20, 1000, 100000]),
                "unit": chance.choice([unit, unit, *ALSO.get(unit, [])]),
                "calibration_due": "2027-03-01",
                **{name: chance.choice([0, 0, 0.001, 0.01, 0.02]) for name in SPECIFIED},
            }
            found[f"odd-{kind}"] = {
                "id": f"odd-{kind}",
                "kind": chance.choice([kind, "ruler"]),
                "name": "",
                "unit": chance.choice([unit, "furlong", None]),
                "range_minimum": self.odd(),
                "range_maximum": self.odd(),
                **{name: self.odd() for name in SPECIFIED},
                "calibration_due": chance.choice(["2027-03-01", "2026-11-25", "2026-01-01", None]),
            }
        return found

    def odd(self) -> Any:
        return self.chance.choice([0, 0.001, 0.02, 1, 3, 1000, -1, None, None])

    def steps(self) -> dict[str, Any]:
        said: dict[str, Any] = {}
        for step in self.procedure["steps"]:
            mine = said[step["id"]] = {}
            if self.chance.random() < 0.7:
                mine["done"] = self.chance.choice(
                    [{"seen": "confirm"}, {"seen": "confirm"}, {"seen": {}}, {}]
                )
            if self.chance.random() < 0.3:
                mine["override"] = self.chance.choice(REASONS)
            if self.chance.random() < 0.1:
                mine["not_applicable"] = self.chance.choice(REASONS)
            if self.chance.random() < 0.05:
                mine["not_done"] = self.chance.choice(REASONS)
        return said

    def confirmed(self, case: dict[str, Any]) -> dict[str, Any]:
        """Where a step says "confirm", let it have seen exactly what it rests on now."""
        standing = judge(self.procedure, case)["steps"]
        for name, said in case["steps"].items():
            if said.get("done", {}).get("seen") == "confirm":
                said["done"] = {"seen": standing[name]["basis"]}
        return case

    def history(self) -> list[dict[str, Any]]:
        """Up to thirty events on few fields, some twice, some of one id but different, in any order."""
        fields = [*list(self.entries)[:4], "first#done", "first#note", "first#defect", "no.field"]
        fields += list(self.settable)
        places: list[tuple[str, str | None]] = [(name, None) for name in fields]
        series = [name for name, entry in self.entries.items() if entry["kind"] == "series"]
        places += [(name, item) for name in series for item in ("e0", "e1", "e2")]
        places += [("first#defect", item) for item in ("e0", "e1", "e2")]
        events: list[dict[str, Any]] = []
        for number in range(self.chance.randint(1, 30)):
            events.append(self.event(number, [one["id"] for one in events], *self.chance.choice(places)))
        events += self.chance.choices(events, k=3)
        self.chance.shuffle(events)
        return events

    def event(self, number: int, before: list[str], field: str, item: str | None) -> dict[str, Any]:
        """One event; now and then with an id that was there before, or replacing what nobody has seen."""
        time = f"2026-11-25T09:00:0{self.chance.randint(0, 5)}.000Z"
        known = [*before, "never-seen", f"e{number + 1}"]
        return {
            "id": self.chance.choice([f"e{number}"] * 9 + before[:1]),
            "field": field,
            "item": item,
            "content": copy.deepcopy(self.chance.choice(CONTENTS)),
            "replaces": self.chance.sample(known, self.chance.randint(0, min(3, len(known)))),
            "at": time,
            "hlc": f"{time}-0000-node",
        }
