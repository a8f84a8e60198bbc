"""Sending loses nothing: whatever the network answers, an entry stays until the server has proved it."""

import hashlib
import re
import uuid

import pytest
import rfc8785

from tests.phone import PROCEDURE, named
from tests.static.cellar import DONE, EVENTS, NOTHING, PASSWORD, SEND, START_VISIT, SUMMARY, Phone, unsent
from webapp.passwords import hash_password

pytestmark = [
    pytest.mark.browser,
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]

BUILD = """
  const person = await phone.database.readSetting("person");
  return phone.record.buildRecord(argument, person, "I carried out these checks and the readings are mine.");
"""
SIGN = "return phone.record.signRecord(...argument).catch(error => error.code)"
STATE = "return (await phone.visits.visitOf(argument)).state"
API = re.compile("/api/")
UNITS = "return phone.work.units()"


def once(phone, address, answer):
    """Answer the first call. The others go through here: one may be lost when this is withdrawn."""
    answered = []

    def handle(route):
        if answered:
            route.continue_()
        else:
            answered.append(True)
            answer(route)

    phone.context.route(address, handle)


def test_a_prepared_phone_is_enrolled_and_has_what_it_needs(phone, server):
    device = phone.run("return phone.database.readSetting('device')")
    person = phone.run("return phone.database.readSetting('person')")
    assert server.store.devices.find(device["thumbprint"]).person == person["id"]
    assert [unit["name"] for unit in phone.run("return phone.work.units()")] == ["Cellar unit"]


def test_a_phone_that_asks_again_is_told_that_nothing_changed_and_keeps_what_it_has(phone, server):
    """Then only what is new comes, and everything else stays."""
    assert phone.run(SEND) == DONE
    answers = []
    phone.context.on("response", lambda one: "/api/work" in one.url and answers.append(one))
    assert phone.run(SEND) == DONE
    kept = phone.run(UNITS)
    assert phone.run(SEND) == DONE
    assert [one.status for one in answers] == [304, 304]
    assert answers[0].request.all_headers()["if-none-match"] == answers[1].headers["etag"]
    assert phone.run(UNITS) == kept != []
    site = kept[0]["site"]
    server.store.units.add("Attic unit", "FW-ATTIC", site, {})
    assert phone.run(SEND) == DONE
    assert [one["name"] for one in answers[-1].json()["units"]] == ["Attic unit"]
    attic, *rest = phone.run(UNITS)
    assert (attic["name"], rest) == ("Attic unit", kept)
    server.stop()
    assert phone.run(START_VISIT)["unit"] == attic["id"]
    server.start()


def test_a_wrong_password_prepares_nothing(chromium, server):
    context = chromium.new_context()
    phone = Phone(context, server)
    phone.sign_in()
    assert "password" in phone.prepare("another password").lower()
    assert phone.run("return phone.database.readSetting('person')") is None
    context.close()


def test_what_was_entered_without_a_server_arrives_when_it_is_back(phone, server):
    server.stop()
    visit = phone.run(START_VISIT)
    made = [phone.add(visit["id"], content={"value": str(number)}) for number in range(3)]
    answer = phone.run(SEND)
    assert (answer["state"], answer["code"]) == ("offline", "no_answer")
    assert unsent(phone) == NOTHING | {"visits": 1, "events": 3}

    server.start()
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    assert phone.run(SUMMARY)["receivedAt"] is not None
    stored = [event.content() for event in server.store.events.of_visit(visit["id"])]
    assert stored == made


def test_the_servers_hash_is_that_of_the_phones_canonical_json(phone, server):
    visit = phone.run(START_VISIT)
    event = phone.add(visit["id"], content={"value": "5 °C ± 0.1 €"})
    phone.run(SEND)
    expected = hashlib.sha256(rfc8785.dumps(event)).hexdigest()
    assert server.store.events.find(event["id"]).sha256 == expected


def test_a_lost_acknowledgement_leaves_one_event(phone, server):
    visit = phone.run(START_VISIT)
    event = phone.add(visit["id"])

    def lose(route):
        route.fetch()
        route.abort()

    once(phone, EVENTS, lose)
    assert phone.run(SEND)["state"] == "offline"
    assert server.store.events.find(event["id"]) is not None
    assert unsent(phone)["events"] == 1

    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    assert len(server.store.events.of_visit(visit["id"])) == 1


