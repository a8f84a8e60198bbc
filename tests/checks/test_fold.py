"""Events become current values whatever the order and the number of times they arrive."""

import itertools
import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checks.fold import fold
from checks.procedure import plain
from checks.procedure.load import parse

SMALL = Path(__file__).parent / "small.toml"
PROCEDURE = plain(parse(SMALL.read_text(encoding="utf-8"), "small.toml"))


def event(name, field="first.pressure", value=1.0, replaces=(), item=None, time=0, **more):
    content = more.get("content", {"typed": str(value), "unit": "bar", "value": value, "instrument": "g"})
    return {
        "id": name,
        "field": field,
        "item": item,
        "content": content,
        "replaces": list(replaces),
        "at": f"2026-11-25T09:00:{time:02d}.000Z",
        "hlc": f"2026-11-25T09:00:{time:02d}.000Z-0000-node",
    }


def entries(*events):
    return fold(PROCEDURE, events)["entries"]


def test_one_event_is_a_cell_with_its_content_its_time_and_its_identity():
    assert entries(event("a", value=2.5)) == {
        "first.pressure": {
            "typed": "2.5",
            "unit": "bar",
            "value": 2.5,
            "instrument": "g",
            "at": "2026-11-25T09:00:00.000Z",
            "id": "a",
        }
    }


def test_an_event_that_replaces_another_is_the_current_value():
    assert (
        entries(event("a", value=1), event("b", value=2, replaces=["a"], time=1))["first.pressure"]["id"]
        == "b"
    )


def test_two_values_that_do_not_know_of_each_other_are_a_conflict_in_order_of_time():
    found = entries(event("b", value=2, time=1), event("a", value=1))
    assert [cell["id"] for cell in found["first.pressure"]["conflict"]] == ["a", "b"]


def test_a_choice_between_the_two_ends_the_conflict():
    found = entries(
        event("a", value=1), event("b", value=2, time=1), event("c", value=2, replaces=["a", "b"], time=2)
    )
    assert found["first.pressure"]["id"] == "c"


def test_the_same_value_from_two_phones_is_no_conflict_even_when_typed_differently():
    other = {"typed": "200 kPa", "unit": "kPa", "value": 2.0, "instrument": "g"}
    found = entries(event("a", value=2), event("b", content=other, time=1))
    assert found["first.pressure"]["id"] == "b"


def test_the_same_number_from_another_instrument_is_a_conflict():
    other = {"typed": "2", "unit": "bar", "value": 2.0, "instrument": "h"}
    assert "conflict" in entries(event("a", value=2), event("b", content=other, time=1))["first.pressure"]


def test_a_removed_value_is_gone():
    assert entries(event("a"), event("b", content=None, replaces=["a"], time=1)) == {}


def test_removing_and_changing_at_once_is_a_conflict():
    found = entries(
        event("a"),
        event("b", content=None, replaces=["a"], time=1),
        event("c", value=3, replaces=["a"], time=2),
    )
    assert [cell["value"] for cell in found["first.pressure"]["conflict"]] == [None, 3]


def test_a_series_stands_in_the_order_in_which_its_readings_began():
    found = entries(
        event("b", "third.readings", 2, item="b", time=2),
        event("a", "third.readings", 1, item="a", time=1),
        event("c", "third.readings", 9, item="a", replaces=["a"], time=3),
    )
    assert [cell["value"] for cell in found["third.readings"]] == [9, 2]


def test_a_reading_taken_out_of_a_series_leaves_the_others():
    found = entries(
        event("a", "third.readings", 1, item="a", time=1),
        event("b", "third.readings", 2, item="b", time=2),
        event("c", "third.readings", item="a", content=None, replaces=["a"], time=3),
    )
    assert [cell["id"] for cell in found["third.readings"]] == ["b"]


def test_fields_that_the_procedure_does_not_have_are_kept_aside():
    result = fold(PROCEDURE, [event("a", "first.smell"), event("b", item="x", time=1)])
    assert result["entries"] == {}
    assert result["unknown"] == [{"id": "a", "field": "first.smell"}, {"id": "b", "field": "first.pressure"}]


def test_values_of_plate_and_site_are_folded_like_those_of_a_step_and_of_the_baseline_never():
    result = fold(
        PROCEDURE,
        [
            event("a", "plate.ceiling"),
            event("b", "plate.ceiling", 2.0, replaces=["a"], time=1),
            event("c", "site.floor", 1.0, time=2),
            event("d", "site.floor", 3.0, time=3),
            event("e", "plate.weight", time=4),
            event("f", "baseline.pressure", time=5),
        ],
    )
    assert result["entries"]["plate.ceiling"]["value"] == 2.0
    assert [one["id"] for one in result["entries"]["site.floor"]["conflict"]] == ["c", "d"]
    assert [one["field"] for one in result["unknown"]] == ["plate.weight", "baseline.pressure"]


