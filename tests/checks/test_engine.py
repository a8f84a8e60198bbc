"""The engine on a small invented procedure: what is missing, what is refused, what holds what."""

import copy
import datetime
import json

import pytest

from checks.catalogue import FORMULAS
from checks.engine import judge
from checks.formula import Outcome
from tests.checks.small import PROCEDURE, case, gauge

GOOD = {"first.pressure": 5.0, "first.sound": "yes"}
DATES = ("2026-08-31", "2027-02-28")
SECOND = {
    "second.began": "2026-11-25T09:00:00Z",
    "second.ended": "2026-11-25T09:00:01Z",
    "second.before": 3.0,
    "second.after": 3.1,
}


def judged(**parts):
    return judge(PROCEDURE, case(**parts))


def rule(name, **parts):
    return judged(**parts)["rules"][name]


def codes(result):
    return [one["code"] for one in result["reasons"]]


def done(*names, more=None, **parts):
    """A judgement in which these steps were confirmed as they are; `more` are other statements."""
    standing = judged(**parts)["steps"]
    said = {name: {"done": {"seen": standing[name]["basis"]}} for name in names}
    for name, statements in (more or {}).items():
        said[name] = said.get(name, {}) | statements
    return judged(**parts, steps=said)


# ---- quantities


def test_a_date_enters_a_formula_as_whole_days_since_1970():
    """31 August and six months: 28 February 2027, 20877 days (Python's calendar says the same)."""
    days = {date: (datetime.date.fromisoformat(date) - datetime.date(1970, 1, 1)).days for date in DATES}
    found = judged(entries={"third.fitted": DATES[0]})["quantities"]
    assert found["third.fitted"]["value"] == DATES[0]
    assert found["third.fitted_day"]["value"] == days[DATES[0]]
    assert (found["third.due"]["value"], found["third.due"]["unit"]) == (days[DATES[1]], "date")


def test_a_reading_is_compared_with_that_of_an_earlier_record():
    found = judged(entries=GOOD, baseline={"pressure": 4.0})["quantities"]
    assert found["third.change"]["value"] == pytest.approx(0.25)
    assert found["baseline.pressure"]["value"] == 4.0


def test_without_an_earlier_record_what_rests_on_it_is_missing():
    without = {name: part for name, part in case(entries=GOOD).items() if name != "baseline"}
    found = judge(PROCEDURE, without)["quantities"]["third.change"]
    assert (found["value"], found["missing"]) == (None, ["baseline.pressure"])


def test_nothing_entered_names_everything_that_is_missing():
    result = judge(PROCEDURE, case(plate={"ceiling": None}))
    assert result["rules"]["first.pressure"]["missing"] == ["first.pressure", "plate.ceiling"]
    assert result["steps"]["first"]["missing"] == [
        "first.pressure",
        "plate.ceiling",
        "first.sound",
        "plate.grade",
    ]
    assert result["record"] == {
        "verdict": "not_measured",
        "state": "incomplete",
        "blocking": [
            {"code": "step_missing", "step": "first", "missing": result["steps"]["first"]["missing"]},
            {"code": "step_open", "step": "first"},
            {"code": "step_missing", "step": "second", "missing": result["steps"]["second"]["missing"]},
            {"code": "step_held", "step": "second"},
            {"code": "step_missing", "step": "third", "missing": ["third.readings"]},
            {"code": "step_waiting", "step": "third"},
        ],
        "conditions": [{"code": "rule_pending", "step": "second", "rule": "second.count"}],
    }


def test_a_default_holds_until_something_is_entered():
    assert judged()["quantities"]["site.floor"]["value"] == 1
    assert judged(site={"floor": 2})["quantities"]["site.floor"]["value"] == 2


def test_a_derived_quantity_shows_formula_and_inputs_and_carries_the_uncertainty():
    doubled = judged(entries=GOOD)["quantities"]["first.doubled"]
    assert (doubled["value"], doubled["formula"], doubled["inputs"]) == (
        10,
        "scaled",
        {"value": 5.0, "factor": 2},
    )
    assert doubled["u"] == pytest.approx(2 * 0.1 / 12**0.5)


def test_one_reading_used_twice_does_not_count_its_uncertainty_twice():
    """At time zero the mixture is the start, the inflow has no weight: u is that of the reading."""
    result = judged(entries=SECOND)["quantities"]
    assert result["second.difference"]["u"] == pytest.approx(result["second.before"]["u"])


