"""What phones fetch: who is signed in, and everything that is needed to work without signal."""

import gzip
import hashlib
import json
from collections.abc import Container, Iterable
from datetime import timedelta
from typing import Any

from flask import Blueprint, Response, current_app, jsonify, request
from flask_wtf.csrf import generate_csrf

from checks import procedure as procedures
from webapp import current
from webapp.incoming import json_body
from webapp.problems import Problem
from webapp.rights import right
from webapp.signing.shapes import THUMBPRINT, Map
from webapp.store import Instrument, Store, Unit, Visit
from webapp.store.baselines import NONE
from webapp.store.table import written
from webapp.store.visits import KeptProcedure
from webapp.sync.routes import sender

FINISHED_VISITS = timedelta(days=90)
LARGEST_HELD = 64 * 1024

HELD = {"device": THUMBPRINT, "visits": Map(int)}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/session", view_func=session)
    blueprint.add_url_rule("/work", view_func=work)
    blueprint.add_url_rule("/held", view_func=note_held, methods=["POST"])


@right("signed_in")
def session() -> Response:
    person = sender()
    return jsonify(
        {
            "person": {"id": person.id, "name": person.name, "role": person.role},
            "csrf": generate_csrf(),
            "server_time": written(current.clock()),
            "build": current_app.extensions["build"](),
        }
    )


@right("fill")
def note_held() -> Response:
    """A phone with fewer of its own entries than were acknowledged to it has lost its storage."""
    body, store = json_body(HELD, LARGEST_HELD), current.store()
    device = store.devices.find(body["device"])
    if device is None or device.person != sender().id:
        raise Problem(422, "device_unknown", field="device")
    return jsonify({"short": store.contacts.note(device.thumbprint, body["visits"])})


@right("fill")
def work() -> Response:
    store = current.store()
    # Finished ones as well, so that each phone learns how they ended.
    visits = store.visits.open_or_finished_since(store.clock() - FINISHED_VISITS)
    baselines = store.baselines.of_units()
    content = {
        "people": [{"id": person.id, "name": person.name} for person in store.people.all()],
        "sites": [site.__dict__ for site in store.sites.all()],
        "units": [unit_json(unit, baselines.get(unit.id, NONE)) for unit in store.units.all()],
        "instruments": [one.as_json() for one in needed_instruments(store, visits)],
        "visits": [visit.as_json() for visit in visits],
        "procedures": needed_procedures(store, visits, set(request.args.get("have", "").split(","))),
    }
    tag = tag_of(content)
    if request.if_none_match.contains_weak(tag):  # before the answer is written out and compressed
        response = Response(status=304)
        response.vary.add("Accept-Encoding")
    else:
        response = compressed({**content, "server_time": written(current.clock())})
    response.set_etag(tag, weak=True)
    return response


def tag_of(content: dict[str, Any]) -> str:
    """The same as long as nothing but the time has changed; a procedure counts by its hash."""
    procedures = [(one["hash"], "steps" in one) for one in content["procedures"]]
    text = json.dumps({**content, "procedures": procedures}, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()


def compressed(body: dict[str, Any]) -> Response:
    """JSON in gzip where the phone takes it: procedures shrink to an eighth, and cellars have weak signal.

    Safe here, since the answer holds neither a token nor anything that a stranger could put beside one.
    """
    response = jsonify(body)
    response.vary.add("Accept-Encoding")
    if "gzip" in request.accept_encodings:
        response.set_data(gzip.compress(response.get_data(), compresslevel=6, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response


def unit_json(unit: Unit, baseline: dict[str, Any]) -> dict[str, Any]:
    """A unit with its baseline, without its public token: that belongs on the label only.

    By the hash of it a phone that has scanned the label finds the unit without signal.
    """
    known = {name: value for name, value in unit.__dict__.items() if name != "token"}
    return {**known, "label": hashlib.sha256(unit.token.encode()).hexdigest(), "baseline": baseline}


def needed_instruments(store: Store, visits: Iterable[Visit]) -> list[Instrument]:
    """Those in use, and those that open visits were measured with: their readings are judged again."""
    known = store.instruments.all()
    if all(one.active for one in known):
        return known
    events = (
        event.content() for visit in visits if visit.is_open for event in store.events.of_visit(visit.id)
    )
    named = {(event["content"] or {}).get("instrument") for event in events}
    return [one for one in known if one.active or one.id in named]


def named(kept: KeptProcedure) -> dict[str, Any]:
    return {"id": kept.id, "version": kept.version, "hash": kept.hash}


def needed_procedures(store: Store, visits: Iterable[Visit], have: Container[str]) -> list[dict[str, Any]]:
    """The present procedures and those that open visits began with; whole unless the phone has them."""
    hashes: dict[str, None] = dict.fromkeys(map(procedures.own_hash, procedures.names()))
    hashes |= {visit.procedure["hash"]: None for visit in visits if visit.is_open}
    kept = filter(None, map(store.procedures.find, hashes))
    return [named(one) if one.hash in have else {**one.content(), "hash": one.hash} for one in kept]
