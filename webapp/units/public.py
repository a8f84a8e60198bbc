"""What a stranger sees who scans a label: which unit it is and whether it may be used. Nothing else."""

from flask import Blueprint, Response, abort, make_response, render_template

from webapp import current
from webapp.certificate import figures
from webapp.rights import right
from webapp.store import short_code


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/u/<string:token>", view_func=public_unit)
    # A label's link is all capitals, because the symbol is smaller then.
    blueprint.add_url_rule("/U/<string:token>", view_func=public_unit)


@right("anyone")
def public_unit(token: str) -> Response:
    units = current.store().units
    retired = units.retired_label(token)
    unit = units.get(retired.unit) if retired else units.by_token(token)
    if unit is None:
        abort(404)
    page = render_template(
        "units/public.html",
        unit=unit,
        replaced_on=figures.day(retired.retired_at[:10]) if retired else None,
        state=current.store().listing.unit_state(unit.id),
        code=short_code.grouped(unit.short_code),
        today=current.clock().date().isoformat(),
        day=figures.day,
    )
    response = make_response(page)
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Cache-Control"] = "no-store"
    return response
