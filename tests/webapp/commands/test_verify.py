"""firstwater export and firstwater verify: from the server's data to a verdict on another machine."""

import base64
import json

import pytest
from joserfc import jwk

from checks.formulas_hash import FORMULAS_HASH
from tests.phone import Phone
from webapp.receiving import receive_decision, receive_record


@pytest.fixture
def accept(store, people, phone, desk, unit):
    """Commission the unit once more; the accepted record."""

    def one_more():
        visit = phone.start(unit)
        receive_record(store, phone.signed_record(visit), people["installer"])
        sha256 = store.visits.get(visit.id).record
        receive_decision(store, desk.signed_decision(sha256), people["supervisor"], 12)
        return store.records.get(sha256)

    return one_more


@pytest.fixture
def record(accept):
    return accept()


@pytest.fixture
def bundle(firstwater, record, tmp_path):
    """A bundle of the unit in a file, and a function that writes a changed one."""
    assert firstwater("export", "bundle.json", "--unit", "FW-0001").status == 0
    content = json.loads((tmp_path / "bundle.json").read_text())

    def changed(change):
        change(content)
        (tmp_path / "changed.json").write_text(json.dumps(content))
        return "changed.json"

    return changed


def verified(firstwater, *arguments):
    ended = firstwater("verify", *arguments, "--json")
    return ended.status, json.loads(ended.out)


def first_code(answer):
    return next(one["code"] for document in answer["documents"] for one in document["findings"])


def test_a_bundle_is_verified_without_the_server(firstwater, store, bundle, record):
    store.close()
    status, answer = verified(firstwater, "bundle.json")
    assert (status, answer["valid"]) == (0, True)
    kinds = [document["kind"] for document in answer["documents"]]
    assert kinds == ["record", "decision", "chain"]
    assert answer["documents"][0]["sha256"] == record.sha256
    assert answer["documents"][0]["verdict"] == "pass"


def test_people_read_who_signed_and_what_was_decided(firstwater, bundle, record):
    out = firstwater("verify", "bundle.json").out
    assert "record bundle.json#records.0: valid" in out
    assert "signed by Ilse Brook (installer)" in out
    assert f"accepted: record {record.sha256}" in out
    assert "chain of unit FW-0001: valid" in out


def test_a_changed_payload_is_found_by_its_signature(firstwater, bundle):
    def change(content):
        header, payload, signature = content["records"][0]["jws"].split(".")
        data = base64.urlsafe_b64decode(payload + "=" * (-len(payload) % 4)).replace(b"6.5", b"6.4")
        payload = base64.urlsafe_b64encode(data).decode().rstrip("=")
        content["records"][0]["jws"] = ".".join([header, payload, signature])

    status, answer = verified(firstwater, bundle(change))
    assert status == 1
    assert first_code(answer) == "signature_wrong"


def test_a_false_verdict_that_is_rightly_signed_is_found_by_judging_again(
    firstwater, store, bundle, phone, unit
):
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id, tight="no"))
    content["judgement"]["record"]["verdict"] = "pass"
    forged = phone.sign(content, "firstwater-record+jws")
    status, answer = verified(firstwater, bundle(lambda it: it["records"][0].update(jws=forged)))
    assert status == 1
    assert first_code(answer) == "verdicts_differ"


def test_a_record_of_other_formulas_says_what_today_s_formulas_make_of_it(
    firstwater, store, bundle, phone, unit
):
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id), formulas="0" * 64)
    content["judgement"]["rules"]["test.tight"]["verdict"] = "conditional_pass"
    old = phone.sign(content, "firstwater-record+jws")
    change = bundle(lambda it: it["records"][0].update(jws=old))
    found = verified(firstwater, change)[1]["documents"][0]
    assert found["valid"]
    place = "judgement.rules.test.tight.verdict"
    assert found["judged"] == {"formulas": "0" * 64, "today": FORMULAS_HASH, "same": False, "differ": [place]}
    said = f"Judged with the formulas {'0' * 64}; judged again today with {FORMULAS_HASH}: "
    assert f"{said}these differ: {place}." in firstwater("verify", change).out


def test_a_key_that_is_another_persons_is_found(firstwater, bundle, desk):
    def change(content):
        for key in content["keys"]["keys"]:
            key["firstwater_person"] = desk.person.id

    status, answer = verified(firstwater, bundle(change))
    assert status == 1
    assert first_code(answer) == "signer_differs"


def test_a_decision_by_the_person_who_filled_in_the_record_is_found(firstwater, bundle, record, phone):
    own = phone.signed_decision(record.sha256)
    status, answer = verified(firstwater, bundle(lambda it: it["decisions"][0].update(jws=own)))
    assert status == 1
    assert first_code(answer) == "own_work"


def test_a_record_missing_from_the_chain_is_found(firstwater, store, record, accept, bundle, tmp_path):
    accept()
    firstwater("export", "both.json", "--unit", "FW-0001")
    both = json.loads((tmp_path / "both.json").read_text())
    assert len(both["records"]) == 2
    both["records"].pop(0)
    both["decisions"].pop(0)
    (tmp_path / "one.json").write_text(json.dumps(both))
    status, answer = verified(firstwater, "one.json")
    assert status == 1
    assert first_code(answer) == "chain_broken"


def test_a_key_revoked_before_the_record_came_is_refused(firstwater, bundle):
    def change(content):
        content["keys"]["keys"][0]["firstwater_revoked_at"] = "2026-01-01T00:00:00.000Z"

    status, answer = verified(firstwater, bundle(change))
    assert status == 1
    assert first_code(answer) == "device_revoked"


