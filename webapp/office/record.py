"""The page of one record: everything a supervisor looks at before deciding, conditions first."""

from flask import Blueprint, render_template

from webapp import current
from webapp.office import papers
from webapp.office.forms import DecisionForm
from webapp.office.offer import Offer
from webapp.read_at_unit import offered
from webapp.rights import right
from webapp.store import Record


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/records/<string:sha256>", view_func=record)


@right("read")
def record(sha256: str) -> str:
    return record_page(sha256)


def record_page(sha256: str, form: DecisionForm | None = None) -> str:
    """The whole record; ``form`` is a decision that was sent and has to be mended."""
    store = current.store()
    found = store.records.get(sha256)
    offer = Offer.about(found, current.person())
    return render_template(
        "office/record.html",
        record=found,
        sheet=papers.sheet_of(found),
        unit=store.units.get(found.unit),
        known_photos={photo for photo in papers.photos_of(found) if store.photos.find(photo)},
        corrections=store.records.corrections(sha256),
        is_awaited=bool(store.listing.record(sha256).awaited),
        offer=offer,
        may_be_taken_over=is_last(found) and bool(offered(store, store.units.get(found.unit))),
        form=form or offer.form(),
    )


def is_last(record: Record) -> bool:
    """Whether the unit stands as this record's acceptance left it."""
    return current.store().listing.unit_state(record.unit).record == record.sha256
