"""A person's passkeys: making, naming and removing them, and signing in with one."""

from flask import Blueprint, flash, jsonify, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import current, throttle
from webapp.accounts.browsers import remember_browser
from webapp.accounts.challenges import give_challenge, take_challenge
from webapp.accounts.forms import NameForm, PasskeyForm, RemoveForm
from webapp.accounts.routes import confirm_password, next_page, signed_in_person, start_session
from webapp.confirming import wrong_password
from webapp.incoming import json_body
from webapp.language import _
from webapp.passkeys import (
    ASSERTION,
    NEW_CREDENTIAL,
    NotConfirmed,
    Place,
    creation_options,
    handle_of,
    verify_assertion,
    verify_new,
)
from webapp.problems import Problem
from webapp.rights import right
from webapp.signing.shapes import NAME, Text
from webapp.store import NotInStore, Passkey, Person, Refused, Taken

PASSWORD = {"password": Text("a password", 1000)}
NEW = {"name": NAME, "credential": NEW_CREDENTIAL}
LARGEST = 64 * 1024


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/account/passkeys", view_func=passkeys)
    blueprint.add_url_rule("/account/passkeys/<string:key>", view_func=passkey, methods=["GET", "POST"])
    blueprint.add_url_rule(
        "/account/passkeys/<string:key>/remove", view_func=remove_passkey, methods=["POST"]
    )
    blueprint.add_url_rule("/api/passkeys", view_func=own_passkeys)
    blueprint.add_url_rule("/api/passkeys", view_func=add_passkey, methods=["POST"])
    blueprint.add_url_rule("/api/passkeys/options", view_func=new_passkey_options, methods=["POST"])
    blueprint.add_url_rule("/api/sign-in", view_func=sign_in_with_passkey, methods=["POST"])
    blueprint.add_url_rule("/api/sign-in/options", view_func=sign_in_options, methods=["POST"])


def place() -> Place:
    return Place.of(current.settings().base_url)


@right("signed_in")
def passkeys() -> str:
    found = current.store().passkeys.of(signed_in_person().id)
    return render_template("accounts/passkeys.html", form=PasskeyForm(), passkeys=found, rp_id=place().rp_id)


@right("signed_in")
def own_passkeys() -> Response:
    """What a phone keeps, so that it can ask its authenticator without signal."""
    found = current.store().passkeys.of(signed_in_person().id)
    return jsonify({"rp_id": place().rp_id, "passkeys": [{"id": one.id, "name": one.name} for one in found]})


@right("signed_in")
def new_passkey_options() -> Response:
    person = signed_in_person()
    problem = wrong_password(person, json_body(PASSWORD, LARGEST)["password"])
    if problem:
        raise problem
    known = current.store().passkeys.of(person.id)
    return jsonify(creation_options(place(), person, give_challenge("new passkey"), known))


@right("signed_in")
def add_passkey() -> Response:
    body, person, store = json_body(NEW, LARGEST), signed_in_person(), current.store()
    challenge = take_challenge("new passkey")
    try:
        made = verify_new(place(), challenge, body["credential"])
        with store.transaction():
            kept = store.passkeys.add(made.id, person.id, body["name"].strip(), made.public_key, made.counter)
            store.audit.add("passkey_added", person=person.id, subject=person.id, passkey=kept.id)
    except NotConfirmed as error:
        raise Problem(400, error.code, str(error), field="credential") from error
    except Refused as error:
        raise Problem(409, error.code, str(error)) from error
    except Taken as error:
        raise Problem(409, "passkey_taken", field="credential") from error
    return jsonify({"id": kept.id, "name": kept.name, "made_at": kept.made_at})


@right("signed_in")
def passkey(key: str) -> str | Response:
    found, form = own_passkey(key), NameForm()
    if form.validate_on_submit():
        current.store().passkeys.rename(key, (form.name.data or "").strip())
        flash(_("The new name is kept."), "success")
        return redirect(url_for("accounts.passkeys"), 303)
    form.name.data = form.name.data or found.name
    return passkey_page(found, form, RemoveForm())


def passkey_page(found: Passkey, form: NameForm, remove: RemoveForm) -> str:
    return render_template("accounts/passkey.html", passkey=found, form=form, remove=remove)


@right("signed_in")
def remove_passkey(key: str) -> str | Response:
    found, person, form, store = own_passkey(key), signed_in_person(), RemoveForm(), current.store()
    if not form.validate_on_submit() or not confirm_password(person, form.password.data or "", form.password):
        names = NameForm(formdata=None)
        names.name.data = found.name
        return passkey_page(found, names, form)
    with store.transaction():
        store.passkeys.remove(key)
        store.audit.add("passkey_removed", person=person.id, subject=person.id, passkey=key)
    flash(
        _("{name} is removed. Remove it from the device's own list of passkeys, too.", name=found.name),
        "success",
    )
    return redirect(url_for("accounts.passkeys"), 303)


def own_passkey(key: str) -> Passkey:
    """Others do not learn that it exists."""
    found = current.store().passkeys.find(key)
    if found is None or found.removed_at is not None or found.person != signed_in_person().id:
        raise NotInStore("passkey", key)
    return found


@right("anyone")
def sign_in_options() -> Response:
    return jsonify({"challenge": give_challenge("sign in"), "rp_id": place().rp_id})


@right("anyone")
def sign_in_with_passkey() -> Response:
    """The person is whoever the passkey belongs to; nobody types a login."""
    answer, store, address = json_body(ASSERTION, LARGEST), current.store(), request.remote_addr or ""
    challenge = take_challenge("sign in")
    wait = throttle.begin_without_account(store, address)
    if wait:
        problem = Problem(429, "too_many_attempts", seconds=wait)
        problem.headers["Retry-After"] = str(wait)
        raise problem
    person = checked_person(answer, challenge)
    throttle.succeeded_without_account(store, address)
    start_session(person, passkey=answer["id"])
    response = jsonify({"next": next_page()})
    remember_browser(response, person.login)
    return response


def checked_person(answer: dict, challenge: str) -> Person:
    """Who has signed in, or a problem that does not say more than the browser knows."""
    store = current.store()
    found = store.passkeys.find(answer["id"])
    person = store.people.find(found.person) if found else None
    try:
        if found is None or person is None or answer.get("userHandle") != handle_of(person.id):
            raise NotConfirmed("passkey_unknown", "No account here has this passkey.")
        counter = verify_assertion(place(), challenge, found, answer, in_order=True)
        if not person.active:
            raise NotConfirmed("passkey_unknown", "The account is disabled.")
    except NotConfirmed as error:
        subject = person.id if person else None
        address = request.remote_addr
        store.audit.add("sign_in_failed", person=None, subject=subject, address=address, why=error.code)
        code = error.code if error.code == "passkey_counter" else "passkey_unknown"
        raise Problem(401, code) from error
    store.passkeys.note_use(found.id, counter)
    return person
