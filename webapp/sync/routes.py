"""What phones send, in the order in which they do: visits, entries, records."""

from flask import Blueprint, Response, jsonify, request

from webapp import current, limits
from webapp.incoming import json_body
from webapp.passkeys import ASSERTION, Place
from webapp.problems import Problem
from webapp.receiving import Answer, Sent, receive_events, receive_record, receive_records, receive_visit
from webapp.rights import right
from webapp.signing import jws
from webapp.signing.shapes import VISIT, Optional, Text, wrong_places
from webapp.store import Person, Refused, Taken

MOST_EVENTS = 500
MOST_RECORDS = 100
LARGEST_VISIT = 16 * 1024
LARGEST_EVENTS = 4 * 1024 * 1024

EVENTS = {"events": list}
RECORD = {"jws": Text("a JWS", jws.LARGEST), "assertion": Optional(ASSERTION)}
RECORDS = {"records": list}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/visits", view_func=start_visit, methods=["POST"])
    blueprint.add_url_rule("/events", view_func=add_events, methods=["POST"])
    blueprint.add_url_rule("/visits/<uuid:visit>/events", view_func=events_of_visit)
    blueprint.add_url_rule("/records", view_func=add_record, methods=["POST"])
    blueprint.add_url_rule("/records/batch", view_func=add_records, methods=["POST"])


def sender() -> Person:
    person = current.person()
    if person is None:
        raise Problem(401, "not_signed_in")
    return person


@right("fill")
def start_visit() -> Response:
    body = json_body(VISIT, LARGEST_VISIT)
    try:
        visit = receive_visit(current.store(), body, sender())
    except Refused as error:
        raise Problem(422, error.code, str(error), field=error.code.removesuffix("_unknown")) from error
    except Taken as error:
        raise Problem(409, "id_taken", str(error), field="id") from error
    return jsonify(visit.as_json())


@right("fill")
def add_events() -> Response:
    events = json_body(EVENTS, LARGEST_EVENTS)["events"]
    if len(events) > MOST_EVENTS:
        raise Problem(
            413, "too_large", f"At most {MOST_EVENTS} entries can be sent at a time.", field="events"
        )
    return jsonify(receive_events(current.store(), events, sender()))


@right("fill")
def events_of_visit(visit: object) -> Response:
    store = current.store()
    after = request.args.get("after", "0")
    if not after.isdecimal() or len(after) > 15:
        raise Problem(400, "shape", "after must be a whole number.", field="after")
    found = store.events.of_visit(store.visits.get(str(visit)).id, int(after))
    last = found[-1].sequence if found else int(after)
    return jsonify({"events": [event.content() for event in found], "last": last})


@right("fill")
def add_record() -> Response:
    body, place = json_body(RECORD, jws.LARGEST), Place.of(current.settings().base_url)
    answer = receive_record(
        current.store(), body["jws"], sender(), body.get("assertion"), place, current.examining()
    )
    return jsonify(answer.as_json())


@right("fill")
def add_records() -> Response:
    """Many at once: what is wrong with one is told in its place and keeps no other out."""
    records = json_body(RECORDS, jws.LARGEST)["records"]
    if len(records) > MOST_RECORDS:
        raise Problem(
            413, "too_large", f"At most {MOST_RECORDS} records can be sent at a time.", field="records"
        )
    limits.spend_more(len(records) - 1)  # as many calls as if each had come alone
    wrong = [next(wrong_places(RECORD, one), None) for one in records]
    good = [one for one, found in zip(records, wrong, strict=True) if found is None]
    sent = [Sent(one["jws"], one.get("assertion")) for one in good]
    place = Place.of(current.settings().base_url)
    answers = iter(receive_records(current.store(), sent, sender(), place, current.examining()))
    return jsonify({"answers": [misshapen(*one) if one else answer_json(next(answers)) for one in wrong]})


def misshapen(place: str, what: str) -> dict[str, object]:
    reason = {"code": "shape", "detail": f"{place or 'The record'} {what}.", "field": place}
    return {"sha256": None, "state": "refused", "reasons": [reason]}


def answer_json(answer: Answer | None) -> dict[str, object]:
    """Of a record that failed here nothing was kept; sent alone, it is answered with what is wrong."""
    return answer.as_json() if answer else {"sha256": None, "state": "failed", "reasons": []}
