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


ORDER = (
    "survey, isolator, isolation, earthing, insulation, supply, relief, feed, leak_test, live_tests, "
    "pretreatment, break_tank, flush, reverse_osmosis, degasser, reservoir, loop, deioniser, ultraviolet, "
    "ultrafilter, sensors, sanitising_preparation, sanitisation, sanitising_rinse, alarms, quality, "
    "consumables, access, handover, defects, next_service"
)
"""Dead tests before live ones, the supply and its relief before water goes in, quality near the end."""

HOLDS = {
    "earthing": {"isolation", "isolator"},
    "insulation": {"isolation", "earthing"},
    "relief": {"isolation"},
    "leak_test": {"relief"},
    "live_tests": {"earthing", "insulation", "leak_test", "isolation"},
    "pretreatment": {"isolation", "leak_test", "relief"},
    "break_tank": {"live_tests", "relief"},
    "flush": {"live_tests", "relief", "earthing", "pretreatment"},
    "reverse_osmosis": {"pretreatment", "relief", "live_tests"},
    "loop": {"live_tests", "leak_test", "relief"},
    "ultraviolet": {"live_tests", "earthing"},
    "ultrafilter": {"relief"},
    "sanitisation": {"sanitising_preparation", "leak_test", "relief", "live_tests"},
    "alarms": {"live_tests"},
    "quality": {"sanitisation", "sanitising_rinse", "relief", "earthing", "live_tests"},
}
"""What must be passed first, directly or through others.

IEC 60364-6: protective conductors before the supply is on. OSHA 1910.147: isolation first. No pressure on the
unit before its relief valve is proved, no water to users before the agent is out.
"""


def holds(name, found=()):
    """Every step that holds this one, directly or through others."""
    for need in STEPS[name]["needs"]:
        if need["hold"] and need["step"] not in found:
            found = holds(need["step"], (*found, need["step"]))
    return found


def test_the_steps_stand_in_the_order_of_the_work():
    assert ", ".join(STEPS) == ORDER


@pytest.mark.parametrize("step", HOLDS)
def test_what_is_dangerous_waits_for_what_makes_it_safe(step):
    assert set(holds(step)) >= HOLDS[step]


def test_what_is_no_matter_of_safety_can_be_overridden():
    assert "flush" in [need["step"] for need in STEPS["quality"]["needs"] if not need["hold"]]


def test_every_prerequisite_says_why_in_a_sentence():
    assert all(need["because"].endswith(".") for step in STEPS.values() for need in step["needs"])


def test_labels_are_short():
    assert [name for name, entry in ENTRIES if len(entry["label"]) > 75 or entry["label"].endswith(".")] == []


def test_hints_are_sentences_that_fit_a_phone():
    hints = {name: entry["hint"] for name, entry in ENTRIES if entry["hint"]}
    assert [name for name, hint in hints.items() if len(hint) > 90 or hint[-1] not in ".?"] == []


def test_every_rule_has_a_source_that_says_how_it_is_known():
    assert [name for name, rule in RULES if len(rule["source"]) <= 10] == []


def test_safety_is_judged_with_the_uncertainty_counted():
    """The measured safety limits are guarded; the others say in their source why they are not."""
    guarded = {name for name, rule in RULES if rule["decision"] == "guarded"}
    assert {"earthing.continuity", "insulation.lowest", "relief.opening_pressure"} <= guarded
    assert {"leak_test.unit_pressure", "live_tests.trip_time", "reverse_osmosis.feed_pressure"} <= guarded
    assert {"loop.pump_maximum", "sanitising_rinse.rinsed", "sanitising_rinse.stand"} <= guarded
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
