"""A visit that a phone began, with or without signal."""

from typing import Any

from webapp.store import Person, Refused, Store, Visit
from webapp.text import problem_sentences


def receive_visit(store: Store, body: dict[str, Any], person: Person) -> Visit:
    """Keep the visit; ``body`` has the shape VISIT. The same again gives the same answer.

    Refused: ``unit_unknown``, ``procedure_unknown``. Another visit under the same id is Taken.
    """
    if store.units.find(body["unit"]) is None:
        raise refusal("unit_unknown")
    procedure = body["procedure"]
    known = store.procedures.find(procedure["hash"])
    if known is None or (known.id, known.version) != (procedure["id"], procedure["version"]):
        raise refusal("procedure_unknown")
    return store.visits.start(**body, started_by=person.id)


def refusal(code: str) -> Refused:
    return Refused(code, problem_sentences(code)[1])
