"""Which decisions somebody may take about a record, and why not others; receiving checks it again."""

from dataclasses import dataclass

from webapp import current
from webapp.language import noop
from webapp.office.forms import DecisionForm
from webapp.rights import has_right
from webapp.signing.verify import authors
from webapp.store import Person, Record

WORDS = {
    "accepted": noop("Accept"),
    "accepted_with_conditions": noop("Accept with conditions"),
    "returned": noop("Return to the installer"),
}

MEANINGS = {
    "accepted": noop("I reviewed this record and accept the unit."),
    "accepted_with_conditions": noop("I reviewed this record and accept the unit with these conditions."),
    "returned": noop("I reviewed this record and return it for these reasons."),
}

BY_VERDICT = {
    "pass": ("accepted", "accepted_with_conditions", "returned"),
    "conditional_pass": ("accepted_with_conditions", "returned"),
    "fail": ("returned",),
}

REOPEN = noop("Re-open for a corrected record")
REOPEN_MEANING = noop("I reviewed this accepted record and re-open it for these reasons.")

WHY_FEWER = {
    "conditional_pass": noop("The record passes conditionally: accept it with its conditions, or return it."),
    "fail": noop("The record has not passed: it can only be returned."),
}

OWN_WORK = noop("You signed this record or entered something in it. Another supervisor has to decide.")
FORKED = noop(
    "Another record of this unit was accepted meanwhile. Return this one, so that it is signed anew."
)
SUPERSEDED = noop("A later record of this unit was accepted. Enter what came since in a new visit.")
OPEN_ALREADY = noop(
    "This record was re-opened before. The installer has the visit and signs a corrected record."
)


@dataclass(frozen=True)
class Offer:
    """``decisions`` are those that may be taken, ``reason`` the sentence why there are fewer or none.

    ``reopens``: the record was accepted, and returning it re-opens its visit.
    """

    decisions: tuple[str, ...] = ()
    reason: str | None = None
    reopens: bool = False

    @classmethod
    def about(cls, record: Record, person: Person | None) -> "Offer":
        if record.state == "returned" or not has_right(person, "countersign"):
            return cls()
        last = current.store().listing.unit_state(record.unit).record
        if record.decision is not None:
            return cls.of_accepted(record, person, last)
        if is_author(person, record):
            return cls(reason=OWN_WORK)
        if record.previous != last:
            return cls(("returned",), FORKED)
        return cls(BY_VERDICT[record.verdict], WHY_FEWER.get(record.verdict))

    @classmethod
    def of_accepted(cls, record: Record, person: Person | None, last: str | None) -> "Offer":
        if record.reopening is not None:
            return cls(reason=OPEN_ALREADY, reopens=True)
        if record.sha256 != last:
            return cls(reason=SUPERSEDED, reopens=True)
        if is_author(person, record):
            return cls(reason=OWN_WORK, reopens=True)
        return cls(("returned",), reopens=True)

    def form(self) -> DecisionForm:
        form = DecisionForm()
        form.offer({one: REOPEN if self.reopens else WORDS[one] for one in self.decisions})
        if self.reopens:
            form.ask_why_reopened()
        return form

    @property
    def meanings(self) -> dict[str, str]:
        """The sentence that each decision's signature stands for."""
        return {one: REOPEN_MEANING if self.reopens else MEANINGS[one] for one in self.decisions}


def is_author(person: Person | None, record: Record) -> bool:
    return person is not None and person.id in authors(record.content())