@pytest.mark.parametrize(("grade", "end", "formula"), [("plain", 50, None), ("fine", 20, "scaled")])
def test_the_first_alternative_whose_condition_holds_counts(grade, end, formula):
    found = judged(plate={"ceiling": 10, "grade": grade})["quantities"]["first.window_end"]
    assert (found["value"], found["formula"]) == (end, formula)


def test_while_the_deciding_choice_is_missing_the_thing_is_neither_there_nor_not_there():
    result = judged(plate={"ceiling": 10})
    assert result["quantities"]["first.colour"]["applies"] is None
    assert result["rules"]["first.colour"]["verdict"] == "not_measured"
    assert result["rules"]["first.colour"]["missing"] == ["plate.grade"]


def test_what_does_not_apply_is_not_asked_for():
    result = judged(entries=GOOD)
    assert result["quantities"]["first.colour"]["applies"] is False
    assert result["rules"]["first.colour"]["verdict"] == "not_applicable"
    assert result["steps"]["first"]["missing"] == []


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ({"value": 61, "instrument": "g"}, "outside_possible"),
        ({"value": -0.1, "instrument": "g"}, "outside_possible"),
        ({"value": None, "typed": "abc"}, "not_a_number"),
        ({"value": "5"}, "not_a_number"),
        ({"value": True}, "not_a_number"),
        ({"conflict": [{"value": 1}, {"value": 2}]}, "conflict"),
    ],
)
def test_a_value_that_cannot_be_used_is_kept_and_refused(cell, code):
    result = judged(entries=GOOD | {"first.pressure": cell})
    assert codes(result["rules"]["first.pressure"]) == [code]
    assert result["rules"]["first.pressure"]["verdict"] == "not_measured"
    assert result["quantities"]["first.doubled"]["reason"]["quantity"] == "first.pressure"
    assert result["steps"]["first"]["missing"] == ["first.pressure"]


@pytest.mark.parametrize(
    "text", ["yesterday", "2026-02-29T10:00:00Z", "2026-11-25T24:00:00Z", "2026-11-25 09:00"]
)
def test_what_is_no_instant_is_refused(text):
    assert codes(rule("second.order", entries=SECOND | {"second.began": text})) == ["not_an_instant"]


def test_a_choice_that_is_not_offered_is_refused():
    found = judged(plate={"ceiling": 10, "grade": "rough"})["quantities"]["plate.grade"]
    assert (found["value"], found["reason"]["code"], found["reason"]["options"]) == (
        None,
        "unknown_choice",
        ["plain", "fine"],
    )


def test_the_newest_readings_count_and_fewer_are_too_few():
    few = judged(entries={"third.readings": [9.0, 5.0]})
    assert few["rules"]["third.stability"]["missing"] == ["third.readings"]
    enough = judged(entries={"third.readings": [20.0, 5.0, 5.1, 5.05]})["quantities"]["third.stability"]
    assert enough["inputs"]["readings"] == [5.0, 5.1, 5.05]
    assert enough["value"] == pytest.approx(0.05 / 5.05)


def test_a_series_with_one_unreadable_item_is_refused_as_a_whole():
    cells = [5.0, {"value": None, "typed": "5,,"}, 5.0]
    assert codes(rule("third.stability", entries={"third.readings": cells})) == ["not_a_number"]


# ---- rules


def test_only_a_reading_inside_the_guarded_window_passes():
    """U = 2 x 0.1 / root of 12 = 0.0577 bar: accepted from 1.0577 to 9.9423 bar."""
    result = rule("first.pressure", entries={"first.pressure": 9.9})
    assert (result["verdict"], result["accept_lower"], result["accept_upper"]) == (
        "pass",
        pytest.approx(1.05774, abs=1e-5),
        pytest.approx(9.94226, abs=1e-5),
    )
    assert rule("first.pressure", entries={"first.pressure": 9.95})["verdict"] == "fail"


def test_acceptance_limits_stand_before_there_is_a_reading_once_the_instrument_is_chosen():
    result = rule("first.pressure", entries={"first.pressure": {"value": None, "instrument": "g"}})
    assert (result["verdict"], result["accept_upper"]) == ("not_measured", pytest.approx(9.94226, abs=1e-5))


