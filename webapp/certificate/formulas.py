"""What a reader is told about the formulas behind the verdicts of a record: those of its time, or today's."""

from collections.abc import Mapping
from typing import Any

from checks.formulas_hash import FORMULAS_HASH
from webapp.language import _
from webapp.signing.judged_again import Judged, judged_again, listed

SHOWN = 12  # digits of an identity that stand in a sentence


def sentence(record: Mapping[str, Any], procedure: Mapping[str, Any]) -> str:
    """Whether today's formulas give the verdicts of the record.

    Where they are its own they did when it was received, and nothing is judged again.
    """
    if record.get("formulas") == FORMULAS_HASH:
        return _("Judged with the formulas {formulas}, which are today's.", formulas=FORMULAS_HASH[:SHOWN])
    judged = judged_again(record, procedure)
    named, today = named_formulas(judged), judged.today[:SHOWN]
    if judged.problem:
        return _("Judged with {named}; today's, {today}, cannot judge it.", named=named, today=today)
    if judged.is_same:
        return _(
            "Judged with {named}; judged again with today's, {today}: the same verdicts.",
            named=named,
            today=today,
        )
    return _(
        "Judged with {named}; judged again with today's, {today}, these differ: {places}.",
        named=named,
        today=today,
        places=listed(judged.verdicts),
    )


def named_formulas(judged: Judged) -> str:
    if judged.formulas is None:
        return _("formulas that this record does not name")
    return _("the formulas {formulas}", formulas=judged.formulas[:SHOWN])
