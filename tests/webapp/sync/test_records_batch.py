"""Many records in one call."""

import pytest

from tests.phone import Phone
from webapp import limits
from webapp.limits import Allowance, Limits
from webapp.store import Store
from webapp.sync.routes import MOST_RECORDS

PATH = "/api/records/batch"


@pytest.fixture
def text(phone: Phone, unit) -> str:
    return phone.signed_record(phone.start(unit))


def test_what_has_not_the_shape_is_refused_in_its_place(sign_in, store: Store, text: str) -> None:
    sent = [{"jws": 7}, {"jws": text}, None, {"jws": text, "more": 1}]
    answer = sign_in("installer").call("POST", PATH, json={"records": sent})
    assert answer.status_code == 200
    answers = answer.json["answers"]
    assert [one["state"] for one in answers] == ["refused", "signed", "refused", "refused"]
    assert answers[0]["reasons"] == [{"code": "shape", "detail": "jws must be a JWS.", "field": "jws"}]
    assert [record.sha256 for record in store.records.all()] == [answers[1]["sha256"]]
    assert store.quarantine.all() == []


def test_more_than_the_most_is_refused_as_a_whole(sign_in, store: Store, text: str) -> None:
    answer = sign_in("installer").call("POST", PATH, json={"records": [{"jws": text}] * (MOST_RECORDS + 1)})
    assert (answer.status_code, answer.json["code"]) == (413, "too_large")
    assert store.records.all() == []


def test_none_at_all_is_answered_with_none(sign_in) -> None:
    assert sign_in("installer").call("POST", PATH, json={"records": []}).json == {"answers": []}


def test_a_call_counts_as_many_as_it_has_records(sign_in, app, store: Store, text: str) -> None:
    client = sign_in("installer")
    app.extensions[limits.NAME] = Limits({"calls": Allowance(at_once=5, a_minute=1)})
    refused = client.call("POST", PATH, json={"records": [{"jws": text}, *[{"jws": "x"}] * 3]})
    assert refused.status_code == 200, "the token, this call, and three more"
    refused = client.call("POST", PATH, json={"records": [{"jws": text}, {"jws": "y"}]})
    assert (refused.status_code, refused.json["code"]) == (429, "too_many_calls")
    assert len(store.quarantine.all()) == 1


def test_who_may_not_fill_in_may_not_send(sign_in) -> None:
    assert sign_in("quality").call("POST", PATH, json={"records": []}).status_code == 403