@pytest.mark.parametrize(
    ("cell", "instruments", "code"),
    [
        ({"value": 5.0}, None, "no_instrument"),
        ({"value": 5.0, "instrument": "lost"}, None, "unknown_instrument"),
        ({"value": 5.0, "instrument": "g"}, [gauge(kind="ruler")], "wrong_instrument"),
        ({"value": 5.0, "instrument": "g"}, [gauge(range_maximum=4)], "outside_instrument_range"),
        ({"value": 5.0, "instrument": "g"}, [gauge(resolution=10)], "window_too_narrow"),
        ({"value": 5.0, "instrument": "g", "at": "2027-03-02T00:00:00.000Z"}, None, "calibration_overdue"),
    ],
)
def test_an_instrument_that_is_not_good_enough_is_a_verdict_of_its_own(cell, instruments, code):
    result = rule("first.pressure", entries={"first.pressure": cell}, instruments=instruments)
    assert (result["verdict"], codes(result)) == ("instrument_not_good_enough", [code])


def test_a_derived_reading_is_no_better_than_the_instruments_behind_it():
    overdue = {"value": 5.0, "instrument": "g", "at": "2028-01-01T00:00:00.000Z"}
    result = rule("first.doubled", entries={"first.pressure": overdue})
    assert (result["verdict"], codes(result)) == ("instrument_not_good_enough", ["calibration_overdue"])


def test_no_valid_setting_is_said_before_anything_was_measured():
    result = judged(plate={"ceiling": 0.5, "grade": "plain"})
    assert result["rules"]["first.pressure"]["verdict"] == "no_valid_setting"
    assert result["steps"]["first"]["verdict"] == "no_valid_setting"
    assert (result["record"]["verdict"], result["record"]["state"]) == ("fail", "incomplete")


def test_an_answer_that_is_not_accepted_fails():
    result = rule("first.sound", entries={"first.sound": "no"})
    assert (result["verdict"], codes(result)) == ("fail", ["answer_not_accepted"])


@pytest.mark.parametrize(
    ("began", "ended", "verdict", "found"),
    [
        ("2026-11-25T09:00Z", "2026-11-25T09:00:00.001Z", "pass", []),
        ("2026-11-25T09:00Z", "2026-11-25T09:00:00.000Z", "fail", ["same_instant"]),
        ("2026-11-25T09:00:01Z", "2026-11-25T09:00:00.5Z", "fail", ["out_of_order"]),
    ],
)
def test_instants_have_to_follow_one_another(began, ended, verdict, found):
    result = rule("second.order", entries={"second.began": began, "second.ended": ended})
    assert (result["verdict"], codes(result)) == (verdict, found)


def test_readings_with_two_instruments_are_not_one_and_the_same():
    other = {"value": 3.0, "instrument": "h"}
    result = rule(
        "second.one_gauge", entries=SECOND | {"second.after": other}, instruments=[gauge(), gauge(id="h")]
    )
    assert (result["verdict"], codes(result)) == ("fail", ["different_instruments"])
    assert rule("second.one_gauge", entries=SECOND)["verdict"] == "pass"


def test_a_result_that_follows_later_is_pending_and_a_wrong_one_is_not():
    assert rule("second.count")["verdict"] == "pending"
    assert (
        rule("second.count", entries={"second.count": {"value": None, "typed": "x"}})["verdict"]
        == "not_measured"
    )


def test_information_never_counts_for_the_step():
    """Twice 30 bar is above 50 bar, and only a hint."""
    result = judged(plate={"ceiling": 40, "grade": "plain"}, entries=GOOD | {"first.pressure": 30.0})
    assert result["rules"]["first.doubled"]["verdict"] == "fail"
    assert result["steps"]["first"]["verdict"] == "pass"


# ---- steps


def test_a_step_is_open_until_somebody_says_it_is_done():
    assert judged(entries=GOOD)["steps"]["first"]["state"] == "open"
    assert done("first", entries=GOOD)["steps"]["first"]["state"] == "done"


def test_a_changed_value_turns_a_done_step_to_recheck_and_erases_nothing():
    standing = judged(entries=GOOD)["steps"]["first"]
    said = {"first": {"done": {"seen": standing["basis"]}}}
    changed = judged(entries=GOOD | {"first.pressure": 5.1}, steps=said)["steps"]
    assert changed["first"]["state"] == "recheck"
    assert changed["second"]["state"] == "held"


def test_the_basis_names_events_where_there_are_events():
    cell = {"value": 5.0, "instrument": "g", "id": "event-1"}
    basis = judged(entries=GOOD | {"first.pressure": cell})["steps"]["first"]["basis"]
    assert basis["first.pressure"] == "event-1"
    assert basis["plate.ceiling"] == 10


