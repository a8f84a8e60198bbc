"""The identity of the formulas: another for another result, the same for another text."""

import copy
from dataclasses import replace
from pathlib import Path

from checks.catalogue import FORMULAS
from checks.formulas_hash import FORMULAS_HASH
from checks.identity import formulas_hash
from checks.javascript import tables_used

LISTED = [FORMULAS[name] for name in ("static_head", "usp_645_stage_1_limit")]


def changed(**members):
    one = copy.copy(LISTED[0])
    one.__dict__.update(members)
    return [one, LISTED[1]]


def test_the_phone_cites_the_identity_that_the_server_knows():
    module = Path(__file__).parents[2] / "static" / "generated" / "formulas.js"
    assert f'export const FORMULAS_HASH = "{FORMULAS_HASH}";' in module.read_text()


def test_texts_and_citations_leave_it_as_it_is():
    assert LISTED[0].text
    assert LISTED[0].sources
    assert formulas_hash(changed(text="Another title.", sources=())) == formulas_hash(LISTED)


def test_a_changed_expression_table_or_engine_is_another_identity():
    [table] = tables_used(LISTED)
    other = replace(table, values=(*table.values[:-1], table.values[-1] + 0.1))
    found = [
        formulas_hash(LISTED),
        formulas_hash(LISTED[:1]),
        formulas_hash(changed(expression=1.0000001 * LISTED[0].expression)),
        formulas_hash(LISTED, tables=[other]),
        formulas_hash(LISTED, engine=2),
    ]
    assert len(set(found)) == len(found)
