"""firstwater judge: one step of the procedure, judged from a file.

The earth conductor: 12 m of class 5, 1.5 mm2, have 12 m x 13.3 ohm/km = 0.1596 ohm at 20 degC
(IEC 60228:2004, table 3); the site allows 0.1 ohm for the connections.
"""

import json

import pytest

LIMIT = 0.2596
TESTER = {
    "kind": "continuity_tester", "unit": "ohm", "calibration_due": "2099-01-01",
    "range_minimum": 0, "range_maximum": 20, "accuracy_of_reading": 0.02, "resolution": 0.01,
}  # fmt: skip


@pytest.fixture
def judged(firstwater, tmp_path):
    """`judged({"earthing.continuity": 0.2})`: the step judged for programs, with other good entries."""

    def run(entries, *options):
        good = {"length": "12 m", "cross_section": 1.5, "conductor_class": 5, "temperature": 20}
        good |= {"leads_nulled": True, "continuity": 0.18, "steady": True, "connections_sound": True}
        good["wiring"] = "in_use"
        document = {
            "instruments": {"tester": TESTER},
            "entries": {f"earthing.{name}": value for name, value in good.items()} | entries,
        }
        (tmp_path / "case.json").write_text(json.dumps(document))
        return firstwater("judge", "case.json", "--step", "earthing", *options)

    return run


def test_a_good_reading_passes_with_its_computed_limit(judged):
    ended = judged({}, "--json")
    answer = json.loads(ended.out)
    assert ended.status == 0
    assert answer["verdict"] == "pass"
    assert answer["quantities"]["earthing.limit"]["value"] == pytest.approx(LIMIT)
    assert "IEC 60228" in answer["sources"]["rules"]["earthing.continuity"]
    assert answer["sources"]["formulas"]["continuity_limit"]


@pytest.mark.parametrize("reading", ["0.3 ohm", "300 mohm", "0,3"])
def test_a_reading_over_the_limit_is_not_acceptable(judged, reading):
    ended = judged({"earthing.continuity": reading})
    assert ended.status == 1
    assert "Earth continuity: Fail; 0.3" in ended.out
    assert "limit up to 0.2596 Ω" in ended.out
    assert "Source: IEC 60228" in ended.out


def test_a_reading_that_passes_only_without_its_uncertainty_fails(judged):
    # Half a digit of 0.01 and 2 % of 0.258 spread the reading beyond 0.2596.
    ended = judged({"earthing.continuity": 0.258}, "--json")
    assert ended.status == 1
    assert json.loads(ended.out)["rules"]["earthing.continuity"]["verdict"] == "fail"


def test_a_missing_value_is_named_and_is_not_acceptable(judged):
    ended = judged({"earthing.continuity": None})
    assert ended.status == 1
    assert "Missing: earthing.continuity" in ended.out


def test_the_whole_record_is_judged_without_the_option(firstwater, tmp_path):
    (tmp_path / "empty.json").write_text("{}")
    ended = firstwater("judge", "empty.json")
    assert ended.status == 1
    assert ended.out.endswith("Record: Not yet measured, incomplete\n")


def test_a_case_is_read_from_standard_input(firstwater):
    assert firstwater("judge", "-", typed="{}").status == 1


@pytest.mark.parametrize(
    ("entries", "sentence"),
    [
        ({"earthing.continuty": 1}, "“earthing.continuty” is not known. Did you mean earthing.continuity"),
        ({"earthing.length": "12 bar"}, "earthing.length"),
        ({"earthing.length": "long"}, "earthing.length"),
    ],
)
def test_bad_input_is_one_line_that_names_the_field(judged, entries, sentence):
    ended = judged(entries)
    assert (ended.status, ended.out) == (2, "")
    assert sentence in ended.err
    assert ended.err.count("\n") == 1


@pytest.mark.parametrize(
    ("text", "arguments", "sentence"),
    [
        ("not json", [], "case.json: This is not JSON"),
        ("[]", [], "case.json: "),
        ('{"procedure": "comissioning"}', [], "procedure: there is no procedure 'comissioning'"),
        ("{}", ["--step", "earthin"], "--step: there is no step 'earthin'. Did you mean earthing?"),
    ],
)
def test_a_file_or_option_that_cannot_be_used_is_named(firstwater, tmp_path, text, arguments, sentence):
    (tmp_path / "case.json").write_text(text)
    ended = firstwater("judge", "case.json", *arguments)
    assert ended.status == 2
    assert sentence in ended.err
    assert ended.err.count("\n") == 1


def test_a_missing_file_is_named(firstwater):
    ended = firstwater("judge", "missing.json")
    assert (ended.status, ended.err) == (
        2,
        "firstwater: missing.json: cannot be read (No such file or directory).\n",
    )
