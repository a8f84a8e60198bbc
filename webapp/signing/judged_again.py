"""The verdicts of a record, computed again from its events."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from checks.formulas_hash import FORMULAS_HASH
from webapp.signing.findings import Finding

RELATIVE = 1e-9
# A margin is a difference that may cancel to almost nothing, where a relative comparison means nothing.
ABSOLUTE = 1e-12

SHOWN = 5
LISTS, NUMBERS = (list, tuple), (int, float)

WORDS = ("verdict", "state", "applies")

LATER = {"rules": ("k", "nu"), "steps": ("defects",)}
"""Members of a result that came after records had been signed: a record without them is as good as it was."""


def judgement_of(content: Mapping[str, Any], procedure: Mapping[str, Any]) -> dict[str, Any]:
    """Fold the events of a record and judge them."""
    from checks.engine import judge
    from checks.fold import fold

    case = {
        "plate": content["unit"]["plate"],
        "site": content["site"]["values"],
        "baseline": (content["unit"].get("baseline") or {}).get("values", {}),
        "instruments": content["instruments"],
        **fold(procedure, content["events"]),
    }
    return judge(procedure, case)


@dataclass(frozen=True)
class Judged:
    """A record judged again with the formulas of today, which need not be those of its time.

    ``formulas`` is the identity of those that it names, None in a record that names none; ``today`` that of
    ours. ``verdicts`` are the places where another verdict or state comes out, ``values`` those of everything
    else that differs. ``problem`` says why the record could not be judged again. ``is_complete`` is what the
    record says of itself.
    """

    formulas: str | None
    today: str
    verdicts: tuple[str, ...] = ()
    values: tuple[str, ...] = ()
    problem: str | None = None
    is_complete: bool = True

    @property
    def has_own_formulas(self) -> bool:
        """Whether today's formulas are the ones that the record was judged with."""
        return self.formulas == self.today

    @property
    def is_same(self) -> bool:
        """The same verdicts: values may differ where the formulas do."""
        return not self.verdicts and self.problem is None


def judged_again(content: Mapping[str, Any], procedure: Mapping[str, Any]) -> Judged:
    """What today's formulas make of the events of a record. Never raises."""
    named = content.get("formulas")
    try:
        again = judgement_of(content, procedure)
    except Exception as error:  # content from outside may break the engine; that must not break the server
        return Judged(named, FORMULAS_HASH, problem=repr(error))
    # Both sides evaluate the same expressions, but their libraries may round the last digit otherwise.
    ours, signed = as_then(again, content["judgement"]), content["judgement"]
    complete = signed["record"].get("state") == "complete"
    if is_same(ours, signed):
        return Judged(named, FORMULAS_HASH, is_complete=complete)
    verdicts = tuple(differences(verdicts_of(signed), verdicts_of(ours), "judgement"))
    others = (place for place in differences(signed, ours, "judgement") if place not in verdicts)
    return Judged(named, FORMULAS_HASH, verdicts, tuple(others), is_complete=complete)


def verdicts_of(judgement: Mapping[str, Any]) -> dict[str, Any]:
    """The words of a judgement alone, at their places."""
    return {
        part: {
            name: {word: result.get(word) for word in WORDS if word in result}
            for name, result in judgement[part].items()
        }
        for part in ("rules", "steps")
    } | {"record": {word: judgement["record"].get(word) for word in WORDS}}


def findings(judged: Judged) -> list[Finding]:
    """What is wrong with a record whose formulas are those of today, or that never was complete.

    Of one with other formulas a difference is no fault of the document, and is told beside it.
    """
    places = [*judged.verdicts, *judged.values]
    if judged.problem is not None and judged.has_own_formulas:
        detail = f"The entries could not be judged again ({judged.problem})."
        return [Finding("not_judgeable", detail, "events")]
    if places and judged.has_own_formulas:
        shown = listed(places)
        return [Finding("verdicts_differ", f"Judged again, the result differs at {shown}.", places[0])]
    if not judged.is_complete:
        return [
            Finding("incomplete", "Steps are still open, so the record cannot be signed.", "judgement.record")
        ]
    return []


def listed(places: Sequence[str]) -> str:
    """The first of some places, in a sentence."""
    return ", ".join(places[:SHOWN]) + (" and more" if len(places) > SHOWN else "")


def as_then(again: Mapping[str, Any], signed: Mapping[str, Any]) -> dict[str, Any]:
    """Today's judgement without the later members that the signed one lacks; what else it lacks is missed."""
    parts = dict(again)
    for part, later in LATER.items():
        parts[part] = {
            name: {key: value for key, value in result.items() if key not in later or key in known}
            for name, result in again[part].items()
            for known in [signed[part].get(name, result)]
        }
    return parts


def differences(ours: Any, theirs: Any, place: str = "") -> Iterator[str]:
    """The places at which two results differ: numbers by more than a rounding, everything else at all."""
    if is_number(ours) and is_number(theirs):
        if not agree(ours, theirs):
            yield place
    elif isinstance(ours, dict) and isinstance(theirs, dict):
        for name in sorted(ours.keys() | theirs.keys()):
            inside = f"{place}.{name}"
            if name in ours and name in theirs:
                yield from differences(ours[name], theirs[name], inside)
            else:
                yield inside
    elif isinstance(ours, list | tuple) and isinstance(theirs, list | tuple):
        if len(ours) != len(theirs):
            yield place
        for number, (one, other) in enumerate(zip(ours, theirs, strict=False)):
            yield from differences(one, other, f"{place}.{number}")
    elif type(ours) is not type(theirs) or ours != theirs:
        yield place


def is_same(ours: Any, theirs: Any) -> bool:
    """Whether there are no :func:`differences`: told at once, because mostly there are none."""
    kind = type(ours)
    if kind is dict:
        return type(theirs) is dict and ours.keys() == theirs.keys() and is_same_inside(ours, theirs)
    if kind in LISTS:
        return type(theirs) in LISTS and len(ours) == len(theirs) and all(map(is_same, ours, theirs))
    if kind in NUMBERS:
        return type(theirs) in NUMBERS and (ours == theirs or agree(ours, theirs))
    return kind is type(theirs) and ours == theirs


def is_same_inside(ours: dict, theirs: dict) -> bool:
    for name, one in ours.items():
        other = theirs[name]
        if one is not other and not (type(one) is str and one == other) and not is_same(one, other):
            return False
    return True


def agree(ours: float, theirs: float) -> bool:
    return math.isclose(ours, theirs, rel_tol=RELATIVE, abs_tol=ABSOLUTE)


def is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
