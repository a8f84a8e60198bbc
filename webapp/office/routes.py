"""The queue of what waits, and the search."""

from collections.abc import Callable
from typing import Any

from flask import Blueprint, abort, render_template, request

from webapp import current
from webapp.certificate import figures
from webapp.office.forms import STATES, SearchForm
from webapp.office.pending import lines
from webapp.office.quarantine import KINDS
from webapp.rights import right
from webapp.store import Loss, Site
from webapp.store.lists import page

MOST_SITES = 60


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("", view_func=queue, endpoint="queue_without_slash")
    blueprint.add_url_rule("/", view_func=queue)
    blueprint.add_url_rule("/records", view_func=records)


@right("read")
def queue() -> str:
    """Each list begins with what waits longest; ``list`` and ``after`` lead on in one of them."""
    known, only, after = queues(), request.args.get("list"), request.args.get("after", "")
    if only is not None and only not in known:
        abort(404)
    pages = {
        name: page(ask(after if only else "") if only in (None, name) else []) for name, ask in known.items()
    }
    found = {name: lines for name, (lines, _) in pages.items()}
    losses = [] if only else current.store().contacts.losses()
    return render_template(
        "office/queue.html",
        waiting=found["waiting"],
        awaited={one.sha256: lines(one.awaited) for one in found["waiting"] if one.awaited},
        quarantined=found["quarantined"],
        to_come=[(one, one.state, lines(one.awaited)) for one in found["to_come"]],
        reopened=[(one, one.state) for one in found["reopened"]],
        conditional=[(one, one.state, []) for one in found["conditional"]],
        overdue=[(one, one.state) for one in found["overdue"]],
        instruments=found["instruments"],
        only=only,
        after={name: place for name, (_, place) in pages.items()},
        day=figures.day,
        kind_words=KINDS,
        losses=[(one, units_of(one)) for one in losses],
        people={one.person: current.store().people.get(one.person).name for one in losses},
    )


def queues() -> dict[str, Callable[[str], list[Any]]]:
    """The lists that a supervisor works off, each from a place on."""
    store, today = current.store(), current.clock().date().isoformat()
    return {
        "waiting": store.listing.queue,
        "quarantined": lambda after: store.listing.unseen(int(after) if after.isdecimal() else 0),
        "to_come": store.listing.to_come,
        "reopened": store.listing.reopened,
        "conditional": store.listing.conditional,
        "overdue": lambda after: store.listing.overdue(today, after),
        "instruments": lambda after: store.instruments.overdue(today, after),
    }


def units_of(loss: Loss) -> list[str]:
    """The names of the units in whose open visits the phone had entries."""
    store = current.store()
    return sorted({store.units.get(store.visits.get(visit).unit).name for visit in loss.visits})


def offered_sites(chosen: str) -> list[Site]:
    """The sites to choose from; of very many the chosen one alone, because the words find sites as well."""
    sites = current.store().sites
    found = sites.page(limit=MOST_SITES + 1)
    return found if len(found) <= MOST_SITES else list(sites.find_all([chosen]).values())


@right("read")
def records() -> str:
    form = SearchForm(request.args, offered_sites(request.args.get("site", "")))
    since, until = form.since.data, form.until.data
    listed = current.store().listing.search(
        form.q.data.strip(),
        state=form.state.data,
        site=form.site.data,
        since=since.isoformat() if since else None,
        until=until.isoformat() if until else None,
        before=request.args.get("before", ""),
    )
    found, place = page(listed)
    older = {**request.args.to_dict(), "before": place} if place else None
    return render_template("office/records.html", form=form, records=found, states=STATES, older=older)
