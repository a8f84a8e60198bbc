"""Values of plate and site that were entered in the visit, beside those that were set for unit and site."""

from checks.engine import judge
from tests.checks.small import PROCEDURE, case

GOOD = {"first.pressure": 5.0, "first.sound": "yes"}


def judged(**parts):
    return judge(PROCEDURE, case(**parts))


def test_what_is_given_in_the_visit_goes_before_what_was_set_beside_the_steps():
    """Plate 10, set; 8, given: the ceiling of the first step follows. A baseline is never given."""
    given = {"value": 8.0, "id": "e1"}
    entered = {**GOOD, "plate.ceiling": given, "site.floor": {"value": 3.0}, "baseline.pressure": given}
    result = judged(entries=entered, baseline={"pressure": 4.0})
    values = {name: result["quantities"][name]["value"] for name in ("plate.ceiling", "site.floor")}
    assert values == {"plate.ceiling": 8.0, "site.floor": 3.0}
    assert result["quantities"]["baseline.pressure"]["value"] == 4.0
    assert result["steps"]["first"]["basis"]["plate.ceiling"] == "e1"
    done = {"first": {"done": {"seen": judged(entries=GOOD)["steps"]["first"]["basis"]}}}
    assert judged(entries=GOOD, steps=done)["steps"]["first"]["state"] == "done"
    assert judged(entries=entered, steps=done)["steps"]["first"]["state"] == "recheck"


def test_two_values_for_the_plate_are_a_conflict_although_one_was_set_beside_the_steps():
    conflict = {"conflict": [{"value": 8.0, "id": "a"}, {"value": 9.0, "id": "b"}]}
    quantity = judged(entries={**GOOD, "plate.ceiling": conflict})["quantities"]["plate.ceiling"]
    assert (quantity["value"], quantity["reason"]["code"]) == (None, "conflict")
