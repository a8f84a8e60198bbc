"""Values read at the unit, taken over into its data plate or its site once their record is accepted."""

from flask import Blueprint, flash, redirect, url_for
from werkzeug.wrappers import Response
from wtforms import HiddenField

from webapp import current
from webapp.forms import OwnForm
from webapp.language import _, noop
from webapp.read_at_unit import ValueRead, offered, seen
from webapp.rights import right
from webapp.store import Unit
from webapp.units.noted import changed, note

CHANGED = noop(
    "These values changed since the page was opened, so nothing was taken over. Look at them again."
)
TAKEN = {
    "plate": noop("Taken over into the data plate. Signed records keep the values they had."),
    "site": noop("Taken over into the site. Signed records keep the values they had."),
}


class TakeOverForm(OwnForm):
    """One list; ``seen`` says which values the page had shown."""

    owner = HiddenField()
    seen = HiddenField()


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/units/<string:key>/take-over", view_func=take_over, methods=["POST"])


def lists(unit: Unit) -> list[tuple[list[str], TakeOverForm]]:
    """What the unit's page offers: the values as lines, and the form of the button, which names the owner."""
    return [
        (
            [one.line_for_reader() for one in values],
            TakeOverForm(formdata=None, data={"owner": owner, "seen": seen(values)}),
        )
        for owner, values in offered(current.store(), unit).items()
    ]


@right("take_over")
def take_over(key: str) -> Response:
    form, store = TakeOverForm(), current.store()
    with store.transaction():
        unit = store.units.get(key)
        values = offered(store, unit).get(form.owner.data or "", [])
        if not form.validate_on_submit() or not values or form.seen.data != seen(values):
            flash(_(CHANGED), "warning")
            return redirect(url_for("units.unit", key=key), 303)
        keep(unit, values)
    flash(_(TAKEN[values[0].owner]), "success")
    return redirect(url_for("units.unit", key=key), 303)


def keep(unit: Unit, values: list[ValueRead]) -> None:
    """Store the values and note what they replace, with the record that they come from."""
    store = current.store()
    cells = {one.entry["id"]: one.cell() for one in values}
    record = store.listing.unit_state(unit.id).record or ""
    if values[0].owner == "plate":
        plate = {**unit.plate, **cells}
        kept = store.units.change(unit.id, name=unit.name, serial=unit.serial, site=unit.site, plate=plate)
        note("values_taken_over", unit.id, {"record": record, **changed(unit, kept)})
    else:
        site = store.sites.get(unit.site)
        after = store.sites.change(
            site.id, name=site.name, address=site.address, values={**site.values, **cells}
        )
        note("values_taken_over", site.id, {"record": record, **changed(site, after)})