def test_a_step_is_done_until_somebody_takes_it_back():
    done = event("a", "first#done", content={"seen": {"first.pressure": "p"}})
    assert fold(PROCEDURE, [done])["steps"]["first"]["done"]["seen"] == {"first.pressure": "p"}
    back = event("b", "first#done", content=None, replaces=["a"], time=1)
    assert fold(PROCEDURE, [done, back])["steps"] == {}


def test_a_step_that_one_person_confirms_and_another_takes_back_is_not_done():
    events = [event("a", "first#done", content={"seen": {}}), event("b", "first#done", content=None, time=1)]
    assert fold(PROCEDURE, events)["steps"] == {}


def test_notes_of_several_people_all_stand():
    notes = fold(
        PROCEDURE,
        [event("a", "first#note", content={"value": "x"}), event("b", "first#note", content={"value": "y"})],
    )
    assert [note["value"] for note in notes["notes"]["first"]] == ["x", "y"]


def test_events_that_replace_each_other_in_a_ring_are_not_lost():
    found = entries(event("a", value=1, replaces=["b"]), event("b", value=2, replaces=["a"], time=1))
    assert len(found["first.pressure"]["conflict"]) == 2


def test_a_photo_is_named_by_its_hash():
    assert (
        fold(PROCEDURE, [event("a", "second.count", content={"sha256": "f" * 64})])["entries"][
            "second.count"
        ]["value"]
        == "f" * 64
    )


def test_content_that_is_no_object_does_not_break_the_fold():
    assert entries(event("a", content="nonsense"))["first.pressure"]["value"] is None


HISTORY = [
    event("a", value=1),
    event("b", value=2, replaces=["a"], time=1),
    event("c", value=3, replaces=["a"], time=2),
    event("d", "third.readings", 1, item="d", time=3),
    event("e", "third.readings", 2, item="d", replaces=["d"], time=4),
]


@pytest.mark.parametrize("order", list(itertools.permutations(range(len(HISTORY))))[::7])
def test_every_order_of_arrival_gives_the_same(order):
    assert fold(PROCEDURE, [HISTORY[place] for place in order]) == fold(PROCEDURE, HISTORY)


@st.composite
def histories(draw):
    """Histories of up to twelve events on few fields, some with one id and different contents."""
    events = []
    for place in range(draw(st.integers(1, 12))):
        field, item = draw(
            st.sampled_from(
                [
                    ("first.pressure", None),
                    ("first.sound", None),
                    ("first#done", None),
                    ("third.readings", "e0"),
                    ("third.readings", "e1"),
                    ("no.field", None),
                ]
            )
        )
        known = [one["id"] for one in events]
        replaces = draw(st.lists(st.sampled_from([*known, "never-seen"]), max_size=3, unique=True))
        content = draw(
            st.sampled_from(
                [
                    None,
                    {"value": 1, "typed": "1"},
                    {"value": 1.0, "typed": "1.0"},
                    {"value": "yes"},
                    {"seen": {}},
                ]
            )
        )
        name = draw(st.sampled_from([f"e{place}", *known[:1]]))
        events.append(
            event(name, field, item=item, content=content, replaces=replaces, time=draw(st.integers(0, 3)))
        )
    return events


@settings(max_examples=300, deadline=None)
@given(histories(), st.randoms(use_true_random=False))
def test_shuffling_and_repeating_changes_nothing(events, chance):
    again = events + chance.choices(events, k=chance.randint(0, 5))
    random.Random(chance.random()).shuffle(again)
    assert fold(PROCEDURE, again) == fold(PROCEDURE, events)


def test_defects_are_listed_by_step_each_with_its_item():
    """The second content of `d1` replaces the first; `d2` was taken back."""
    contents = [{"severity": "major", "text": text, "closed": None} for text in ("Drips", "Runs")]
    found = fold(
        PROCEDURE,
        [
            event("d1", "first#defect", item="d1", content=contents[0]),
            event("b", "first#defect", item="d1", content=contents[1], replaces=["d1"], time=1),
            event("d2", "first#defect", item="d2", content=contents[0], time=2),
            event("c", "first#defect", item="d2", content=None, replaces=["d2"], time=3),
        ],
    )
    at = "2026-11-25T09:00:01.000Z"
    assert found["defects"] == {"first": [{**contents[1], "value": None, "at": at, "id": "b", "item": "d1"}]}
    assert found["unknown"] == []
