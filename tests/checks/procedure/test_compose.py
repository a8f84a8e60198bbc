"""A procedure is put together from parts; a name that leads nowhere is refused with those there are."""

import pytest

from checks.procedure import ProcedureError, load, names
from checks.procedure.compose import compose, parts

ENTRY = {"id": "pressure", "kind": "reading"}
PART = {"title": "Supply", "plate": [ENTRY], "cautions": {"pressure": {}}, "steps": [{"id": "supply"}]}
ANOTHER = {"title": "Loop", "site": [ENTRY], "steps": [{"id": "loop"}, {"id": "pump"}]}
TAKEN = [("supply.toml", PART), ("loop.toml", ANOTHER)]


def procedure(*steps, needs=()):
    return {"id": "visit", "stages": [{"id": "all", "steps": list(steps)}], "needs": list(needs)}


def test_the_steps_are_those_of_the_stages_in_their_order():
    whole = compose(procedure("pump", "supply"), "visit.toml", TAKEN)
    assert [step["id"] for step in whole["steps"]] == ["pump", "supply"]


def test_the_data_plate_of_every_part_belongs_to_every_procedure_under_the_heading_of_its_part():
    whole = compose(procedure("pump"), "visit.toml", TAKEN)
    assert whole["plate"] == [{**ENTRY, "group": "Supply"}]
    assert whole["site"] == [{**ENTRY, "group": "Loop"}]
    assert whole["cautions"] == {"pressure": {}}


def test_what_comes_first_is_said_by_the_procedure():
    need = {"step": "pump", "after": "supply", "hold": True, "because": "It needs water."}
    whole = compose(procedure("supply", "pump", needs=[need]), "visit.toml", TAKEN)
    assert whole["steps"][1]["needs"] == [{"step": "supply", "hold": True, "because": "It needs water."}]
    assert "needs" not in whole


def test_a_step_that_no_part_has_is_refused():
    with pytest.raises(ProcedureError, match=r"visit.toml, stages: .* .filter.; there are: supply, loop"):
        compose(procedure("filter"), "visit.toml", TAKEN)


def test_a_prerequisite_of_a_step_that_is_not_taken_is_refused():
    need = {"step": "pump", "after": "supply", "because": "It needs water."}
    with pytest.raises(ProcedureError, match=r"visit.toml, needs: .* .pump.; there are: supply"):
        compose(procedure("supply", needs=[need]), "visit.toml", TAKEN)


@pytest.mark.parametrize(
    ("part", "complaint"),
    [
        ({"title": "Loop", "stages": []}, "loop.toml, part: unknown field 'stages'"),
        ({"steps": []}, "loop.toml, part: field 'title' is missing"),
    ],
)
def test_a_part_that_is_not_one_is_refused(part, complaint):
    with pytest.raises(ProcedureError, match=complaint):
        compose(procedure(), "visit.toml", [("loop.toml", part)])


def test_every_step_of_every_part_is_taken_by_some_procedure():
    taken = {step["id"] for name in names() for step in load(name)["steps"]}
    assert {step["id"] for _, part in parts() for step in part.get("steps", [])} == taken
