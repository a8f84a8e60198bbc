"""Units and their labels, in the order in which an administrator meets them."""

from flask import Blueprint, Response, flash, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as Answer
from wtforms.fields.choices import SelectChoice

from webapp import current
from webapp.certificate import figures
from webapp.certificate.sheet import cell_rows
from webapp.certificate.wording import Wording
from webapp.language import _, named_procedure, told
from webapp.rights import has_right, right
from webapp.store import Taken, Unit, short_code
from webapp.store.lists import page
from webapp.units import label, take_over
from webapp.units.forms import PROCEDURE, EntriesForm, UnitForm, data_of, form_class, lacking
from webapp.units.noted import changed, note


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/units", view_func=units)
    blueprint.add_url_rule("/units/new", view_func=new_unit, methods=["GET", "POST"])
    blueprint.add_url_rule("/units/<string:key>", view_func=unit)
    blueprint.add_url_rule("/units/<string:key>/change", view_func=change_unit, methods=["GET", "POST"])
    blueprint.add_url_rule("/units/<string:key>/label", view_func=unit_label)
    blueprint.add_url_rule("/units/<string:key>/label.svg", view_func=label_svg)
    blueprint.add_url_rule("/units/<string:key>/label.png", view_func=label_png)
    blueprint.add_url_rule("/units/<string:key>/new-label", view_func=new_label, methods=["POST"])


@right("signed_in")
def units() -> str | Answer:
    store, words = current.store(), request.args.get("q", "").strip()
    by_code = store.units.by_short_code(words) if words else None
    if by_code:
        return redirect(url_for("units.unit", key=by_code.id), 303)
    site = request.args.get("site", "")
    found, after = page(store.listing.units(words, site, request.args.get("after", "")))
    return render_template(
        "units/units.html",
        units=found,
        words=words,
        site=store.sites.find(site),
        after=after,
    )


@right("administer")
def new_unit() -> str | Answer:
    form = unit_form(None)
    if form.validate_on_submit() and (made := keep(form, None)):
        flash(_("{name} was added. Print its label next.", name=made.name), "success")
        return redirect(url_for("units.unit_label", key=made.id), 303)
    return render_template("units/unit-form.html", form=form, title=_("New unit"))


@right("signed_in")
def unit(key: str) -> str:
    store = current.store()
    found = store.units.get(key)
    records, before = page(store.listing.search(unit=key, before=request.args.get("before", "")))
    return render_template(
        "units/unit.html",
        unit=found,
        site=store.sites.get(found.site),
        state=store.listing.unit_state(key),
        records=records,
        decisions=store.listing.decisions([one.sha256 for one in records]),
        before=before,
        plate=plate_rows(found),
        read_at_unit=take_over.lists(found),
        may_take_over=has_right(current.person(), "take_over"),
        lacking=lacking("plate", found.plate, named_procedure(PROCEDURE)["plate"]),
        day=figures.day,
        code=short_code.grouped(found.short_code),
        label_replaced=store.units.replaced_on(key),
    )


@right("administer")
def change_unit(key: str) -> str | Answer:
    found = current.store().units.get(key)
    form = unit_form(found)
    if form.validate_on_submit() and keep(form, found):
        flash(_("The changes are kept. Signed records keep the plate they were judged by."), "success")
        return redirect(url_for("units.unit", key=key), 303)
    return render_template(
        "units/unit-form.html", form=form, title=_("Change {name}", name=found.name), unit=found
    )


@right("signed_in")
def unit_label(key: str) -> str:
    found = current.store().units.get(key)
    code = short_code.grouped(found.short_code)
    return render_template("units/label.html", unit=found, label=label_of(found), code=code)


@right("signed_in")
def label_svg(key: str) -> Response:
    return picture(label.svg(label_of(current.store().units.get(key))), "image/svg+xml")


@right("signed_in")
def label_png(key: str) -> Response:
    return picture(label.png(label_of(current.store().units.get(key))), "image/png")


@right("administer")
def new_label(key: str) -> Answer:
    store, person = current.store(), current.person()
    with store.transaction():
        store.units.new_token(key)
        store.audit.add("label_replaced", person=person.id if person else None, subject=key)
    flash(
        _("The unit has a new label. Print it, and take the old one off: it says that it was replaced."),
        "warning",
    )
    return redirect(url_for("units.unit_label", key=key), 303)


def picture(content: bytes, kind: str) -> Response:
    response = make_response(content)
    response.headers["Content-Type"] = kind
    response.headers["Cache-Control"] = "no-store"
    return response


def label_of(unit: Unit) -> label.Label:
    link = label.link_for(current.settings().base_url, unit.token)
    return label.Label(unit.name, unit.serial, short_code.grouped(unit.short_code), link)


def unit_form(unit: Unit | None) -> EntriesForm:
    """The form of a unit, filled with what is stored about it."""
    entries = named_procedure(PROCEDURE)["plate"]
    kept = data_of(unit.plate, entries) if unit else {}
    more = {"name": unit.name, "serial": unit.serial, "site": unit.site} if unit else {}
    form = form_class(UnitForm, entries)(data={**kept, **more})
    form["site"].choices = [SelectChoice(site.id, site.name) for site in current.store().sites.all()]
    return form


def keep(form: EntriesForm, unit: Unit | None) -> Unit | None:
    """Store what the form says; None with the reason at the field when the serial number is taken."""
    units = current.store().units
    values = {name: form[name].data.strip() for name in ("name", "serial", "site")}
    values["plate"] = form.cells()
    try:
        with current.store().transaction():
            kept = units.change(unit.id, **values) if unit else units.add(**values)
            note("unit_changed" if unit else "unit_added", kept.id, changed(unit, kept))
        return kept
    except Taken as taken:
        form["serial"].errors = [told(str(taken))]
        return None


def plate_rows(unit: Unit) -> list[dict[str, str]]:
    return cell_rows("plate", unit.plate, Wording(named_procedure(PROCEDURE)))
