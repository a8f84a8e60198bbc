"""What phones fetch: who is signed in, and everything that is needed to work without signal."""

import gzip
import hashlib
from collections.abc import Container, Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from flask import Blueprint, Response, current_app, jsonify, request
from flask_wtf.csrf import generate_csrf

from checks import procedure as procedures
from webapp import current
from webapp.incoming import json_body
from webapp.problems import Problem
from webapp.rights import right
from webapp.signing.shapes import THUMBPRINT, Map
from webapp.store import Instrument, Store, Unit
from webapp.store.baselines import NONE
from webapp.store.news import Cursor
from webapp.store.table import written
from webapp.sync.routes import sender

FINISHED_VISITS = timedelta(days=90)
UNITS_AT_ONCE = 1000  # about 100 kB in gzip: some seconds in a cellar
SHAPE = "1"  # to be raised when the same content is told in another way
LARGEST_HELD = 64 * 1024

HELD = {"device": THUMBPRINT, "visits": Map(int)}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/session", view_func=session)
    blueprint.add_url_rule("/work", view_func=work)
    blueprint.add_url_rule("/units", view_func=units)
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
    store, have = current.store(), set(request.args.get("have", "").split(","))
    since = store.clock() - FINISHED_VISITS
    wanted = needed_procedures(store)
    lacking = [one for one in wanted if one not in have]
    # Asked before the content is read: what changes meanwhile is news the next time.
    name, tag = tags_of(store.visits.news(since), wanted, lacking)
    if request.if_none_match.contains_weak(tag) or (not lacking and knows(name)):
        response = Response(status=304)
        response.vary.add("Accept-Encoding")
    else:
        told = request.args.get("since")
        many = everything(store, since) if told is None else what_changed(store, since, told)
        response = compressed({**content_of(store), **many, "procedures": named(store, wanted, have)})
    response.set_etag(tag, weak=True)
    return response


@right("fill")
def units() -> Response:
    """The next units of an answer that said that there are more."""
    store = current.store()
    return compressed(page_of_units(store, request.args.get("since", ""), store.news.newest()))


def content_of(store: Store) -> dict[str, Any]:
    """What is told with every change, because it is little."""
    return {
        "server_time": written(current.clock()),
        "people": [{"id": person.id, "name": person.name} for person in store.people.all()],
        "sites": [site.__dict__ for site in store.sites.all()],
        "instruments": [one.as_json() for one in needed_instruments(store)],
    }


def everything(store: Store, since: datetime) -> dict[str, Any]:
    """For phones of an earlier version: all units, and the visits that are open or were finished lately."""
    baselines = store.baselines.of_units()
    return {
        "units": [unit_json(unit, baselines.get(unit.id, NONE)) for unit in store.units.all()],
        "visits": [visit.as_json() for visit in store.visits.open_or_finished_since(since)],
    }


def what_changed(store: Store, since: datetime, told: str) -> dict[str, Any]:
    """Units and visits that changed since the cursor ``told``, finished ones as well."""
    newest, known = store.news.newest(), store.news.cursor(told)
    page = page_of_units(store, told, newest)
    found = (
        store.visits.changed_after(known.visits, since)
        if known and known.visits
        else store.visits.open_or_finished_since(since)
    )
    cursor = replace(page["cursor"], visits=newest.number)
    return {**page, "cursor": cursor, "visits": [visit.as_json() for visit in found]}


def page_of_units(store: Store, told: str, newest: Cursor) -> dict[str, Any]:
    """``since`` is None where the cursor ``told`` says nothing here: then all units come, these the first."""
    known = store.news.cursor(told)
    first = known.units if known else 0
    found = store.news.units_between(first, newest.number, UNITS_AT_ONCE + 1)
    page, more = found[:UNITS_AT_ONCE], len(found) > UNITS_AT_ONCE
    last = page[-1]["number"] if more else newest.number
    return {
        "units": [unit_json(unit, store.baselines.of_unit(unit.id)) for unit in map(store.units.thing, page)],
        "cursor": replace(newest, units=last, visits=known.visits if known else 0),
        "since": told if known else None,
        "more": more,
    }


def tags_of(news: str, wanted: Iterable[str], lacking: list[str]) -> tuple[str, str]:
    """What the content is called, and the tag of the answer, with the procedures that it brings whole.

    Both stay the same while nothing but the time changes, and are made without the content.
    """
    name = short_hash(SHAPE, news, *wanted)
    return name, f"{name}-{short_hash(*lacking)}"


def short_hash(*texts: str) -> str:
    return hashlib.sha256("\n".join(texts).encode()).hexdigest()[:32]


def knows(name: str) -> bool:
    """Whether the phone has this content, with whatever procedures it came."""
    return any(tag.startswith(f"{name}-") for tag in request.if_none_match.as_set(include_weak=True))


def compressed(body: dict[str, Any]) -> Response:
    """JSON in gzip where the phone takes it: procedures shrink to an eighth, and cellars have weak signal.

    Safe here, since the answer holds neither a token nor anything that a stranger could put beside one.
    """
    response = jsonify({**body, "cursor": str(body["cursor"])} if "cursor" in body else body)
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


def needed_instruments(store: Store) -> list[Instrument]:
    """Those in use, and those that open visits were measured with: their readings are judged again."""
    known = store.instruments.all()
    if all(one.active for one in known):
        return known
    named = store.visits.instruments_in_use()
    return [one for one in known if one.active or one.id in named]


def needed_procedures(store: Store) -> list[str]:
    """The hashes of the present procedures and of those that open visits began with."""
    own = map(procedures.own_hash, procedures.names())
    return list(dict.fromkeys([*own, *store.visits.procedures_in_use()]))


def named(store: Store, wanted: Iterable[str], have: Container[str]) -> list[dict[str, Any]]:
    """The procedures, whole unless the phone has them."""
    kept = filter(None, map(store.procedures.find, wanted))
    return [
        {"id": one.id, "version": one.version, "hash": one.hash}
        if one.hash in have
        else {**one.content(), "hash": one.hash}
        for one in kept
    ]
