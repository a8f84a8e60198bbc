"""The administration of people."""

from datetime import timedelta

from flask import Blueprint, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response

from webapp import current
from webapp.accounts.forms import ChangePersonForm, PersonForm
from webapp.accounts.routes import signed_in_person
from webapp.language import _, noop, told
from webapp.passwords import ONE_TIME_DAYS, hash_password, one_time_password
from webapp.rights import right
from webapp.store import NotInStore, Person, Taken
from webapp.store.table import written


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/people", view_func=people)
    blueprint.add_url_rule("/people/new", view_func=new_person, methods=["GET", "POST"])
    blueprint.add_url_rule("/people/<string:key>", view_func=person, methods=["GET", "POST"])
    blueprint.add_url_rule("/people/<string:key>/one-time-password", view_func=reset, methods=["POST"])
    blueprint.add_url_rule("/people/<string:key>/sign-out", view_func=sign_out_everywhere, methods=["POST"])
    blueprint.add_url_rule(
        "/people/<string:key>/passkeys/<string:passkey>/remove", view_func=remove_passkey_of, methods=["POST"]
    )
    blueprint.add_url_rule("/people/<string:key>/disable", view_func=disable, methods=["POST"])
    blueprint.add_url_rule("/people/<string:key>/enable", view_func=enable, methods=["POST"])


@right("administer")
def people() -> str:
    found = sorted(current.store().people.all(), key=lambda one: (not one.active, one.name.casefold()))
    return render_template("accounts/people.html", people=found)


@right("administer")
def new_person() -> str:
    form = PersonForm()
    if not form.validate_on_submit():
        return render_template("accounts/new-person.html", form=form)
    store, password = current.store(), one_time_password()
    try:
        with store.transaction():
            made = store.people.add(
                (form.login.data or "").strip(),
                (form.name.data or "").strip(),
                form.role.data,
                hash_password(password),
                one_time_until=one_time_until(),
            )
            note("person_added", made, role=made.role)
    except Taken as error:
        form.login.errors = [told(str(error))]
        return render_template("accounts/new-person.html", form=form)
    # Rendered at once, without the usual redirect: the password would have to be kept somewhere until then.
    return password_page(made, password)


def one_time_until() -> str:
    return written(current.clock() + timedelta(days=ONE_TIME_DAYS))


def password_page(person: Person, password: str) -> str:
    """Shown once: it is kept nowhere."""
    return render_template(
        "accounts/one-time-password.html", owner=person, password=password, days=ONE_TIME_DAYS
    )


def note(action: str, about: Person, **details: object) -> None:
    current.store().audit.add(action, person=signed_in_person().id, subject=about.id, **details)


@right("administer")
def person(key: str) -> str | Response:
    store = current.store()
    found = store.people.get(key)
    form = ChangePersonForm(obj=found)
    if form.validate_on_submit() and may_change(found, form):
        with store.transaction():
            store.people.rename(key, (form.name.data or "").strip())
            store.people.set_role(key, form.role.data)
            note("person_changed", found, name=form.name.data, role=form.role.data, role_before=found.role)
        flash(_("The change is kept."), "success")
        return redirect(url_for("accounts.person", key=key), 303)
    devices = store.devices.of(key)
    return render_template(
        "accounts/person.html",
        owner=found,
        form=form,
        devices=devices,
        uses=store.devices.last_uses(devices),
        passkeys=store.passkeys.of(key),
        sessions=store.sessions.of(key),
    )


def may_change(found: Person, form: ChangePersonForm) -> bool:
    """Nobody changes their own role: the last administrator would lock everybody out."""
    if found.id == signed_in_person().id and form.role.data != found.role:
        form.role.errors = [_("Ask another administrator to change your own role.")]
        return False
    return True


@right("administer")
def reset(key: str) -> str:
    store = current.store()
    found, password = store.people.get(key), one_time_password()
    with store.transaction():
        store.people.set_password(key, hash_password(password), one_time_until())
        store.sessions.end_all(key)
        note("one_time_password_given", found)
    return password_page(found, password)


@right("administer")
def sign_out_everywhere(key: str) -> Response:
    store = current.store()
    found = store.people.get(key)
    with store.transaction():
        store.sessions.end_all(key)
        note("signed_out_everywhere", found)
    flash(_("{name} is signed out everywhere.", name=found.name), "success")
    return redirect(url_for("accounts.person", key=key), 303)


@right("administer")
def remove_passkey_of(key: str, passkey: str) -> Response:
    store = current.store()
    owner, found = store.people.get(key), store.passkeys.get(passkey)
    if found.person != key:
        raise NotInStore("passkey", passkey)
    with store.transaction():
        store.passkeys.remove(passkey)
        note("passkey_removed", owner, passkey=passkey)
    flash(
        _(
            "The passkey {name} is removed. Nothing that it confirms from now on is accepted.",
            name=found.name,
        ),
        "success",
    )
    return redirect(url_for("accounts.person", key=key), 303)


@right("administer")
def disable(key: str) -> Response:
    return set_active(key, False, noop("{name} is disabled and signed out everywhere."))


@right("administer")
def enable(key: str) -> Response:
    return set_active(key, True, noop("{name} may sign in again."))


def set_active(key: str, active: bool, sentence: str) -> Response:
    store = current.store()
    found = store.people.get(key)
    if found.id == signed_in_person().id:
        flash(_("Ask another administrator to disable your own account."), "warning")
    else:
        with store.transaction():
            store.people.set_active(key, active)
            note("person_enabled" if active else "person_disabled", found)
        flash(_(sentence, name=found.name), "success")
    return redirect(url_for("accounts.person", key=key), 303)
