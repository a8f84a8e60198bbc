"""Which decisions somebody may take about a record, and why not others; receiving checks it again."""

from dataclasses import dataclass

from webapp import current
from webapp.office.forms import DecisionForm
from webapp.rights import has_right
from webapp.signing.verify import authors
from webapp.store import Person, Record

WORDS = {
    "accepted": "Accept",
    "accepted_with_conditions": "Accept with conditions",
    "returned": "Return to the installer",
}

MEANINGS = {
    "accepted": "I reviewed this record and accept the unit.",
    "accepted_with_conditions": "I reviewed this record and accept the unit with these conditions.",
    "returned": "I reviewed this record and return it for these reasons.",
}

BY_VERDICT = {
    "pass": ("accepted", "accepted_with_conditions", "returned"),
    "conditional_pass": ("accepted_with_conditions", "returned"),
    "fail": ("returned",),
}

WHY_FEWER = {
    "conditional_pass": "The record passes conditionally: accept it with its conditions, or return it.",
    "fail": "The record has not passed: it can only be returned.",
}

OWN_WORK = "You signed this record or entered something in it. Another supervisor has to decide."
FORKED = "Another record of this unit was accepted meanwhile. Return this one, so that it is signed anew."


@dataclass(frozen=True)
class Offer:
    """``decisions`` are those that may be taken, ``reason`` the sentence why there are fewer or none."""

    decisions: tuple[str, ...] = ()
    reason: str | None = None

    @classmethod
    def about(cls, record: Record, person: Person | None) -> "Offer":
        if record.decision is not None or not has_right(person, "countersign"):
            return cls()
        if person is not None and person.id in authors(record.content()):
            return cls(reason=OWN_WORK)
        if record.previous != current.store().listing.unit_state(record.unit).record:
            return cls(("returned",), FORKED)
        return cls(BY_VERDICT[record.verdict], WHY_FEWER.get(record.verdict))

    def form(self) -> DecisionForm:
        form = DecisionForm()
        form.offer({one: WORDS[one] for one in self.decisions})
        return form

    @property
    def meanings(self) -> dict[str, str]:
        """The sentence that each decision's signature stands for."""
        return {one: MEANINGS[one] for one in self.decisions}
