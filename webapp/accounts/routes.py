"""Signing in and out, and one's own account."""

import secrets
from urllib.parse import urlsplit

from flask import Blueprint, flash, redirect, render_template, request, session, url_for
from werkzeug.wrappers import Response

from webapp import current, passwords, throttle
from webapp.accounts.browsers import browser_name, known_browser, remember_browser
from webapp.accounts.forms import NewPasswordForm, SignInForm
from webapp.confirming import wrong_password
from webapp.language import LANGUAGES, _, noop
from webapp.passkeys import Place
from webapp.problems import Problem
from webapp.rights import right
from webapp.store import Person

NOT_RECOGNISED = noop("Login and password do not belong together. Check both and try again.")


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/sign-in", view_func=sign_in, methods=["GET", "POST"])
    blueprint.add_url_rule("/sign-out", view_func=sign_out, methods=["POST"])
    blueprint.add_url_rule("/account", view_func=account)
    blueprint.add_url_rule("/account/language", view_func=choose_language, methods=["POST"])
    blueprint.add_url_rule("/account/password", view_func=new_password, methods=["GET", "POST"])


@right("anyone")
def sign_in() -> str | Response | tuple[str, int, dict[str, str]]:
    form = SignInForm()
    if not form.validate_on_submit():
        return sign_in_page(form)
    login, store = (form.login.data or "").strip(), current.store()
    address, browser = request.remote_addr or "", known_browser(login)
    wait = throttle.begin_attempt(store, login, address, browser)
    if wait:
        form.password.errors = [_("Too many attempts. Wait {wait} s, then try again.", wait=wait)]
        return sign_in_page(form), 429, {"Retry-After": str(wait)}
    person = passwords.check(store, login, form.password.data or "")
    if person is None:
        note_failure(login)
        form.password.errors = [_(NOT_RECOGNISED)]
        return sign_in_page(form), 401, {}
    throttle.succeeded(store, login, address, browser)
    start_session(person)
    response = redirect(next_page(), 303)
    remember_browser(response, login)
    return response


def note_failure(login: str) -> None:
    """Without an unknown login: it may be a password that was typed into the wrong field."""
    store = current.store()
    known = store.people.by_login(login)
    subject = known.id if known else None
    store.audit.add("sign_in_failed", person=None, subject=subject, address=request.remote_addr)


def sign_in_page(form: SignInForm) -> str:
    rp_id = Place.of(current.settings().base_url).rp_id
    return render_template("accounts/sign-in.html", form=form, next=request.args.get("next", ""), rp_id=rp_id)


def next_page() -> str:
    """Where the person wanted to go, if that is a page of ours."""
    return page_of_ours(request.args.get("next", ""))


def page_of_ours(wanted: str) -> str:
    """An address without a host, or the start page."""
    parts = urlsplit(wanted)
    is_ours = wanted.startswith("/") and not wanted.startswith(("//", "/\\")) and not parts.netloc
    return wanted if is_ours and wanted.isprintable() else "/"


def start_session(person: Person, passkey: str | None = None) -> None:
    """A new token at each sign-in; what was in the cookie before is gone."""
    # Otherwise whoever planted a cookie in this browser beforehand would be signed in as well.
    end_session()
    token = secrets.token_urlsafe(32)
    session[current.SESSION_TOKEN] = token
    session.permanent = True
    store = current.store()
    store.sessions.start(current.session_key(token), person.id, browser_name(), passkey)
    how = "passkey" if passkey else "password"
    store.audit.add("signed_in", person=person.id, subject=person.id, address=request.remote_addr, how=how)


def end_session() -> None:
    token = session.get(current.SESSION_TOKEN)
    if token:
        current.store().sessions.end(current.session_key(token))
    session.clear()
    current.forget_person()


# Answers without Clear-Site-Data: it would erase entries that wait on the phone.
@right("anyone")
def sign_out() -> Response:
    person = current.person()
    if person is not None:
        current.store().audit.add("signed_out", person=person.id, subject=person.id)
    end_session()
    flash(_("You are signed out. What waits on this phone is kept."), "success")
    return redirect(url_for("accounts.sign_in"), 303)


@right("signed_in")
def account() -> str:
    return render_template("accounts/account.html")


@right("signed_in")
def choose_language() -> Response:
    """The switch at the foot of every page; one of no language that there is changes nothing."""
    person, chosen = signed_in_person(), request.form.get("language", "")
    if chosen in LANGUAGES:
        current.store().people.set_language(person.id, chosen)
    return redirect(page_of_ours(request.form.get("next", "")), 303)


@right("signed_in")
def new_password() -> str | Response:
    person, form = signed_in_person(), NewPasswordForm()
    if form.validate_on_submit() and confirm_password(person, form.present.data or "", form.present):
        store = current.store()
        with store.transaction():
            store.people.set_password(person.id, passwords.hash_password(form.new.data or ""))
            store.sessions.end_all(person.id)
            store.audit.add("password_changed", person=person.id, subject=person.id)
        start_session(store.people.get(person.id))
        flash(
            _("Your password is changed. Prepare your phone again, so that it knows the new one."), "success"
        )
        return redirect(url_for("accounts.account"), 303)
    return render_template("accounts/new-password.html", form=form)


def signed_in_person() -> Person:
    person = current.person()
    if person is None:
        raise Problem(401, "not_signed_in")
    return person


def confirm_password(person: Person, password: str, field: object) -> bool:
    """Whether it is the person's password; otherwise ``field`` says what to do."""
    problem = wrong_password(person, password)
    if problem:
        field.errors = [problem.detail]  # type: ignore[attr-defined]
    return problem is None
