"""Engine and fold say the same in Python and in the browser, on whole records and on nonsense typed in."""

import json
import math
from pathlib import Path

import pytest

from checks.engine import judge
from checks.fold import fold
from checks.judge import normalise
from checks.messages import SENTENCES, sentence
from checks.procedure import load
from tests.agreement.made_up import MakeUp
from tests.checks.small import PROCEDURE as SMALL
from tests.checks.small import case

pytestmark = pytest.mark.browser

RECORDS = sorted((Path(__file__).parents[1] / "records").glob("*.json"))
PROCEDURES = {"commissioning": load("commissioning"), "small": SMALL}
PLAIN = {"unit": "1", "kind": "ph_meter", "wanted": "toc_analyser", "maximum": 0.30000000000000004}
LOAD = """async (procedures) => {
    const modules = ["judging/engine", "judging/fold", "generated/messages", "generated/formulas"];
    const loaded = await Promise.all(modules.map((name) => import(`/static/${name}.js`)));
    Object.assign(window, ...loaded, {procedures});
}"""


@pytest.fixture(scope="module")
def page(phone):
    """The page with engine, fold, sentences and procedures loaded."""
    phone.evaluate(LOAD, PROCEDURES)
    return phone


def differences(ours, theirs, place=""):
    """Where two results differ: numbers by more than 1e-12 of themselves, everything else at all."""
    if type(ours) is type(theirs) and ours == theirs:
        return
    if isinstance(ours, int | float) and isinstance(theirs, int | float) and not isinstance(ours, bool):
        # A margin or a trend may cancel to almost nothing, where a relative comparison means nothing.
        if not math.isclose(ours, theirs, rel_tol=1e-12, abs_tol=1e-12):
            yield place, ours, theirs
    elif isinstance(ours, dict) and isinstance(theirs, dict):
        for name in ours.keys() | theirs.keys():
            yield from differences(
                ours.get(name, "(absent)"), theirs.get(name, "(absent)"), f"{place}.{name}"
            )
    elif isinstance(ours, list) and isinstance(theirs, list) and len(ours) == len(theirs):
        for number, (one, other) in enumerate(zip(ours, theirs, strict=True)):
            yield from differences(one, other, f"{place}.{number}")
    elif type(ours) is not type(theirs) or ours != theirs:
        yield place, ours, theirs


def assert_same_judgements(page, name, cases):
    cases = json.loads(json.dumps(cases))
    call = "([name, cases]) => JSON.stringify(cases.map((one) => judge(procedures[name], one)))"
    theirs = json.loads(page.evaluate(call, [name, cases]))
    for one, other in zip(cases, theirs, strict=True):
        found = list(differences(judge(PROCEDURES[name], one), other))
        assert not found, f"{found[:3]}\n{json.dumps(one)}"


@pytest.mark.parametrize("seed", range(15))
def test_made_up_cases_of_a_small_procedure(page, seed):
    made = MakeUp(SMALL, seed)
    assert_same_judgements(page, "small", [made.case() for _ in range(100)])


@pytest.mark.parametrize("seed", range(10))
def test_made_up_commissionings(page, seed):
    made = MakeUp(PROCEDURES["commissioning"], seed)
    assert_same_judgements(page, "commissioning", [made.case() for _ in range(12)])


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_whole_records_and_changes_of_them(page, path):
    whole = normalise(json.loads(path.read_text(encoding="utf-8"))["case"], PROCEDURES["commissioning"])
    made = MakeUp(PROCEDURES["commissioning"], 1)
    assert_same_judgements(page, "commissioning", [whole, *(made.changed(whole) for _ in range(20))])


@pytest.mark.parametrize("seed", range(10))
def test_made_up_histories_fold_to_the_same_values(page, seed):
    made = MakeUp(SMALL, seed)
    histories = json.loads(json.dumps([made.history() for _ in range(100)]))
    theirs = page.evaluate("(all) => all.map((events) => fold(procedures.small, events))", histories)
    for events, other in zip(histories, theirs, strict=True):
        assert fold(SMALL, events) == other, json.dumps(events)


