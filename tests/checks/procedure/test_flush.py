"""The first flush: how long it should take, what explains a difference, and the first permeate."""

from math import log

import pytest

from tests.checks.procedure.judged import instrument, judged

METERS = (
    instrument("conductivity_meter", "uS/cm", 2000, resolution=0.01),
    instrument("flow_meter", "L/min", 20),
)
PLATE = {"wetted_volume": 60, "flush_target": 1.0, "product_flow": 2, "reverse_osmosis_fitted": True}
ENTRIES = {
    "leaks": "none",
    "air_out": True,
    "flow": 4,
    "feed_conductivity": 0.2,
    "start_conductivity": 50,
    "started_at": "2026-11-25T10:00:00Z",
    "conductivity": [12.1, 0.81, 0.8, 0.79],
    "ended_at": "2026-11-25T11:10:00Z",
    "drained_volume": 281,
}


def flush(plate=None, **changed):
    return judged("flush", plate=PLATE | (plate or {}), instruments=METERS, **(ENTRIES | changed))


def verdict(rule, plate=None, **changed):
    return flush(plate, **changed)["rules"][f"flush.{rule}"]["verdict"]


def test_a_flush_as_predicted_passes():
    found = flush()
    assert found["steps"]["flush"]["verdict"] == "pass"
    assert found["quantities"]["flush.time"]["value"] == pytest.approx(60 / 4 * log((50 - 0.2) / (1 - 0.2)))


@pytest.mark.parametrize(
    ("ended", "expected"),
    [("11:01", "fail"), ("11:02", "pass"), ("11:32", "pass"), ("11:33", "fail")],
)
def test_the_time_is_compared_with_its_prediction_and_half_as_much_again(ended, expected):
    """61.97 min to 92.95 min from 10:00 (Levenspiel: 60 L / 4 L/min x ln(49.8 / 0.8))."""
    found = flush(ended_at=f"2026-11-25T{ended}:00Z")
    assert found["rules"]["flush.duration"]["verdict"] == expected
    assert found["steps"]["flush"]["verdict"] == "pass"


@pytest.mark.parametrize(("ended", "expected"), [("10:15", "pass"), ("10:16", "fail")])
def test_water_that_is_clean_already_may_be_flushed_a_while(ended, expected):
    found = flush(start_conductivity=0.9, ended_at=f"2026-11-25T{ended}:00Z")
    assert found["quantities"]["flush.time"]["value"] == 0
    assert found["rules"]["flush.duration"]["verdict"] == expected


def test_without_a_membrane_nobody_asks_for_its_permeate():
    rules = flush()["rules"]
    for name in ("preservative_gone", "permeate_time", "permeate_sequence"):
        assert rules[f"flush.{name}"]["verdict"] == "not_applicable"


@pytest.mark.parametrize(("ended", "expected"), [("10:59:59", "fail"), ("11:00:00", "pass")])
def test_the_first_permeate_goes_to_drain_as_long_as_the_maker_asks(ended, expected):
    times = {
        "permeate_started_at": "2026-11-25T10:00:00Z",
        "permeate_ended_at": f"2026-11-25T{ended}Z",
    }
    assert verdict("permeate_time", {"permeate_flush_time": "1 h"}, **times) == expected


def test_a_time_that_was_asked_for_and_not_taken_is_missing():
    missing = flush({"permeate_flush_time": 60})["steps"]["flush"]["missing"]
    assert missing == ["flush.permeate_started_at", "flush.permeate_ended_at"]


@pytest.mark.parametrize(
    ("delivered", "gone", "expected"),
    [("preserved", True, "pass"), ("preserved", False, "fail"), ("dry", True, "not_applicable")],
)
def test_preservative_is_looked_for_where_there_was_some(delivered, gone, expected):
    plate = {"membrane_preservative": delivered}
    assert verdict("preservative_gone", plate, preservative_gone=gone) == expected


def test_the_last_reading_is_as_uncertain_as_itself_and_not_as_the_first():
    """1 % of 0.79 uS/cm, rectangular: U = 2 x 0.0079 / root 3; the 12.1 at the start does not count."""
    meters = (instrument("conductivity_meter", "uS/cm", 2000, accuracy_of_reading=0.01), METERS[1])
    rule = judged("flush", plate=PLATE, instruments=meters, **ENTRIES)["rules"]["flush.target"]
    assert rule["expanded"] == pytest.approx(2 * 0.0079 / 3**0.5, rel=1e-6)