def test_an_ended_session_keeps_everything_and_asks_to_sign_in(phone):
    visit = phone.run(START_VISIT)
    phone.add(visit["id"])
    phone.context.clear_cookies()
    answer = phone.run(SEND)
    assert answer["state"] == "signed_out"
    assert "Sign in again to send. Nothing is lost" in answer["message"]
    assert unsent(phone) == NOTHING | {"visits": 1, "events": 1}
    phone.sign_in()
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING


@pytest.mark.parametrize(
    "answer",
    [
        {"status": 200, "content_type": "text/html", "body": "<h1>Welcome to our Wi-Fi</h1>"},
        {"status": 200, "content_type": "application/json", "body": "<h1>Welcome to our Wi-Fi</h1>"},
        {"status": 302, "headers": {"Location": "/sign-in"}},
    ],
    ids=["a page", "a page that claims to be JSON", "a redirect to a page"],
)
def test_the_answer_of_a_captive_portal_counts_as_no_answer(phone, answer):
    visit = phone.run(START_VISIT)
    phone.add(visit["id"])
    phone.context.route(API, lambda route: route.fulfill(**answer))
    assert phone.run(SEND)["state"] == "offline"
    assert unsent(phone) == NOTHING | {"visits": 1, "events": 1}
    phone.context.unroute(API)
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING


def test_another_hash_than_ours_is_not_an_acknowledgement(phone):
    visit = phone.run(START_VISIT)
    event = phone.add(visit["id"])
    wrong = {"received": [{"id": event["id"], "sha256": "0" * 64}], "refused": []}
    once(phone, EVENTS, lambda route: route.fulfill(json=wrong))
    phone.run(SEND)
    assert unsent(phone) == NOTHING | {"events": 1, "problems": 1}
    [parked] = phone.run("return phone.outbox.listBySent('events', 'problem')")
    assert parked["problem"]["code"] == "hash_differs"


def test_a_refused_entry_is_parked_with_its_reason_and_holds_up_nothing(phone, server):
    visit = phone.run(START_VISIT)
    lost = phone.add("99999999-9999-4999-8999-999999999999")
    good = phone.add(visit["id"])
    assert phone.run(SEND) == DONE
    assert server.store.events.find(good["id"]) is not None
    assert unsent(phone) == NOTHING | {"events": 1, "problems": 1}
    [parked] = phone.run("return phone.outbox.listBySent('events', 'problem')")
    assert (parked["id"], parked["problem"]["code"]) == (lost["id"], "visit_unknown")


def test_a_batch_that_is_refused_as_a_whole_is_tried_one_by_one(phone, server):
    visit = phone.run(START_VISIT)
    made = [phone.add(visit["id"]) for _ in range(3)]
    problem = {"status": 413, "code": "too_large", "detail": "Too large.", "title": "Too large"}
    once(
        phone,
        EVENTS,
        lambda route: route.fulfill(status=413, content_type="application/problem+json", json=problem),
    )
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    assert {event.id for event in server.store.events.of_visit(visit["id"])} == {one["id"] for one in made}


def test_a_failing_server_is_asked_again_later(phone):
    phone.run(START_VISIT)
    problem = {"status": 500, "code": "server_error", "detail": "Something failed.", "title": "Failed"}
    once(
        phone,
        re.compile("/api/visits$"),
        lambda route: route.fulfill(status=500, content_type="application/problem+json", json=problem),
    )
    answer = phone.run(SEND)
    assert (answer["state"], answer["code"]) == ("stopped", "server_error")
    assert unsent(phone) == NOTHING | {"visits": 1}
    assert phone.run(SEND) == DONE


def test_an_outdated_token_is_renewed_once(phone):
    phone.run("await phone.api.openSession()")
    phone.context.clear_cookies()
    phone.sign_in()
    assert phone.run("return phone.api.post('/api/events', { events: [] })") == {
        "received": [],
        "refused": [],
    }


def test_nothing_is_sent_in_another_persons_session(phone, server):
    server.store.people.add("otto", "Otto Beck", "installer", hash_password(PASSWORD))
    visit = phone.run(START_VISIT)
    event = phone.add(visit["id"])
    phone.context.clear_cookies()
    phone.sign_in("otto")
    answer = phone.run(SEND)
    assert answer["state"] == "other_person"
    assert "Sign in as Mara Lind to send" in answer["message"]
    assert server.store.events.find(event["id"]) is None
    assert unsent(phone) == NOTHING | {"visits": 1, "events": 1}