def test_every_sentence_is_the_same_with_all_and_with_no_details(page):
    details = {
        "input": "length",
        "quantity": "Length",
        "value": 0.1 + 0.2,
        "typed": "1,2,3",
        "unit": "bar",
        "units": ["bar", "kPa"],
        "options": ["a", "b"],
        "minimum": 0,
        "maximum": 1e15,
        "wanted": "kPa",
        "name": "Gauge",
        "kind": "gauge",
        "due": "2026-01-01",
        "expanded": 1234567.0,
        "needed": 1e-7,
        "lower": -3.25,
        "upper": 2.520387416,
        "needs": "Survey",
        "because": "So.",
        "reason": "So.",
        "field": "plate.x",
        "near": "plate.y",
        "count": 2,
        "inputs": ["a", "b"],
    }
    asked = [
        [code, known] for code in [*SENTENCES, "no_such_code"] for known in (details, details | PLAIN, {})
    ]
    theirs = page.evaluate("(asked) => asked.map(([code, details]) => sentence(code, details))", asked)
    assert theirs == [sentence(code, **known) for code, known in asked]


CHANGE_ONE_BY_ONE = """([name, judged, share, shares]) => {
    const differing = [];
    const fresh = structuredClone(procedures[name]);
    for (const owner of ["entries", "site", "plate"]) {
        for (const [number, [entry, before]] of Object.entries(judged[owner]).entries()) {
            if (number % shares !== share) continue;
            const other = { ...before, value: 0.5, id: "other" };
            for (const cell of [{ value: null, typed: "?" }, other, before]) {
                const changed = { ...judged, [owner]: { ...judged[owner], [entry]: cell } };
                const ours = JSON.stringify(judge(procedures[name], changed));
                const anew = JSON.stringify(judge(fresh, changed, { ...formulas }));
                if (ours !== anew) differing.push(`${owner} ${entry}`);
            }
        }
    }
    return [differing, Object.keys(judged.entries).length];
}"""


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_what_the_phone_keeps_from_the_last_judgement_is_what_it_would_judge_anew(page, path):
    """Entries of a whole record are emptied, replaced and put back; with other formulas nothing is kept.

    The records share the entries out among them, so that each is changed in one of them.
    """
    case = normalise(json.loads(path.read_text())["case"], PROCEDURES["commissioning"])
    differing, entries = page.evaluate(
        CHANGE_ONE_BY_ONE, ["commissioning", case, RECORDS.index(path), len(RECORDS)]
    )
    assert differing == []
    assert entries > 50


HISTORY_BY_HISTORY = """([base, histories]) => {
    const differing = [];
    const anew = (given) => { const fresh = structuredClone(procedures.small); return given(fresh); };
    for (const events of histories) {
        for (let end = 0; end <= events.length; end += 1) {
            const known = events.slice(0, end);
            const folded = fold(procedures.small, known);
            if (key(folded) !== key(anew((fresh) => fold(fresh, known)))) differing.push(["fold", known]);
            const judged = { ...base, ...folded };
            const [ours, theirs] = [judge(procedures.small, judged), anew((fresh) => judge(fresh, judged))];
            if (key(ours) !== key(theirs)) differing.push(["judge", known]);
        }
    }
    return differing;
}"""


@pytest.mark.parametrize("seed", range(4))
def test_events_that_come_one_by_one_lead_to_what_all_at_once_do(page, seed):
    """The phone keeps what an event does not touch; for a cloned procedure nothing."""
    made = MakeUp(SMALL, seed)
    histories = [made.history() for _ in range(12)]
    base = case(plate={"ceiling": 10, "grade": "fine"}, baseline={"pressure": 2.0})
    assert page.evaluate(HISTORY_BY_HISTORY, json.loads(json.dumps([base, histories]))) == []


WHAT_MOVED = """([base, events, one]) => {
    const at = (all) => judge(procedures.small, { ...base, ...fold(procedures.small, all) });
    const before = at(events);
    const after = at([...events, one]);
    const moved = ["quantities", "rules", "steps"].map((part) =>
        Object.keys(after[part]).filter((name) => after[part][name] !== before[part][name]));
    return [...moved, after.record === before.record, at([...events, one]) === after];
}"""


def test_what_an_event_does_not_touch_stays_the_same_object(page):
    """An answer that is not accepted fails its step; the steps after it are held before and after."""
    told = {"at": "2026-11-25T09:00:00.000Z", "item": None, "replaces": []}
    first = {**told, "id": "a", "field": "first.sound", "content": {"value": "yes"}, "hlc": "1"}
    reading = {
        **told,
        "id": "b",
        "field": "second.before",
        "content": {"value": 3.0, "instrument": "g"},
        "hlc": "2",
    }
    again = {**first, "id": "c", "content": {"value": "no"}, "replaces": ["a"], "hlc": "3"}
    moved = page.evaluate(WHAT_MOVED, json.loads(json.dumps([case(), [first, reading], again])))
    assert moved == [["first.sound"], ["first.sound"], ["first"], False, True]
