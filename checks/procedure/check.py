"""Whether a procedure makes sense: every name leads somewhere, every unit fits, nothing goes in circles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

from checks.procedure.check_formulas import check_derived, inputs_of, same_unit
from checks.procedure.check_rules import check_rule
from checks.procedure.errors import Place
from checks.procedure.model import (
    ENTRY_KINDS,
    MEASURED_KINDS,
    SCANS,
    Condition,
    Entry,
    Procedure,
    Step,
)
from checks.procedure.names import OWNERS, Names
from checks.units import OFFERED, can_convert


def check(procedure: Procedure, file: str, formulas: Mapping[str, Any]) -> None:
    """Raise ProcedureError for the first thing that cannot be right."""
    top = Place(file, "")
    names = Names(procedure, top)
    _check_order(procedure, top)
    for owner in OWNERS:
        for entry in getattr(procedure, owner):
            _check_settable(owner, entry, names, top.inside(owner, entry.id))
    for step in procedure.steps:
        _check_step(step, procedure, names, formulas, top.inside("step", step.id))
    _check_circles(names, top)


def _check_settable(owner: str, entry: Entry, names: Names, place: Place) -> None:
    _check_entry(entry, names, place)
    if not entry.source:
        place.wrong("field 'source' is missing; say where the value comes from")
    if (owner == "baseline") != (entry.from_ is not None):
        place.wrong("field 'from' belongs to each value of the baseline, and to nothing else")
    # A visit may lack the step that the value once came from.
    taken = names.known.get(entry.from_ or "")
    if taken is not None and not (taken.is_number and same_unit(taken.unit, entry.unit)):
        place.wrong(f"{entry.from_} is in {taken.unit} and the baseline in {entry.unit}; use one unit")
    if entry.anew and owner != "baseline":
        place.wrong("field 'anew' belongs to values of the baseline only")
    steps = {name.split(".")[0] for name in names.known}
    check_when([one for one in entry.anew if one.quantity.split(".")[0] in steps], names, place)


def _check_order(procedure: Procedure, top: Place) -> None:
    steps = [step.id for step in procedure.steps]
    for name in _twice(steps):
        top.inside("step", name).wrong("there are two steps of this name; rename one")
    staged = [step for stage in procedure.stages for step in stage.steps]
    if staged != steps:
        order = ", ".join(steps)
        top.wrong(f"the stages list {', '.join(staged)}; list every step once, in the order {order}")
    for place, step in enumerate(procedure.steps):
        for need in step.needs:
            if need.step not in steps[:place]:
                here = top.inside("step", step.id)
                earlier = ", ".join(steps[:place]) or "none"
                here.wrong(f"needs {need.step!r}, which is no earlier step; earlier are: {earlier}")


def _check_step(
    step: Step, procedure: Procedure, names: Names, formulas: Mapping[str, Any], place: Place
) -> None:
    for caution in step.cautions:
        if caution not in procedure.cautions:
            place.wrong(f"there is no caution {caution!r}; there are: {', '.join(procedure.cautions)}")
    check_when(step.when, names, place)
    for entry in step.entries:
        here = place.inside("entry", entry.id)
        _check_entry(entry, names, here)
        if entry.default is not None:
            here.wrong("field 'default' belongs to plate and site only; what is measured has no default")
    for derived in step.derived:
        here = place.inside("derived", derived.id)
        check_when(derived.when, names, here)
        check_derived(derived, names, formulas, here)
    for name in _twice(rule.id for rule in step.rules):
        place.inside("rule", name).wrong("there are two rules of this name; rename one")
    for rule in step.rules:
        here = place.inside("rule", rule.id)
        check_when(rule.when, names, here)
        check_rule(rule, names, here)


def _check_entry(entry: Entry, names: Names, place: Place) -> None:
    if entry.kind not in ENTRY_KINDS:
        place.wrong(f"kind {entry.kind!r} is unknown; use one of {', '.join(ENTRY_KINDS)}")
    check_when(entry.when, names, place)
    if entry.kind in MEASURED_KINDS:
        _check_measured(entry, place)
    elif entry.unit or entry.units or entry.instrument:
        place.wrong(f"a {entry.kind} has no unit and no instrument; remove them or make it a reading")
    if entry.scan is not None and SCANS.get(entry.scan) != entry.kind:
        possible = ", ".join(f"{scan} for a {kind}" for scan, kind in SCANS.items())
        place.wrong(f"scan {entry.scan!r} does not go with a {entry.kind}; possible: {possible}")
    if (entry.kind == "drawing") != bool(entry.meaning):
        place.wrong("a drawing needs its meaning, what the person states who signs; nothing else has one")
    if (entry.kind == "choice") != bool(entry.options):
        place.wrong("a choice needs its options, and nothing else has any")
    for value in _twice(option.value for option in entry.options):
        place.wrong(f"the option {value!r} stands twice; remove one")
    allowed = ["yes", "no"] if entry.kind == "yes_no" else [option.value for option in entry.options]
    if entry.default is not None and allowed and entry.default not in allowed:
        place.wrong(f"the default {entry.default!r} is not among the options {', '.join(map(str, allowed))}")


def _check_measured(entry: Entry, place: Place) -> None:
    if entry.unit not in entry.units:
        place.wrong(f"unit {entry.unit!r} must be among its units {', '.join(entry.units) or '(none given)'}")
    for unit in entry.units:
        if unit not in OFFERED:
            place.wrong(f"unit {unit!r} is not offered anywhere; add it to checks/units.py or use another")
        if not can_convert(unit, str(entry.unit)):
            place.wrong(f"unit {unit!r} measures something else than {entry.unit!r}")
    low, high = entry.minimum, entry.maximum
    if low is None or high is None or low >= high:
        place.wrong("say what is physically possible: 'minimum' below 'maximum', in the entry's unit")
    if entry.default is not None and not low <= entry.default <= high:
        place.wrong(f"the default {entry.default} lies outside {low} to {high}")


def check_when(conditions: Iterable[Condition], names: Names, place: Place) -> None:
    """Each condition names a quantity and values that it can have."""
    for condition in conditions:
        known = names.find(condition.quantity, place)
        if (condition.is_ is None) == (condition.given is None):
            place.wrong("a condition has either 'is' with a list of values, or 'given = true'")
        if condition.given is not None and (known.entry is None or condition.given is not True):
            place.wrong("'given = true' asks for an entry")
        for value in condition.is_ or ():
            if value not in known.options:
                options = ", ".join(map(str, known.options)) or "none: it is no choice"
                place.wrong(f"{condition.quantity} can never be {value!r}; its options are {options}")


def _check_circles(names: Names, top: Place) -> None:
    """Follow what each quantity is computed from and depends on; none may lead back to itself."""
    done: set[str] = set()

    def follow(name: str, path: tuple[str, ...]) -> None:
        if name in path:
            circle = " -> ".join((*path[path.index(name) :], name))
            top.wrong(f"these quantities depend on each other in a circle: {circle}; cut it at one place")
        if name in done:
            return
        known = names.known[name]
        conditions = known.entry.when if known.entry else [one for part in known.derived for one in part.when]
        for other in [*(one.quantity for one in conditions), *inputs_of(known.derived)]:
            follow(other, (*path, name))
        done.add(name)

    for name in names.known:
        follow(name, ())


def _twice(values: Iterable[Any]) -> list[Any]:
    return [value for value, count in Counter(values).items() if count > 1]
