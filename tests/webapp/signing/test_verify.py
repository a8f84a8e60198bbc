"""Verification as a command does it: from a file with keys and procedures, without a store."""

import json

import pytest

from checks.procedure import procedure_hash
from tests.phone import PROCEDURE, Phone
from webapp.signing import Key, chain, judged_again, verify_decision, verify_record
from webapp.store import Store, Unit

PROCEDURES = {procedure_hash(PROCEDURE): PROCEDURE}


@pytest.fixture
def keys(phone: Phone, desk: Phone) -> dict[str, Key]:
    return {one.thumbprint: Key(one.public, one.person.id) for one in (phone, desk)}


def codes(result) -> list[str]:
    return [finding.code for finding in result.findings]


def test_a_record_verifies_from_files_alone(store: Store, phone: Phone, unit: Unit, keys) -> None:
    text = phone.signed_record(phone.start(unit))
    store.close()
    result = verify_record(text, keys.get, PROCEDURES)
    assert result.valid
    assert result.device == phone.thumbprint
    assert result.content["signer"]["name"] == "Ilse Brook"


def test_a_revocation_counts_from_its_time_on(phone: Phone, unit: Unit) -> None:
    text = phone.signed_record(phone.start(unit))
    revoked = Key(phone.public, phone.person.id, "2026-11-25T12:00:00.000Z")
    for received, expected in [
        ("2026-11-25T11:00:00.000Z", []),
        ("2026-11-25T12:00:00.000Z", ["device_revoked"]),
        (None, ["device_revoked"]),
    ]:
        assert codes(verify_record(text, lambda _: revoked, PROCEDURES, received)) == expected


def test_a_key_of_somebody_else_does_not_make_a_signer(phone: Phone, unit: Unit) -> None:
    text = phone.signed_record(phone.start(unit))
    result = verify_record(text, lambda _: Key(phone.public, "another"), PROCEDURES)
    assert codes(result) == ["signer_differs"]


def test_a_decision_is_no_record_and_the_reverse(phone: Phone, desk: Phone, unit: Unit, keys) -> None:
    content = phone.record(visit := phone.start(unit), phone.entries(visit.id))
    as_decision = phone.sign(content, "firstwater-decision+jws")
    assert codes(verify_record(as_decision, keys.get, PROCEDURES)) == ["wrong_type"]
    record = phone.sign(content, "firstwater-record+jws")
    assert "wrong_type" in codes(verify_decision(record, lambda _: content, keys.get))


def test_a_decision_verifies_with_its_record(phone: Phone, desk: Phone, unit: Unit, keys) -> None:
    content = phone.record(visit := phone.start(unit), phone.entries(visit.id))
    text = desk.signed_decision("a" * 64)
    assert verify_decision(text, {"a" * 64: content}.get, keys.get).valid
    assert codes(verify_decision(text, {}.get, keys.get)) == ["record_unknown"]


def test_white_space_in_the_payload_is_noticed(phone: Phone, unit: Unit, keys) -> None:
    from joserfc import jws

    content = phone.record(visit := phone.start(unit), phone.entries(visit.id))
    header = {"alg": "ES256", "kid": phone.thumbprint, "typ": "firstwater-record+jws"}
    text = jws.serialize_compact(header, json.dumps(content), phone.key, algorithms=["ES256"])
    assert codes(verify_record(text, keys.get, PROCEDURES)) == ["not_canonical"]


def test_entries_that_break_the_engine_are_a_finding(phone: Phone, unit: Unit, keys, monkeypatch) -> None:
    def breaks(*_: object) -> None:
        raise RecursionError("deep")

    monkeypatch.setattr(judged_again, "judgement_of", breaks)
    assert codes(verify_record(phone.signed_record(phone.start(unit)), keys.get, PROCEDURES)) == [
        "not_judgeable"
    ]


@pytest.mark.parametrize(
    ("part", "lacking", "expected"),
    [
        ("rules", ("k", "nu"), []),
        ("steps", ("defects",), []),
        ("rules", ("margin",), ["verdicts_differ"]),
        ("steps", ("k", "missing"), ["verdicts_differ"]),
        ("quantities", ("u",), ["verdicts_differ"]),
    ],
)
def test_a_record_of_a_build_that_knew_less_verifies_and_one_that_lacks_what_it_knew_does_not(
    phone: Phone, unit: Unit, keys, part: str, lacking: tuple, expected: list[str]
) -> None:
    content = phone.record(visit := phone.start(unit), phone.entries(visit.id))
    for result in content["judgement"][part].values():
        for name in lacking:
            result.pop(name, None)
    text = phone.sign(content, "firstwater-record+jws")
    assert codes(verify_record(text, keys.get, PROCEDURES)) == expected


