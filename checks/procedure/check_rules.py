"""Whether a rule can be judged: its kind's fields, quantities that can be compared, a source."""

from __future__ import annotations

from checks.procedure.check_formulas import same_unit
from checks.procedure.errors import Place
from checks.procedure.model import DECISIONS, MEASURED_KINDS, RULE_KINDS, WEIGHTS, Rule
from checks.procedure.names import Names

FIELDS = {
    "limit": {"reading", "lower", "upper", "decision", "expected", "causes_above", "causes_below"},
    "answer": {"entry", "is_"},
    "given": {"entry"},
    "order": {"entries"},
    "same_instrument": {"entries"},
}


def check_rule(rule: Rule, names: Names, place: Place) -> None:
    """Raise ProcedureError where the rule cannot be judged."""
    if rule.kind not in RULE_KINDS:
        place.wrong(f"kind {rule.kind!r} is unknown; use one of {', '.join(RULE_KINDS)}")
    if not rule.source.strip():
        place.wrong("its source is blank; say where the requirement comes from")
    if rule.weight not in WEIGHTS:
        place.wrong(f"weight {rule.weight!r} is unknown; use one of {', '.join(WEIGHTS)}")
    for field in sorted(set().union(*FIELDS.values())):
        if getattr(rule, field) and field not in FIELDS[rule.kind]:
            place.wrong(f"a rule of kind {rule.kind!r} has no field {field.rstrip('_')!r}; remove it")
    _KINDS[rule.kind](rule, names, place)


def _check_limit(rule: Rule, names: Names, place: Place) -> None:
    if rule.decision not in DECISIONS:
        place.wrong(f"decision {rule.decision!r} is unknown; use one of {', '.join(DECISIONS)}")
    if rule.guard <= 0:
        place.wrong("guard must be above 0; for no guard band use the decision 'simple'")
    if not rule.lower and not rule.upper:
        place.wrong("a limit needs 'lower', 'upper' or both")
    reading = names.find(rule.reading, place)
    if not reading.is_number:
        place.wrong(f"{rule.reading} is a {reading.kind}; a limit is compared with one number")
    for end in (rule.lower, rule.upper, rule.expected):
        if end:
            known = names.find(end, place)
            if not known.is_number or not same_unit(known.unit, reading.unit):
                units = f"{end} is in {known.unit}, {rule.reading} in {reading.unit}"
                place.wrong(f"{units}; they must have one unit")


def _check_answer(rule: Rule, names: Names, place: Place) -> None:
    known = names.find(rule.entry, place)
    if not known.options:
        place.wrong(f"{rule.entry} is a {known.kind}; an answer is one of several options")
    if not rule.is_:
        place.wrong("field 'is' is missing; list the accepted answers")
    for value in rule.is_:
        if value not in known.options:
            place.wrong(
                f"{rule.entry} can never be {value!r}; its options are {', '.join(map(str, known.options))}"
            )


def _check_given(rule: Rule, names: Names, place: Place) -> None:
    if names.find(rule.entry, place).entry is None:
        place.wrong(f"{rule.entry} is computed; 'given' asks for an entry")


def _check_order(rule: Rule, names: Names, place: Place) -> None:
    _at_least_two(rule, place)
    for name in rule.entries:
        if names.find(name, place).kind != "instant":
            place.wrong(f"{name} is no instant, so it has no place in an order")


def _check_same_instrument(rule: Rule, names: Names, place: Place) -> None:
    _at_least_two(rule, place)
    for name in rule.entries:
        entry = names.find(name, place).entry
        if entry is None or entry.kind not in MEASURED_KINDS or not entry.instrument:
            place.wrong(f"{name} is not measured with an instrument")


def _at_least_two(rule: Rule, place: Place) -> None:
    if len(rule.entries) < 2:
        place.wrong("field 'entries' must list two or more")


_KINDS = {
    "limit": _check_limit,
    "answer": _check_answer,
    "given": _check_given,
    "order": _check_order,
    "same_instrument": _check_same_instrument,
}
