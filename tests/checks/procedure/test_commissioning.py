"""What the commissioning procedure promises: a safe order, sources, words for somebody with wet gloves."""

import pytest

from checks.catalogue import FORMULAS
from checks.formulas.water_grades import GRADES
from checks.procedure import load
from checks.units import OFFERED

PROCEDURE = load("commissioning")
STEPS = {step["id"]: step for step in PROCEDURE["steps"]}
OWNERS = [("plate", PROCEDURE["plate"]), ("site", PROCEDURE["site"])]
OWNERS += [(step["id"], step["entries"]) for step in PROCEDURE["steps"]]
ENTRIES = [
    (f"{owner}.{entry['id']}", entry)
    for owner, entries in OWNERS
    for entry in entries
]  # fmt: skip
RULES = [(f"{step['id']}.{rule['id']}", rule) for step in PROCEDURE["steps"] for rule in step["rules"]]

ASKED_FOR = {
    "site.supply_system",
    "site.breaker_rating",
    "site.protective_device",
    "site.fuse_trip_current",
    "site.supply_pressure_maximum",
    "site.local_test_pressure",
    "site.local_test_time",
}
"""What differs from site to site, so that no value would be on the safe side."""


def holds(name, found=()):
    """Every step that holds this one, directly or through others."""
    for need in STEPS[name]["needs"]:
        if need["hold"] and need["step"] not in found:
            found = holds(need["step"], (*found, need["step"]))
    return found


def test_the_steps_stand_in_the_order_of_the_work():
    """Dead tests before live ones, the supply and its relief before water goes in, quality near the end."""
    order = ["survey", "isolator", "isolation", "earthing", "insulation", "supply", "relief", "leak_test"]
    order += ["live_tests", "break_tank", "flush", "reverse_osmosis", "sanitisation", "quality"]
    assert [step for step in STEPS if step in order] == [step for step in order if step in STEPS]


def test_nothing_is_energised_before_the_dead_tests():
    """IEC 60364-6: protective conductors before the supply is on; OSHA 1910.147: isolation first."""
    assert {"isolation", "isolator"} <= set(holds("earthing"))
    assert {"earthing", "isolation", "isolator"} <= set(holds("live_tests"))
    assert {"live_tests", "relief"} <= set(holds("flush"))


def test_no_pressure_on_the_unit_before_its_relief_valve_is_proved():
    assert "relief" in holds("flush")
    assert "relief" in holds("quality")


def test_what_is_no_matter_of_safety_can_be_overridden():
    assert "flush" in [need["step"] for need in STEPS["quality"]["needs"] if not need["hold"]]


def test_every_prerequisite_says_why_in_a_sentence():
    assert all(need["because"].endswith(".") for step in STEPS.values() for need in step["needs"])


@pytest.mark.parametrize(("name", "entry"), ENTRIES)
def test_labels_are_short_and_hints_are_sentences(name, entry):
    assert len(entry["label"]) <= 75
    assert len(entry["hint"]) <= 90
    assert not entry["hint"] or entry["hint"][-1] in ".?"
    assert not entry["label"].endswith(".")


@pytest.mark.parametrize(("name", "rule"), RULES)
def test_every_rule_has_a_source_that_says_how_it_is_known(name, rule):
    assert len(rule["source"]) > 10


def test_safety_is_judged_with_the_uncertainty_counted():
    """The measured safety limits are guarded; the others say in their source why they are not."""
    guarded = {name for name, rule in RULES if rule["decision"] == "guarded"}
    assert {"earthing.continuity", "relief.opening_pressure", "relief.rest_pressure"} <= guarded
    for name, rule in RULES:
        if rule["decision"] == "simple" and name.split(".")[0] in ("isolation", "relief"):
            assert any(
                word in rule["source"] for word in ("error", "margin", "guard", "no source", "tolerance")
            ), name


def test_every_formula_used_exists_and_every_unit_is_offered():
    used = {
        derived["formula"] for step in STEPS.values() for derived in step["derived"] if derived["formula"]
    }
    assert used <= set(FORMULAS)
    assert {unit for _, entry in ENTRIES for unit in entry["units"]} <= set(OFFERED)


def test_the_grades_are_those_of_the_limits_and_the_users_own():
    grades = next(entry for name, entry in ENTRIES if name == "plate.water_grade")["options"]
    assert {option["value"] for option in grades} == {*GRADES, "custom"}


def test_every_choice_of_the_site_has_a_default_or_is_asked_for_on_purpose():
    without = {name for name, entry in ENTRIES if name.startswith("site.") and entry["default"] is None}
    assert without == ASKED_FOR


def test_electricity_pressure_flooding_ultraviolet_and_chlorine_are_cautioned_and_defer_to_manual_and_code():
    assert {"electricity", "stored_pressure", "flooding", "ultraviolet", "chlorine"} <= set(
        PROCEDURE["cautions"]
    )
    for name in ("electricity", "stored_pressure", "ultraviolet", "chlorine"):
        assert any("maker's manual" in line for line in PROCEDURE["cautions"][name]["lines"]), name
    assert any("licensed" in line for line in PROCEDURE["cautions"]["electricity"]["lines"])
