"""Taking in a file of unsent entries: handed in, shown, and only then taken."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask_wtf.file import FileField, FileRequired
from werkzeug.wrappers import Response

from webapp import current
from webapp.forms import OwnForm
from webapp.language import _, lazy, noop, told
from webapp.passkeys import Place
from webapp.problems import Problem
from webapp.receiving.unsent import Line, NotYours, owner_of, preview_unsent, take_in_unsent
from webapp.rights import has_right, right
from webapp.signing.unsent import NotUnsent, UnsentFile, read_unsent
from webapp.store import Person
from webapp.store.inbox import Inbox

LARGEST = 64 * 1024 * 1024
KINDS = {
    "visits": noop("Visits"),
    "events": noop("Entries"),
    "photos": noop("Photos"),
    "records": noop("Signed records"),
}
ONE_OF = {
    "visits": noop("Visit"),
    "events": noop("Entry"),
    "photos": noop("Photo"),
    "records": noop("Signed record"),
}
STATES = {
    "new": noop("New"),
    "here": noop("Already here"),
    "quarantined": noop("Kept apart"),
    "refused": noop("Refused"),
}


class HandInForm(OwnForm):
    file = FileField(
        lazy("File from the phone"),
        description=lazy("Its name begins with firstwater-unsent and ends with .json; at most 64 MB."),
        validators=[FileRequired(lazy("Choose the file that the phone exported."))],
        render_kw={"accept": ".json,application/json"},
    )


class TakeInForm(OwnForm):
    """Nothing but its button."""


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/import", view_func=hand_in, methods=["GET", "POST"])
    blueprint.add_url_rule("/import/<string:name>", view_func=handed_in)
    blueprint.add_url_rule("/import/<string:name>", view_func=take_in, methods=["POST"])
    blueprint.url_value_preprocessor(allow_a_large_file)


def allow_a_large_file(endpoint: str | None, values: Mapping[str, Any] | None) -> None:
    """Before anything reads the form; all other addresses keep the smaller limit."""
    if endpoint == "office.hand_in":
        request.max_content_length = LARGEST


@right("fill")
def hand_in() -> str | Response:
    form = HandInForm()
    if not form.validate_on_submit():
        return render_template("office/import.html", form=form)
    data = form.file.data.read()
    try:
        file = read(data)
        owner_of(current.store(), file, carrier(), may_carry())
    except (NotUnsent, NotYours) as error:
        form.file.errors = [f"{told(str(error))} ({error.code})"]
        return render_template("office/import.html", form=form)
    return redirect(url_for("office.handed_in", name=inbox().keep(carrier().id, data)), 303)


@right("fill")
def handed_in(name: str) -> str:
    file = read(inbox().read(carrier().id, name))
    owner = confirmed_owner(file)
    lines = preview_unsent(current.store(), file, owner, carrier(), place())
    return page(file, owner, lines, name)


@right("fill")
def take_in(name: str) -> str | Response:
    """The file is looked at anew: what has come meanwhile by itself counts as here."""
    file = read(inbox().read(carrier().id, name))
    owner = confirmed_owner(file)
    if not TakeInForm().validate_on_submit():
        return redirect(url_for("office.handed_in", name=name), 303)
    lines = take_in_unsent(current.store(), file, owner, carrier(), place())
    inbox().forget(carrier().id, name)
    counts = Counter(line.state for line in lines)
    flash(
        _("Taken in: {new} new, {here} were here already.", new=counts["new"], here=counts["here"]), "success"
    )
    return page(file, owner, lines, None)


def page(file: UnsentFile, owner: Person, lines: list[Line], name: str | None) -> str:
    """``name``: the file still waits for the confirmation."""
    counts = Counter((line.kind, line.state) for line in lines)
    store = current.store()
    return render_template(
        "office/import-file.html",
        file=file,
        owner=owner,
        counts=counts,
        total=Counter(line.state for line in lines),
        kinds=KINDS,
        one_of=ONE_OF,
        states=STATES,
        problems=[line for line in lines if line.code],
        entries={part.key: part.value.get("field") for part in file.of("events")},
        device=store.devices.find(file.device) if file.device else None,
        units=units_of(file),
        name=name,
        form=TakeInForm(),
    )


def units_of(file: UnsentFile) -> dict[str, str]:
    """The unit's name for each visit of the file that is known here or told in the file."""
    store = current.store()
    told = {part.key: part.value.get("unit") for part in file.of("visits")}
    found = {}
    for visit in {part.visit for part in file.parts if part.visit}:
        known = store.visits.find(visit)
        unit = store.units.find(str(known.unit if known else told.get(visit)))
        if unit is not None:
            found[visit] = unit.name
    return found


def read(data: bytes) -> UnsentFile:
    return read_unsent(data, current.store().devices.find)


def confirmed_owner(file: UnsentFile) -> Person:
    try:
        return owner_of(current.store(), file, carrier(), may_carry())
    except NotYours as error:
        raise Problem(403, "forbidden", str(error)) from error


def carrier() -> Person:
    person = current.person()
    assert person is not None  # the right asks for one
    return person


def place() -> Place:
    return Place.of(current.settings().base_url)


def may_carry() -> bool:
    return has_right(carrier(), "countersign")


def inbox() -> Inbox:
    return Inbox(current.store().photos.folder / "handed-in")
