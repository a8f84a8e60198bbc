"""A file as a person writes it becomes a case; what cannot be taken is named with its field."""

# ruff: noqa: E501 - a table of mistakes reads best with one mistake on a line

import pytest

from checks.engine import judge
from checks.judge import CaseError, normalise
from tests.checks.small import PROCEDURE, gauge

BARE = {
    "unit": {"ceiling": "145 psi", "grade": "plain"},
    "instruments": [gauge()],
    "entries": {"first.pressure": "5,0 bar", "first.sound": True},
}


def taken(**changes):
    return normalise(BARE | changes, PROCEDURE)


def test_a_text_is_read_with_its_unit_and_what_was_typed_stays():
    cell = taken()["plate"]["ceiling"]
    assert cell["value"] == pytest.approx(9.99740, abs=1e-5)  # 1 psi = 6.894757 kPa (NIST SP 811)
    assert (cell["typed"], cell["unit"]) == ("145 psi", "psi")


def test_unit_stands_for_plate():
    plate = BARE["unit"]
    document = {name: part for name, part in BARE.items() if name != "unit"}
    assert normalise(document | {"plate": plate}, PROCEDURE) == taken()


def test_a_bare_number_counts_in_the_entrys_unit():
    assert taken(entries={"first.pressure": 5})["entries"]["first.pressure"]["value"] == 5


def test_true_and_false_are_yes_and_no():
    assert taken(entries={"first.sound": False})["entries"]["first.sound"] == {"value": "no"}


def test_a_reading_takes_the_only_instrument_of_its_kind():
    assert taken()["entries"]["first.pressure"]["instrument"] == "g"
    two = taken(instruments={"a": gauge(id="a"), "b": gauge(id="b")})
    assert "instrument" not in two["entries"]["first.pressure"]


def test_a_whole_case_passes_through_unchanged():
    whole = taken(steps={"first": {"done": {"seen": {}}}})
    assert normalise(whole, PROCEDURE) == whole


def test_a_series_is_a_list_and_a_conflict_keeps_both():
    case = taken(entries={"third.readings": [5, "5.1"], "first.pressure": {"conflict": [5, 6]}})
    assert [cell["value"] for cell in case["entries"]["third.readings"]] == [5, 5.1]
    assert [cell["value"] for cell in case["entries"]["first.pressure"]["conflict"]] == [5, 6]


def test_done_confirms_what_the_file_holds():
    case = taken(steps={"first": {"done": True}, "third": {"override": "Spare part is late"}})
    result = judge(PROCEDURE, case)["steps"]
    assert result["first"]["state"] == "done"
    assert case["steps"]["third"] == {"override": {"reason": "Spare part is late"}}


@pytest.mark.parametrize(
    ("changes", "field", "code", "says"),
    [
        ({"entris": {}}, "entris", "unknown_field", "Did you mean entries?"),
        ({"entries": {"first.presure": 1}}, "first.presure", "unknown_field", "Did you mean first.pressure"),
        ({"unit": {"cieling": 1}}, "plate.cieling", "unknown_field", "plate.ceiling"),
        ({"entries": {"baseline.pressure": 1}}, "baseline.pressure", "unknown_field", "is not known"),
        ({"entries": []}, "entries", "wrong_shape", "must be an object of values by STEP.NAME"),
        ({"entries": {"first.pressure": "5 ohm"}}, "first.pressure", "wrong_unit", "measures something else"),
        ({"entries": {"first.pressure": "5 furlong"}}, "first.pressure", "unknown_unit", "Use one of: bar, kPa"),
        ({"entries": {"first.pressure": "five"}}, "first.pressure", "not_a_number", "Type digits"),
        ({"entries": {"first.pressure": "1,234"}}, "first.pressure", "ambiguous_number", "two ways"),
        ({"entries": {"first.pressure": {"value": [1]}}}, "first.pressure", "not_a_number", "must be a number"),
        ({"entries": {"first.pressure": {"valu": 1}}}, "first.pressure.valu", "unknown_field", "Did you mean value?"),
        ({"entries": {"third.readings": 5}}, "third.readings", "wrong_shape", "a list of readings"),
        ({"instruments": {"g": {"unit": "bar"}}}, "instruments.g.kind", "wrong_shape", "must be a word"),
        ({"instruments": {"g": {"kind": "gauge", "unit": "bar", "accuracy": 1}}}, "instruments.g.accuracy", "unknown_field", "accuracy_of"),
        ({"defects": {"first": [{"text": "Drips"}]}}, "defects.first.0.severity", "wrong_shape", "one of safety"),
        ({"instruments": [1]}, "instruments.0", "wrong_shape", "an object with id, kind and unit"),
        ({"steps": {"fourth": {}}}, "steps.fourth", "unknown_field", "is not known"),
        ({"steps": {"first": {"finished": True}}}, "steps.first.finished", "unknown_field", "is not known"),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_is_named_with_its_field_in_one_line(changes, field, code, says):
    with pytest.raises(CaseError, match=r".") as caught:
        taken(**changes)
    assert (caught.value.field, caught.value.code) == (field, code)
    assert field in str(caught.value)
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("document", [[], 3, "text", None])
def test_a_file_that_is_no_object_is_refused(document):
    with pytest.raises(CaseError, match="must be an object with plate, site, instruments, entries and steps"):
        normalise(document, PROCEDURE)
