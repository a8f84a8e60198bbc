"""What open defects, and steps that could not be done, mean for a step and for the record."""

import pytest

from checks.engine import judge
from tests.checks.small import PROCEDURE, case

GOOD = {
    "first.pressure": 5.0,
    "first.sound": "yes",
    "second.began": "2026-11-25T09:00:00Z",
    "second.ended": "2026-11-25T09:00:01Z",
    "second.before": 3.0,
    "second.after": 3.1,
    "second.count": 4,
    "third.readings": [1.0, 1.0, 1.0],
}
STEPS = ("first", "second", "third")


def defect(severity, item="d1", closed=None, **more):
    return {"item": item, "id": f"event of {item}", "severity": severity, "closed": closed, **more}


def judged(*defects, step="first", said=None, confirmed_with=None):
    """All steps done as they stood with `confirmed_with` (these defects, unless others are given)."""
    seen = {"first": defects if confirmed_with is None else confirmed_with}
    before = judge(PROCEDURE, {**case(entries=GOOD), "defects": {step: list(seen["first"])}})["steps"]
    steps = {name: {"done": {"seen": before[name]["basis"]}} for name in STEPS}
    for name, statement in (said or {}).items():
        steps[name] |= statement
    return judge(PROCEDURE, {**case(entries=GOOD, steps=steps), "defects": {step: list(defects)}})


def codes(reasons):
    return [one["code"] for one in reasons]


def test_an_open_defect_that_makes_the_unit_unsafe_fails_its_step():
    result = judged(defect("safety"))
    assert result["steps"]["first"]["verdict"] == "fail"
    assert result["steps"]["second"]["held_by"] == ["first"]
    assert result["record"]["verdict"] == "fail"
    assert {"code": "defect_unsafe", "step": "first", "defect": "d1"} in result["record"]["blocking"]


def test_a_failed_record_with_an_unsafe_defect_can_be_complete():
    result = judged(defect("safety"), step="third")
    assert (result["record"]["verdict"], result["record"]["state"]) == ("fail", "complete")
    assert codes(result["record"]["blocking"]) == ["defect_unsafe", "step_failed"]


def test_an_open_major_defect_is_a_condition_and_nothing_else():
    result = judged(defect("major"))
    assert result["steps"]["first"]["verdict"] == "pass"
    assert result["record"]["conditions"] == [{"code": "defect_open", "step": "first", "defect": "d1"}]
    assert (result["record"]["verdict"], result["record"]["state"]) == ("conditional_pass", "complete")


@pytest.mark.parametrize(
    "harmless", [defect("minor"), defect("safety", closed="Tightened."), defect("major", closed="Replaced.")]
)
def test_minor_and_closed_defects_change_nothing(harmless):
    assert judged(harmless) == judged()


def test_a_defect_found_after_a_step_was_done_asks_to_look_again():
    result = judged(defect("major"), confirmed_with=())
    assert result["steps"]["first"]["state"] == "recheck"
    assert result["steps"]["first"]["basis"]["first#defect"] == ["event of d1"]


def test_a_defect_that_was_closed_since_asks_to_look_again_too():
    closed = defect("major", closed="Replaced.")
    assert judged(closed, confirmed_with=(defect("major"),))["steps"]["first"]["state"] == "recheck"


def test_leaving_a_step_out_does_not_hide_an_unsafe_defect():
    left_out = {"third": {"not_applicable": {"reason": "Not fitted."}}}
    result = judged(defect("safety"), step="third", said=left_out)
    assert (result["steps"]["third"]["state"], result["steps"]["third"]["verdict"]) == (
        "not_applicable",
        "fail",
    )
    assert result["record"]["verdict"] == "fail"
    major = judged(defect("major"), step="third", said=left_out)["record"]["conditions"]
    assert codes(major) == ["step_not_applicable", "defect_open"]


def test_of_two_versions_of_a_defect_the_worse_open_one_counts():
    both = {
        "item": "d1",
        "conflict": [{"id": "a", "severity": "minor"}, {"id": "b", "severity": "safety"}],
    }
    result = judged(both)["steps"]["first"]
    assert result["defects"] == [{"defect": "d1", "severity": "safety"}]
    assert result["basis"]["first#defect"] == [["a", "b"]]
    both["conflict"][1]["closed"] = "Tightened."
    assert judged(both)["steps"]["first"]["defects"] == []


# ---- what could not be done


def test_work_that_cannot_go_on_ends_in_a_complete_record_that_fails():
    said = {"first": {"not_done": {"reason": "No earth at the socket."}}}
    result = judge(PROCEDURE, case(entries=GOOD, steps=said))
    assert (result["steps"]["first"]["state"], result["steps"]["first"]["verdict"]) == (
        "not_done",
        "not_measured",
    )
    assert (result["record"]["state"], result["record"]["verdict"]) == ("complete", "fail")
    assert [(one["code"], one["step"]) for one in result["record"]["blocking"]] == [
        ("step_not_done", "first"),
        ("step_not_reached", "second"),
        ("step_not_reached", "third"),
    ]


def test_what_does_not_wait_for_a_step_that_could_not_be_done_is_still_to_be_done():
    steps = judge(PROCEDURE, case(entries=GOOD))["steps"]
    said = {
        "first": {"done": {"seen": steps["first"]["basis"]}},
        "third": {"not_done": {"reason": "No sensor."}},
    }
    before = judge(PROCEDURE, case(entries=GOOD, steps=said))["record"]
    assert before["state"] == "incomplete"
    assert {"code": "step_open", "step": "second"} in before["blocking"]
    said["second"] = {"done": {"seen": steps["second"]["basis"]}}
    after = judge(PROCEDURE, case(entries=GOOD, steps=said))["record"]
    assert (after["state"], after["verdict"]) == ("complete", "fail")
    assert after["blocking"] == [{"code": "step_not_done", "step": "third"}]


def test_what_failed_and_could_not_be_put_right_still_says_that_it_failed():
    undone = {"third": {"not_done": {"reason": "The spare part is ordered."}}}
    result = judged(defect("safety"), step="third", said=undone)
    assert result["steps"]["third"]["verdict"] == "fail"
    assert result["record"]["state"] == "complete"
    assert [one["code"] for one in result["record"]["blocking"] if one["step"] == "third"] == [
        "defect_unsafe",
        "step_failed",
        "step_not_done",
    ]