def test_two_windows_do_not_send_at_the_same_time(phone):
    visit = phone.run(START_VISIT)
    phone.add(visit["id"])
    calls = []
    phone.context.on(
        "request", lambda request: calls.append(request.url) if EVENTS.search(request.url) else None
    )
    other = "return navigator.locks.request('firstwater-send', () => phone.send.sendNow())"
    assert phone.run(other)["state"] == "elsewhere"
    assert calls == []
    both = phone.run("return Promise.all([phone.send.sendNow(), phone.send.sendNow()])")
    assert [progress["state"] for progress in both] == ["done", "done"]
    assert len(calls) == 1


@pytest.fixture
def complete(phone, server):
    return completed(phone, server)


def completed(phone, server):
    """A visit by the trial procedure on the phone, complete but for the signature."""
    person = server.store.people.by_login("mara").id
    unit = server.store.units.all()[0].id
    server.store.procedures.keep(PROCEDURE)
    about = {"unit": unit, "kind": "commissioning", "procedure": named(PROCEDURE), "started_by": person}
    visit = server.store.visits.start(str(uuid.uuid4()), started_at="2026-11-25T08:00:00.000Z", **about).id
    assert phone.run(SEND) == DONE
    phone.add(visit, "test.pressure", {"typed": "6,5", "unit": "bar", "value": 6.5, "instrument": None})
    phone.add(visit, "test.tight", {"value": "yes"})
    basis = phone.run(BUILD, visit)["judgement"]["steps"]["test"]["basis"]
    phone.add(visit, "test#done", {"seen": basis})
    return visit


def test_a_signed_record_is_closed_sent_and_judged_alike(phone, server, complete):
    signed = phone.run(SIGN, [phone.run(BUILD, complete), PASSWORD])
    assert phone.run(STATE, complete) == "signed"
    assert unsent(phone) == NOTHING | {"events": 3, "records": 1}
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    [kept] = phone.run("return phone.outbox.listBySent('records', 'received')")
    # The server folds and judges again; an answer without reasons means that it found the same.
    assert kept["answer"] == {"state": "signed", "reasons": []}
    assert server.store.records.find(signed["sha256"]).visit == complete


def test_records_go_together_and_what_is_not_taken_there_goes_alone(phone, server, complete):
    visits = [complete, *(completed(phone, server) for _ in range(2))]
    names = [phone.run(SIGN, [phone.run(BUILD, one), PASSWORD])["sha256"] for one in visits]
    calls = []

    def forget_the_last(route):
        """As a server would answer for which the last one failed."""
        sent = route.request.post_data_json["records"]
        answer = route.fetch(post_data={"records": sent[:-1]}).json()
        failed = {"sha256": None, "state": "failed", "reasons": []}
        route.fulfill(json={"answers": [*answer["answers"], failed]})

    once(phone, re.compile("/api/records/batch$"), forget_the_last)
    phone.context.on("request", lambda request: calls.append(request.url.partition("/api/")[2]))
    assert phone.run(SEND) == DONE
    assert [call for call in calls if call.startswith("records")] == ["records/batch", "records"]
    assert unsent(phone) == NOTHING
    assert {record.sha256 for record in server.store.records.all()} >= set(names)
    assert [phone.run(STATE, visit) for visit in visits] == ["signed"] * 3


@pytest.mark.parametrize(
    ("meanwhile", "password", "code"),
    [
        (None, "another password", "wrong_password"),
        ("test.tight", PASSWORD, "changed_meanwhile"),
    ],
)
def test_nothing_is_signed_when_something_is_wrong(phone, complete, meanwhile, password, code):
    payload = phone.run(BUILD, complete)
    if meanwhile:
        phone.add(complete, meanwhile, {"value": "no"})
    assert phone.run(SIGN, [payload, password]) == code
    assert phone.run(STATE, complete) == "draft"
    assert unsent(phone)["records"] == 0


def test_a_record_is_signed_once(phone, complete):
    payload = phone.run(BUILD, complete)
    phone.run(SIGN, [payload, PASSWORD])
    assert phone.run(SIGN, [payload, PASSWORD]) == "already_signed"


def test_an_incomplete_record_is_not_signed(phone):
    visit = phone.run(START_VISIT)["id"]
    assert phone.run(SIGN, [phone.run(BUILD, visit), PASSWORD]) == "incomplete"
    assert phone.run(STATE, visit) == "draft"