@pytest.mark.parametrize("formulas", ["0" * 64, None])
def test_a_record_of_other_formulas_stays_valid_and_says_where_todays_differ(
    phone: Phone, unit: Unit, keys, formulas: str | None
) -> None:
    content = phone.record(visit := phone.start(unit), phone.entries(visit.id), formulas=formulas)
    if formulas is None:
        del content["formulas"]
    content["judgement"]["quantities"]["test.limit"]["value"] = 11
    result = verify_record(phone.sign(content, "firstwater-record+jws"), keys.get, PROCEDURES)
    assert result.valid
    assert (result.judged.formulas, result.judged.is_same) == (formulas, True)
    assert result.judged.values == ("judgement.quantities.test.limit.value",)
    content["judgement"]["rules"]["test.tight"]["verdict"] = "conditional_pass"
    result = verify_record(phone.sign(content, "firstwater-record+jws"), keys.get, PROCEDURES)
    assert result.valid
    assert not result.judged.is_same
    assert result.judged.verdicts == ("judgement.rules.test.tight.verdict",)


def test_no_formulas_make_a_record_valid_that_says_itself_that_it_is_not_complete(
    phone: Phone, unit: Unit, keys
) -> None:
    content = phone.record(visit := phone.start(unit), phone.entries(visit.id), formulas="0" * 64)
    content["judgement"]["record"]["state"] = "incomplete"
    text = phone.sign(content, "firstwater-record+jws")
    assert codes(verify_record(text, keys.get, PROCEDURES)) == ["incomplete"]


@pytest.mark.parametrize(
    ("ours", "theirs", "places"),
    [
        ({"a": 1}, {"a": 1.0}, []),
        ({"a": 1.0}, {"a": 1.0 + 9e-10}, []),
        ({"a": 1.0}, {"a": 1.0 + 2e-9}, [".a"]),
        ({"a": 0}, {"a": 1e-13}, []),
        ({"a": 0}, {"a": 1e-11}, [".a"]),
        ({"a": True}, {"a": 1}, [".a"]),
        ({"a": None}, {"a": 0}, [".a"]),
        ({"a": "pass"}, {"a": "fail"}, [".a"]),
        ({"a": [1, 2]}, {"a": (1, 2)}, []),
        ({"a": [1, 2]}, {"a": [1]}, [".a"]),
        ({"a": [1, {"b": 2}]}, {"a": [1, {"b": 3}]}, [".a.1.b"]),
        ({"a": 1}, {}, [".a"]),
        ({}, {"b": None}, [".b"]),
    ],
)
def test_numbers_may_differ_by_a_rounding_and_nothing_else_may(
    ours: dict, theirs: dict, places: list[str]
) -> None:
    assert list(judged_again.differences(ours, theirs)) == places
    assert judged_again.is_same(ours, theirs) == (not places)


def test_a_chain_is_walked_from_its_beginning() -> None:
    records = {name: {"previous": before} for name, before in [("c", "b"), ("a", None), ("b", "a")]}
    assert chain.walk(records) == (["a", "b", "c"], [])


@pytest.mark.parametrize(
    ("records", "code"),
    [
        ({"a": None, "b": "a", "c": "a"}, "chain_fork"),
        ({"a": None, "b": "x"}, "chain_broken"),
        ({"a": None, "b": None}, "chain_fork"),
    ],
)
def test_forks_and_gaps_of_a_chain_are_found(records: dict, code: str) -> None:
    _, findings = chain.walk({name: {"previous": previous} for name, previous in records.items()})
    assert [finding.code for finding in findings] == [code]


@pytest.mark.parametrize(
    ("previous", "last", "code"),
    [
        (None, None, None),
        ("a", "a", None),
        (None, "a", "chain_fork"),
        ("a", "b", "chain_fork"),
        ("x", "a", "chain_broken"),
    ],
)
def test_a_new_record_continues_after_the_last_accepted_one(previous, last, code) -> None:
    findings = chain.link({"previous": previous}, last, ["a", "b"])
    assert [finding.code for finding in findings] == ([code] if code else [])
