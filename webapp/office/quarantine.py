"""What the server could not accept: shown with plain reasons, never dropped."""

from flask import Blueprint, Response, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as Answer

from webapp import current
from webapp.language import _, noop
from webapp.office.exports import download
from webapp.office.forms import SEEN, QuarantineForm, SeenForm
from webapp.receiving import reopen_quarantined
from webapp.rights import right
from webapp.store.lists import page as page_of

ENDINGS = {"record": "jws", "decision": "jws", "event": "json"}
KINDS = {"record": noop("Record"), "decision": noop("Decision"), "event": noop("Entry")}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/quarantine", view_func=quarantine)
    blueprint.add_url_rule("/quarantine/<int:item>", view_func=quarantined)
    blueprint.add_url_rule("/quarantine/<int:item>/document", view_func=document)
    blueprint.add_url_rule("/quarantine/<int:item>/seen", view_func=seen, methods=["POST"])


@right("read")
def quarantine() -> str:
    """Everything that was not accepted, the newest first, also what was looked at."""
    form = QuarantineForm(request.args)
    listed = current.store().listing.quarantined(
        form.q.data.strip(), SEEN[form.seen.data], request.args.get("before", type=int)
    )
    found, place = page_of(listed)
    older = {**request.args.to_dict(), "before": place} if place else None
    return render_template("office/quarantine.html", form=form, items=found, older=older, kind_words=KINDS)


@right("read")
def quarantined(item: int) -> str:
    return page(item, SeenForm())


def page(item: int, form: SeenForm) -> str:
    store = current.store()
    found = store.quarantine.number(item)
    return render_template(
        "office/quarantined.html",
        item=found,
        kind_words=KINDS,
        sender=store.people.get(found.person),
        unit=store.units.find(found.unit) if found.unit else None,
        reader=store.people.get(found.seen_by) if found.seen_by else None,
        form=form,
    )


@right("read")
def document(item: int) -> Response:
    found = current.store().quarantine.number(item)
    name = f"quarantined-{item}.{ENDINGS[found.kind]}"
    return download(found.document.encode(), "application/octet-stream", name)


@right("countersign")
def seen(item: int) -> str | Answer:
    form = SeenForm()
    if not form.validate_on_submit():
        return page(item, form)
    person = current.person()
    assert person is not None  # the right asks for one
    reopen_quarantined(current.store(), item, person, form.note.data.strip())
    flash(_("Noted. The document is kept; a visit that it held up can be worked on again."), "success")
    return redirect(url_for("office.queue"), 303)
