"""Preparing a phone, enrolling its key, and revoking keys."""

from datetime import datetime, timedelta
from typing import Any

from flask import Blueprint, flash, jsonify, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import current
from webapp.accounts.forms import NameForm, PhoneForm
from webapp.accounts.routes import signed_in_person
from webapp.confirming import wrong_password
from webapp.incoming import json_body
from webapp.language import _
from webapp.problems import Problem
from webapp.rights import has_right, right
from webapp.signing import jws
from webapp.signing.canonical import NotCanonical, parse_canonical
from webapp.signing.shapes import NAME, PROOF, Text, wrong_places
from webapp.store import Device, NotInStore, Person, Refused
from webapp.store.lists import page

BODY = {"jwk": dict, "name": NAME, "password": Text("a password", 1000), "proof": Text("a JWS", 4000)}
LARGEST = 16 * 1024
PROOF_AGE = timedelta(days=1)  # a phone's clock may be wrong by hours


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/phone", view_func=phone, methods=["GET", "POST"])
    blueprint.add_url_rule("/api/devices", view_func=enrol, methods=["POST"])
    blueprint.add_url_rule("/account/devices", view_func=devices)
    blueprint.add_url_rule("/account/devices/<string:thumbprint>", view_func=device, methods=["GET", "POST"])
    blueprint.add_url_rule("/account/devices/<string:thumbprint>/revoke", view_func=revoke, methods=["POST"])
    blueprint.add_url_rule("/devices", view_func=all_devices)


@right("fill")
def phone() -> str:
    """The form is sent by its script; a POST means that the script did not run."""
    form = PhoneForm()
    if request.method == "POST":
        form.name.errors = [_("This page needs JavaScript to make a key. Allow it and load the page again.")]
    store = current.store()
    own = store.devices.of(signed_in_person().id)
    return render_template("accounts/phone.html", form=form, devices=own, uses=store.devices.last_uses(own))


@right("fill")
def enrol() -> Response:
    body, person = json_body(BODY, LARGEST), signed_in_person()
    problem = wrong_password(person, body["password"])
    if problem:
        raise problem
    jwk = checked_key(body["jwk"], body["proof"], person)
    store = current.store()
    try:
        with store.transaction():
            device = store.devices.enrol(jws.thumbprint(jwk), jwk, person.id, body["name"].strip())
            store.audit.add("device_enrolled", person=person.id, subject=device.thumbprint, name=device.name)
    except Refused as error:
        raise Problem(409, error.code, str(error), field="jwk") from error
    members = ("thumbprint", "name", "enrolled_at")
    return jsonify({name: getattr(device, name) for name in members})


def checked_key(jwk: dict[str, Any], proof: str, person: Person) -> dict[str, str]:
    """The public key, if the proof shows that the phone holds its private half for this person."""
    if "d" in jwk:
        raise Problem(
            400, "private_key", "A private key must never leave the phone. Send the public one.", "jwk"
        )
    try:
        key = jws.public(jwk)
        message = jws.read(proof)
        content = parse_canonical(jws.verify(message, key))
    except jws.NotValid as error:
        raise Problem(400, error.code, str(error), field="proof") from error
    except NotCanonical as error:
        raise Problem(400, "not_canonical", str(error), field="proof") from error
    wrong = next(wrong_places(PROOF, content), None)
    if wrong or message.typ != jws.DEVICE or message.kid != jws.thumbprint(key):
        raise Problem(400, "proof_differs", "The proof is not one for enrolling this key.", field="proof")
    if content["person"] != person.id or not is_recent(content["at"]):
        raise Problem(400, "proof_differs", "The proof is old or somebody else's. Try again.", field="proof")
    return key


def is_recent(text: str) -> bool:
    try:
        return abs(current.clock() - datetime.fromisoformat(text)) < PROOF_AGE
    except ValueError:  # the shape lets 30 February pass
        return False


@right("signed_in")
def devices() -> str:
    store = current.store()
    own = store.devices.of(signed_in_person().id)
    return render_template("accounts/devices.html", devices=own, uses=store.devices.last_uses(own))


@right("administer")
def all_devices() -> str:
    store = current.store()
    found, before = page(store.devices.page(request.args.get("before", "")))
    return render_template(
        "accounts/all-devices.html",
        devices=found,
        names={one.person: store.people.get(one.person).name for one in found},
        uses=store.devices.last_uses(found),
        before=before,
    )


@right("signed_in")
def device(thumbprint: str) -> str | Response:
    person, store, form = signed_in_person(), current.store(), NameForm()
    found = device_within_reach(store.devices.find(thumbprint), person, thumbprint)
    if form.validate_on_submit():
        name = (form.name.data or "").strip()
        with store.transaction():
            store.devices.rename(thumbprint, name)
            store.audit.add(
                "device_renamed", person=person.id, subject=thumbprint, name=name, name_before=found.name
            )
        flash(_("The new name is kept."), "success")
        return redirect(list_of(found, person), 303)
    form.name.data = form.name.data or found.name
    return render_template("accounts/device.html", device=found, form=form, back=list_of(found, person))


def list_of(found: Device, person: Person) -> str:
    """The list in which the person sees this device."""
    if found.person == person.id:
        return url_for("accounts.devices")
    return url_for("accounts.person", key=found.person)


@right("signed_in")
def revoke(thumbprint: str) -> Response:
    person, store = signed_in_person(), current.store()
    device = device_within_reach(store.devices.find(thumbprint), person, thumbprint)
    with store.transaction():
        store.devices.revoke(thumbprint)
        store.audit.add("device_revoked", person=person.id, subject=thumbprint, owner=device.person)
    flash(_("{name} is revoked. Nothing that it signs from now on is accepted.", name=device.name), "success")
    return redirect(list_of(device, person), 303)


def device_within_reach(device: Device | None, person: Person, thumbprint: str) -> Device:
    """One's own device, or anybody's for an administrator; others do not learn that it exists."""
    if device is None or (device.person != person.id and not has_right(person, "administer")):
        raise NotInStore("device", thumbprint)
    return device