def test_a_changed_plate_or_site_turns_to_recheck_too():
    said = {"first": {"done": {"seen": judged(entries=GOOD)["steps"]["first"]["basis"]}}}
    assert judged(entries=GOOD, site={"floor": 2}, steps=said)["steps"]["first"]["state"] == "recheck"


@pytest.mark.parametrize("pressure", [9.95, None])
def test_a_hold_asks_for_a_pass_and_no_reason_overrides_it(pressure):
    entries = GOOD | SECOND | {"first.pressure": pressure}
    result = done("first", "second", entries=entries, more={"second": {"override": {"reason": "Hurry"}}})
    assert result["steps"]["second"]["state"] == "held"
    assert result["steps"]["second"]["held_by"] == ["first"]


def test_other_prerequisites_can_be_overridden_which_makes_the_record_conditional():
    entries = GOOD | SECOND | {"third.readings": [5.0, 5.0, 5.0]}
    standing = judged(entries=entries)["steps"]
    said = {name: {"done": {"seen": standing[name]["basis"]}} for name in ("first", "third")}
    assert judged(entries=entries, steps=said)["steps"]["third"]["state"] == "waiting"
    said["third"]["override"] = {"reason": "The second needs a spare part."}
    third = judged(entries=entries, steps=said)["steps"]["third"]
    assert third["state"] == "done"
    assert third["conditions"] == [
        {
            "code": "prerequisite_overridden",
            "step": "third",
            "needs": "second",
            "reason": "The second needs a spare part.",
        }
    ]


def test_a_pending_result_lets_the_next_step_begin_and_makes_the_record_conditional():
    entries = GOOD | SECOND | {"third.readings": [5.0, 5.0, 5.0]}
    result = done("first", "second", "third", entries=entries)
    assert [result["steps"][name]["state"] for name in ("first", "second", "third")] == ["done"] * 3
    assert (result["record"]["state"], result["record"]["verdict"]) == ("complete", "conditional_pass")


def test_everything_well_is_a_complete_record_that_passes():
    entries = GOOD | SECOND | {"third.readings": [5.0, 5.0, 5.0], "second.count": 3}
    result = done("first", "second", "third", entries=entries)
    assert result["record"] == {"verdict": "pass", "state": "complete", "blocking": [], "conditions": []}


def test_an_optional_step_may_be_left_out_with_a_reason():
    said = {"third": {"not_applicable": {"reason": "No series here."}}}
    result = done("first", "second", entries=GOOD | SECOND | {"second.count": 3}, more=said)
    assert result["steps"]["third"]["state"] == "not_applicable"
    assert (result["record"]["state"], result["record"]["verdict"]) == ("complete", "conditional_pass")


def test_a_step_that_is_not_optional_cannot_be_left_out():
    result = judged(steps={"first": {"not_applicable": {"reason": "No time."}}})
    assert {"code": "step_not_optional", "step": "first"} in result["record"]["blocking"]
    assert result["steps"]["second"]["held_by"] == ["first"]


def test_a_failed_record_can_be_complete():
    entries = GOOD | SECOND | {"third.readings": [5.0, 9.0, 5.0], "second.count": 3}
    record = done("first", "second", "third", entries=entries)["record"]
    assert (record["verdict"], record["state"]) == ("fail", "complete")
    assert record["blocking"] == [{"code": "step_failed", "step": "third", "verdict": "fail"}]


def test_a_step_confirmed_while_a_value_is_refused_does_not_complete_the_record():
    cells = [5.0, 5.0, {"value": 70, "instrument": "g"}]
    entries = GOOD | SECOND | {"third.readings": cells, "second.count": 3}
    assert done("first", "second", "third", entries=entries)["record"]["state"] == "incomplete"


# ---- the result as data


def test_the_case_is_not_changed_and_the_result_is_plain_json():
    given = case(entries=GOOD | SECOND)
    before = copy.deepcopy(given)
    result = judge(PROCEDURE, given)
    assert given == before
    assert json.loads(json.dumps(result, allow_nan=False)) == result


def test_another_catalogue_can_stand_in():
    class Always:
        def evaluate(self, values):
            return Outcome("pass", None)

    formulas = dict(FORMULAS) | {"guarded_verdict": Always()}
    result = judge(PROCEDURE, case(entries={"first.pressure": 59.0}), formulas)
    assert result["rules"]["first.pressure"]["verdict"] == "pass"