def test_a_bundles_own_word_for_a_procedure_is_not_believed(firstwater, bundle):
    def change(content):
        for procedure in content["procedures"].values():
            procedure["steps"][0]["rules"] = []

    status, answer = verified(firstwater, bundle(change))
    assert status == 1
    assert first_code(answer) == "procedure_unknown"


def test_a_single_record_is_verified_with_a_key_set(firstwater, bundle, record, phone, tmp_path):
    (tmp_path / "record.jws").write_text(record.jws + "\n")
    (tmp_path / "keys.json").write_text(json.dumps({"keys": [phone.public]}))
    status, answer = verified(firstwater, "record.jws", "--keys", "keys.json", "--database", "test.db")
    assert status == 0
    assert answer["documents"][0]["notes"] == []


def test_a_key_set_that_does_not_say_whose_the_keys_are_is_told(firstwater, bundle, record, phone, tmp_path):
    content = json.loads((tmp_path / "bundle.json").read_text())
    content["keys"] = {"keys": [phone.public]}
    content["decisions"] = []
    (tmp_path / "plain.json").write_text(json.dumps(content))
    ended = firstwater("verify", "plain.json")
    assert ended.status == 0
    assert "does not say whose the key is" in ended.out


def test_a_record_is_read_from_standard_input(firstwater, store, record):
    ended = firstwater("verify", "-", "--database", "test.db", typed=record.jws)
    assert ended.status == 0
    assert "record -: valid" in ended.out


def test_another_key_makes_nothing_valid(firstwater, record, tmp_path):
    other = jwk.generate_key("EC", "P-256").as_dict(private=False)
    (tmp_path / "record.jws").write_text(record.jws)
    (tmp_path / "keys.json").write_text(json.dumps({"keys": [other]}))
    status, answer = verified(firstwater, "record.jws", "--keys", "keys.json")
    assert status == 1
    assert first_code(answer) == "device_unknown"


def test_a_damaged_record_is_not_valid(firstwater, bundle, record):
    status, answer = verified(firstwater, bundle(lambda it: it["records"][0].update(jws=record.jws[:-10])))
    assert status == 1
    assert first_code(answer) == "signature_wrong"


def test_photos_in_a_bundle_are_compared_with_what_was_signed(
    firstwater, store, people, phone, unit, tmp_path
):
    import hashlib

    photo = b"\xff\xd8 picture"
    sha256 = hashlib.sha256(photo).hexdigest()
    visit = phone.start(unit)
    store.photos.keep(sha256, photo, people["installer"].id)
    taken = phone.event(
        visit.id, "test.picture", {"sha256": sha256, "type": "image/jpeg", "size": len(photo)}
    )
    receive_record(store, phone.signed_record(visit, [taken, *phone.entries(visit.id)]), people["installer"])
    firstwater("export", "bundle.json", "--visit", visit.id, "--photos")
    assert firstwater("verify", "bundle.json").status == 0
    content = json.loads((tmp_path / "bundle.json").read_text())
    content["photos"][sha256]["base64"] = base64.b64encode(b"another").decode()
    (tmp_path / "bundle.json").write_text(json.dumps(content))
    status, answer = verified(firstwater, "bundle.json")
    assert status == 1
    assert first_code(answer) == "photo_differs"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("hello", "file: is no signed record or decision"),
        ('{"sha256": "00", "record": {}}', "file: is JSON, but no bundle and no key set"),
        ('{"type": "firstwater-bundle"}', "file: is a damaged bundle; 'records'"),
        ('{"keys": [{"kty": "RSA"}]}', "file: The key must be an elliptic-curve key on P-256"),
        ('{"keys": []}', "file: holds no signed record or decision"),
        ("a.b.c", "--keys: the files carry no public keys"),
        ('{"a": 1, "a": 2}', "file: A name stands twice"),
    ],
)
def test_a_file_that_cannot_be_used_is_named_in_one_line(firstwater, tmp_path, text, sentence):
    (tmp_path / "file").write_text(text)
    ended = firstwater("verify", "file")
    assert ended.status == 2
    assert ended.err.startswith(f"firstwater: {sentence}")
    assert ended.err.count("\n") == 1


def test_a_file_that_is_not_there_is_named(firstwater):
    ended = firstwater("verify", "missing.jws")
    assert ended.status == 2
    assert "missing.jws: cannot be read (No such file or directory)" in ended.err


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["out.json"], "--unit or --visit: name the one or the other"),
        (["out.json", "--unit", "FW-0010"], "Did you mean FW-0001?"),
        (["out.json", "--visit", "nothing"], "--visit: There is no visit 'nothing' here"),
    ],
)
def test_what_cannot_be_exported_is_named(firstwater, record, arguments, sentence):
    ended = firstwater("export", *arguments)
    assert ended.status == 2
    assert sentence in ended.err


def test_private_keys_and_passwords_are_in_no_bundle(firstwater, bundle, tmp_path):
    content = json.loads((tmp_path / "bundle.json").read_text())
    assert {"d"}.isdisjoint(name for key in content["keys"]["keys"] for name in key)
    assert "password" not in (tmp_path / "bundle.json").read_text()


def test_what_a_phone_could_not_send_is_verified_too(firstwater, store, phone: Phone, unit, tmp_path):
    visit = phone.start(unit)
    unsent = {"type": "firstwater-unsent", "schema": 1, "records": [{"jws": phone.signed_record(visit)}]}
    (tmp_path / "unsent.json").write_text(json.dumps(unsent))
    assert firstwater("verify", "unsent.json", "--database", "test.db").status == 0
