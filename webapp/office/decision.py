"""Countersigning and returning: password or passkey, signature, and what follows from it."""

import json
from typing import Any

from flask import Blueprint, flash, redirect, url_for
from werkzeug.wrappers import Response

from webapp import current
from webapp.confirming import wrong_password
from webapp.language import _, noop, told
from webapp.office.forms import DecisionForm
from webapp.office.offer import Offer
from webapp.office.record import record_page
from webapp.office.reopen import reopen_page
from webapp.passkeys import ASSERTION, Place
from webapp.receiving import receive_decision
from webapp.rights import right
from webapp.signing import jws
from webapp.signing.canonical import NotCanonical, parse
from webapp.signing.shapes import wrong_places
from webapp.store import Person, Record

DONE = {
    "accepted": noop("The unit is accepted. Its certificate can be downloaded below."),
    "accepted_with_conditions": noop(
        "The unit is accepted with conditions, which stand behind its label, too."
    ),
    "returned": noop("The record is returned. The installer sees the reasons at the next sync."),
}
REOPENED = noop(
    "The record is re-opened. The installer sees the reasons at the next sync; the acceptance holds until "
    "a corrected record is accepted."
)

UNREADABLE = {"id": "", "clientDataJSON": "", "authenticatorData": "", "signature": ""}

NOT_SIGNED = noop(
    "This browser did not sign the decision. Open /phone in it once, then come back and decide."
)
DIFFERS = noop("The signature does not belong to what stands in the form. Reload the page and decide again.")


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/records/<string:sha256>/decision", view_func=decide, methods=["POST"])


@right("countersign")
def decide(sha256: str) -> str | Response:
    record, person = current.store().records.get(sha256), current.person()
    assert person is not None  # the right asks for one
    offer = Offer.about(record, person)
    form = offer.form()
    if not offer.decisions:
        flash(_(offer.reason) if offer.reason else _("This record was decided before."), "error")
        return redirect(url_for("office.record", sha256=sha256), 303)
    again = reopen_page if offer.reopens else record_page
    if not form.validate_on_submit() or not is_confirmed(form, person) or not is_signed(form, record, offer):
        return again(sha256, form)
    settings = current.settings()
    answer = receive_decision(
        current.store(),
        form.jws.data or "",
        person,
        settings.service_months,
        assertion_of(form),
        Place.of(settings.base_url),
    )
    if answer.state == "quarantined":
        form.decision.errors = [told(reason["detail"]) for reason in answer.reasons]
        return again(sha256, form)
    flash(_(REOPENED if offer.reopens else DONE[answer.state]), "success")
    return redirect(url_for("office.record", sha256=sha256), 303)


def is_confirmed(form: DecisionForm, person: Person) -> bool:
    """Whether the password was typed again rightly; a passkey's confirmation is verified on receiving."""
    if form.assertion.data:
        return True
    problem = wrong_password(person, form.password.data or "")
    if problem:
        form.password.errors = [f"{problem.title}. {problem.detail}"]
    return problem is None


def assertion_of(form: DecisionForm) -> dict[str, Any] | None:
    """The passkey's confirmation. One that cannot be read is refused later on, and not left out."""
    if not form.assertion.data:
        return None
    try:
        found = parse(form.assertion.data)
    except NotCanonical:
        found = {}
    return UNREADABLE if next(wrong_places(ASSERTION, found), None) else found


def is_signed(form: DecisionForm, record: Record, offer: Offer) -> bool:
    """Whether the browser signed just what the form says. The signature itself is verified on receiving.

    The meaning belongs to it: a page that was opened before the acceptance would return a record, not
    re-open it.
    """
    try:
        content = json.loads(jws.read(form.jws.data or "").payload)
    except (jws.NotValid, ValueError):
        form.decision.errors = [_(NOT_SIGNED)]
        return False
    meaning = offer.meanings.get(form.decision.data)
    said = (form.decision.data, (form.reasons.data or "").strip(), record.sha256, meaning)
    if tuple(content.get(name) for name in ("decision", "reasons", "record", "meaning")) != said:
        form.decision.errors = [_(DIFFERS)]
        return False
    return True
