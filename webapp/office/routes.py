"""The queue of what waits, and the search."""

from datetime import date

from flask import Blueprint, render_template, request

from webapp import current
from webapp.certificate import figures
from webapp.office.forms import STATES, SearchForm
from webapp.office.pending import pending_results
from webapp.rights import right
from webapp.store import ListedRecord, Loss, Unit, UnitState

SEARCHED = 2000


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("", view_func=queue, endpoint="queue_without_slash")
    blueprint.add_url_rule("/", view_func=queue)
    blueprint.add_url_rule("/records", view_func=records)


@right("read")
def queue() -> str:
    store = current.store()
    today = current.clock().date().isoformat()
    units = {unit.id: unit for unit in store.units.all()}
    states = list(store.listing.unit_states().values())
    waiting = store.listing.queue()
    conditional = [
        (units[one.unit], one, still_to_come(one.record))
        for one in states
        if one.state == "accepted_with_conditions" and not one.reopened_on
    ]
    return render_template(
        "office/queue.html",
        waiting=waiting,
        day=figures.day,
        awaited={one.sha256: still_to_come(one.sha256) for one in waiting},
        quarantined=store.quarantine.waiting(),
        losses=[(one, units_of(one)) for one in store.contacts.losses()],
        people=names_of_people(),
        units=units,
        to_come=[row for row in conditional if row[2]],
        reopened=[(units[one.unit], one) for one in states if one.reopened_on],
        conditional=[row for row in conditional if not row[2]],
        overdue=overdue_services(states, units, today),
        instruments=[
            one for one in store.instruments.all() if one.active and is_past(one.calibration_due, today)
        ],
    )


def units_of(loss: Loss) -> list[str]:
    """The names of the units in whose open visits the phone had entries."""
    store = current.store()
    return sorted({store.units.get(store.visits.get(visit).unit).name for visit in loss.visits})


def still_to_come(record: str | None) -> list[str]:
    """The results that a record waits for, each as a line."""
    return [one.line for one in pending_results(current.store().records.get(record))] if record else []


def overdue_services(
    states: list[UnitState], units: dict[str, Unit], today: str
) -> list[tuple[Unit, UnitState]]:
    """Units whose service date has passed, the longest overdue first."""
    found = [one for one in states if is_past(one.next_service, today)]
    return [(units[one.unit], one) for one in sorted(found, key=lambda one: one.next_service or "")]


def is_past(day: str | None, today: str) -> bool:
    return day is not None and day < today


@right("read")
def records() -> str:
    form = SearchForm(request.args, current.store().sites.all())
    found = current.store().listing.search(form.q.data.strip(), form.state.data or None, limit=SEARCHED)
    kept = [one for one in found if form.site.data in ("", one.site)]
    kept = [one for one in kept if within(one, form.since.data, form.until.data)]
    return render_template("office/records.html", form=form, records=kept, states=STATES, limit=SEARCHED)


def within(one: ListedRecord, since: date | None, until: date | None) -> bool:
    """Whether the record was signed on one of these days."""
    signed = one.signed_at[:10]
    return (since is None or since.isoformat() <= signed) and (until is None or signed <= until.isoformat())


def names_of_people() -> dict[str, str]:
    return {person.id: person.name for person in current.store().people.all()}
