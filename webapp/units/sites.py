"""Sites: where units stand, and the choices there that limits depend on."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import current
from webapp.language import _, named_procedure
from webapp.rights import right
from webapp.store import Site
from webapp.store.lists import page
from webapp.units.forms import PROCEDURE, EntriesForm, SiteForm, data_of, form_class
from webapp.units.noted import changed, note


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/units/sites", view_func=sites)
    blueprint.add_url_rule("/units/sites/new", view_func=new_site, methods=["GET", "POST"])
    blueprint.add_url_rule("/units/sites/<string:key>/change", view_func=change_site, methods=["GET", "POST"])


@right("signed_in")
def sites() -> str:
    store = current.store()
    found, after = page(store.sites.page(request.args.get("after", "")))
    return render_template(
        "units/sites.html",
        sites=found,
        units=store.listing.units_at([one.id for one in found]),
        after=after,
    )


@right("administer")
def new_site() -> str | Response:
    form = site_form(None)
    if form.validate_on_submit():
        values = {name: (form[name].data or "").strip() for name in ("name", "address")}
        with current.store().transaction():
            made = current.store().sites.add(**values, values=form.cells())
            note("site_added", made.id, changed(None, made))
        flash(_("{name} was added.", name=made.name), "success")
        return redirect(url_for("units.sites"), 303)
    return render_template("units/site-form.html", form=form, title=_("New site"))


@right("administer")
def change_site(key: str) -> str | Response:
    found = current.store().sites.get(key)
    form = site_form(found)
    if form.validate_on_submit():
        values = {name: (form[name].data or "").strip() for name in ("name", "address")}
        with current.store().transaction():
            kept = current.store().sites.change(key, **values, values=form.cells())
            note("site_changed", key, changed(found, kept))
        flash(_("The changes are kept. Signed records keep the values they were judged by."), "success")
        return redirect(url_for("units.sites"), 303)
    return render_template(
        "units/site-form.html", form=form, title=_("Change {name}", name=found.name), site=found
    )


def site_form(site: Site | None) -> EntriesForm:
    entries = named_procedure(PROCEDURE)["site"]
    kept = data_of(site.values, entries) if site else {}
    more = {"name": site.name, "address": site.address} if site else {}
    return form_class(SiteForm, entries)(data={**kept, **more})
