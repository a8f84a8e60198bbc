"""Where a person is signed in, and signing out there."""

from flask import Blueprint, flash, redirect, render_template, session, url_for
from werkzeug.wrappers import Response

from webapp import current
from webapp.accounts.routes import signed_in_person
from webapp.language import _
from webapp.rights import right
from webapp.store import NotInStore


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/account/sessions", view_func=sessions)
    blueprint.add_url_rule("/account/sessions/<string:key>/end", view_func=end_session, methods=["POST"])
    blueprint.add_url_rule("/account/sessions/others/end", view_func=end_others, methods=["POST"])


def here() -> str:
    return current.session_key(session[current.SESSION_TOKEN])


@right("signed_in")
def sessions() -> str:
    found = current.store().sessions.of(signed_in_person().id)
    return render_template("accounts/sessions.html", sessions=found, here=here())


@right("signed_in")
def end_session(key: str) -> Response:
    person, store = signed_in_person(), current.store()
    found = [one for one in store.sessions.of(person.id) if one.id == key]
    if not found:
        raise NotInStore("session", key)
    with store.transaction():
        store.sessions.end(found[0].key)
        store.audit.add("session_ended", person=person.id, subject=person.id, browser=found[0].browser)
    flash(_("{browser} is signed out.", browser=found[0].browser or _("That browser")), "success")
    return redirect(url_for("accounts.sessions"), 303)


@right("signed_in")
def end_others() -> Response:
    person, store = signed_in_person(), current.store()
    with store.transaction():
        store.sessions.end_all(person.id, but=here())
        store.audit.add("signed_out_everywhere", person=person.id, subject=person.id)
    flash(_("You are signed out everywhere but here. What waits on your phones is kept."), "success")
    return redirect(url_for("accounts.sessions"), 303)
