"""Re-opening an accepted record: for a laboratory's result that came later, or for a mistake."""

from flask import Blueprint, abort, render_template

from webapp import current
from webapp.language import _
from webapp.office.forms import DecisionForm
from webapp.office.offer import Offer
from webapp.office.pending import PendingResult, pending_results
from webapp.rights import right


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/records/<string:sha256>/reopen", view_func=reopen)


@right("countersign")
def reopen(sha256: str) -> str:
    return reopen_page(sha256)


def reopen_page(sha256: str, form: DecisionForm | None = None) -> str:
    """What re-opening means, and the form; ``form`` is one that was sent and has to be mended."""
    store = current.store()
    found = store.records.get(sha256)
    offer = Offer.about(found, current.person())
    if not offer.reopens:
        abort(404)
    pending = pending_results(store.listing.record(sha256).awaited)
    return render_template(
        "office/reopen.html",
        record=found,
        unit=store.units.get(found.unit),
        pending=pending,
        offer=offer,
        form=form or filled(offer.form(), pending),
    )


def filled(form: DecisionForm, pending: list[PendingResult]) -> DecisionForm:
    """The form as it is first shown: with the reason that most often is the right one."""
    form.decision.data = "returned"
    if pending:
        lines = "; ".join(one.line for one in pending)
        form.reasons.data = _("The laboratory's result has come: {lines}.", lines=lines)
    return form
