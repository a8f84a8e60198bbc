"""Instruments: what they measure, how well, and until when their calibration holds."""

from datetime import date
from typing import Any

from flask import Blueprint, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response
from wtforms.fields.choices import SelectChoice

from checks import procedure as procedures
from checks.instrument import kind_in_words
from webapp import current
from webapp.certificate import figures
from webapp.certificate.sheet import accuracy
from webapp.language import _, say
from webapp.rights import right
from webapp.store import Instrument
from webapp.units.forms import ENDS, NUMBERS, PER_CENT, InstrumentForm
from webapp.units.noted import changed, note


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/units/instruments", view_func=instruments)
    blueprint.add_url_rule("/units/instruments/new", view_func=new_instrument, methods=["GET", "POST"])
    blueprint.add_url_rule(
        "/units/instruments/<string:key>/change", view_func=change_instrument, methods=["GET", "POST"]
    )


@right("signed_in")
def instruments() -> str:
    found = current.store().instruments.all()
    return render_template(
        "units/instruments.html",
        instruments=found,
        kinds=kinds(),
        accuracies={one.id: accuracy(one.as_json()) for one in found},
        today=current.clock().date().isoformat(),
        day=figures.day,
    )


@right("administer")
def new_instrument() -> str | Response:
    form = instrument_form(None)
    if form.validate_on_submit():
        with current.store().transaction():
            made = current.store().instruments.add(**form.values())
            note("instrument_added", made.id, changed(None, made))
        flash(_("{name} was added.", name=made.name), "success")
        return redirect(url_for("units.instruments"), 303)
    return render_template("units/instrument-form.html", form=form, title=_("New instrument"))


@right("administer")
def change_instrument(key: str) -> str | Response:
    found = current.store().instruments.get(key)
    form = instrument_form(found)
    if form.validate_on_submit():
        with current.store().transaction():
            kept = current.store().instruments.change(key, **form.values())
            note("instrument_changed", key, changed(found, kept))
        flash(_("The changes are kept. Signed records keep the instrument as it was then."), "success")
        return redirect(url_for("units.instruments"), 303)
    title = _("Change {name}", name=found.name)
    return render_template("units/instrument-form.html", form=form, title=title, instrument=found)


def instrument_form(found: Instrument | None) -> InstrumentForm:
    form = InstrumentForm(data=data_of(found) if found else None)
    form.kind.choices = [SelectChoice(kind, name) for kind, name in kinds().items()]
    return form


def data_of(found: Instrument) -> dict[str, Any]:
    due = found.calibration_due
    values: dict[str, Any] = {**found.as_json(), "active": found.active}
    values["calibration_due"] = date.fromisoformat(due) if due else None
    for name in (*PER_CENT, *NUMBERS, *ENDS):
        number = values[name]
        values[name] = None if number is None else as_typed(number * 100 if name in PER_CENT else number)
    return values


def as_typed(number: float) -> dict[str, Any]:
    return {"typed": f"{number:.10g}", "unit": None, "value": number}


def kinds() -> dict[str, str]:
    """The kinds of instrument that any procedure asks for, with their names, sorted."""
    found = {
        entry["instrument"]
        for name in procedures.names()
        for step in procedures.load(name)["steps"]
        for entry in step["entries"]
        if entry["instrument"]
    }
    return {kind: capital(say(kind_in_words(kind))) for kind in sorted(found)}


def capital(text: str) -> str:
    """A heading from a name, but for one with a capital of its own, like pH."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]
