"""The queue of what waits, and the search."""

from collections.abc import Iterable

from flask import Blueprint, render_template, request

from webapp import current
from webapp.certificate import figures
from webapp.office.forms import STATES, SearchForm
from webapp.office.pending import pending_results
from webapp.office.quarantine import KINDS
from webapp.rights import right
from webapp.store import Loss, Quarantined, Unit, UnitState

SHOWN = 200


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("", view_func=queue, endpoint="queue_without_slash")
    blueprint.add_url_rule("/", view_func=queue)
    blueprint.add_url_rule("/records", view_func=records)


@right("read")
def queue() -> str:
    store = current.store()
    today = current.clock().date().isoformat()
    waiting, quarantined = store.listing.queue(SHOWN), store.quarantine.waiting()
    awaited = {one.sha256: still_to_come(one.sha256) for one in waiting if one.pending}
    late = store.listing.awaiting_results()
    conditional = [
        (one, still_to_come(one.record) if one.record in late else [])
        for one in store.listing.conditional(SHOWN)
    ]
    reopened, overdue = store.listing.reopened(SHOWN), store.listing.overdue(today, SHOWN)
    units = named_units([*(one for one, _ in conditional), *reopened, *overdue, *quarantined])
    return render_template(
        "office/queue.html",
        waiting=waiting,
        day=figures.day,
        awaited=awaited,
        quarantined=quarantined,
        kind_words=KINDS,
        losses=[(one, units_of(one)) for one in store.contacts.losses()],
        people=names_of_people(),
        units=units,
        to_come=[(units[one.unit], one, lines) for one, lines in conditional if lines],
        reopened=[(units[one.unit], one) for one in reopened],
        conditional=[(units[one.unit], one, lines) for one, lines in conditional if not lines],
        overdue=[(units[one.unit], one) for one in overdue],
        shown=SHOWN,
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


def named_units(about: Iterable[UnitState | Quarantined]) -> dict[str, Unit]:
    """The units that these lines are about, by id."""
    found = (current.store().units.find(one.unit) for one in about if one.unit)
    return {unit.id: unit for unit in found if unit}


def is_past(day: str | None, today: str) -> bool:
    return day is not None and day < today


@right("read")
def records() -> str:
    form = SearchForm(request.args, current.store().sites.all())
    since, until = form.since.data, form.until.data
    found = current.store().listing.search(
        form.q.data.strip(),
        limit=SHOWN,
        state=form.state.data,
        site=form.site.data,
        since=since.isoformat() if since else None,
        until=until.isoformat() if until else None,
        before=request.args.get("before"),
    )
    older = {**request.args.to_dict(), "before": found[-1].sha256} if len(found) == SHOWN else None
    return render_template("office/records.html", form=form, records=found, states=STATES, older=older)


def names_of_people() -> dict[str, str]:
    return {person.id: person.name for person in current.store().people.all()}
