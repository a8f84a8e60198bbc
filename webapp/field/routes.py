"""The pages of a visit, in the order in which an installer meets them.

They hold the procedure's text and nothing of a visit or a person: the visit is named by the query, and its
values are put in by script from what the phone has stored. So anyone may fetch them, and each has the same
bytes every time.
"""

from collections.abc import Iterator
from typing import Any

from flask import Blueprint, Response, abort, jsonify, make_response, render_template, request

from webapp import current
from webapp.field.forms import SignatureForm, plate_form, step_form
from webapp.field.modules import needs_of
from webapp.field.published import Published, in_language, present, published
from webapp.language import _, language
from webapp.rights import right


def add_to(blueprint: Blueprint) -> None:
    blueprint.get("")(home)
    blueprint.get("/", endpoint="home_with_slash")(home)
    blueprint.get("/visit")(visit)
    blueprint.get("/kit")(kit)
    blueprint.get("/waiting")(waiting)
    blueprint.get("/attention")(attention)
    blueprint.get("/offline")(offline)
    blueprint.get("/<string:slug>/review")(review)
    blueprint.get("/<string:slug>/plate")(plate)
    blueprint.get("/<string:slug>/procedure.json")(procedure_document)
    blueprint.get("/<string:slug>/<string:name>")(step)


@right("anyone")
def home() -> Response:
    return page("field/home.html", procedures=[in_language(one, language()) for one in present().values()])


@right("anyone")
def visit() -> Response:
    return page("field/visit.html")


@right("anyone")
def kit() -> Response:
    return page("field/kit.html")


@right("anyone")
def step(slug: str, name: str) -> Response:
    procedure = find(slug)
    found = procedure.step(name)
    if found is None:
        abort(404)
    before, after = procedure.neighbours(name)
    return page(
        "field/step.html",
        slug=slug,
        step=found,
        stage=procedure.stage_of(name),
        titles={other["id"]: other["title"] for other in procedure.in_order},
        cautions=procedure.document["cautions"],
        known_cautions=procedure.cautions_before(name),
        needs=needs_of(found),
        form=step_form(found)(request.args),
        derived=derived_names(found),
        loose_rules=rules_beside_no_entry(found),
        before=before,
        after=after,
    )


@right("anyone")
def review(slug: str) -> Response:
    return page("field/review.html", slug=slug, procedure=find(slug), form=SignatureForm(formdata=None))


@right("anyone")
def plate(slug: str) -> Response:
    document = find(slug).document
    owners = [
        {"id": owner, "title": title, "groups": groups_of(document[owner])}
        for owner, title in (("plate", _("Data plate")), ("site", _("Site")))
    ]
    form = plate_form(document)(formdata=None)
    return page("field/plate.html", slug=slug, owners=owners, form=form)


@right("anyone")
def waiting() -> Response:
    return page("field/waiting.html")


@right("anyone")
def attention() -> Response:
    return page("field/attention.html")


@right("anyone")
def offline() -> Response:
    return page("field/offline.html")


@right("anyone")
def procedure_document(slug: str) -> Response:
    procedure = find(slug)
    response = jsonify(procedure.document | {"hash": procedure.sha256})
    response.set_etag(procedure.sha256)
    response.headers["Cache-Control"] = "no-cache"
    response.make_conditional(request)
    return response


def find(slug: str) -> Published:
    found = present().get(slug) or published(current.store()).get(slug)
    if found is None:
        abort(404)
    return in_language(found, language())


def rules_beside_no_entry(found: dict[str, Any]) -> list[dict[str, Any]]:
    """The rules that judge something computed or several entries: they are shown below the entries."""
    entries = {f"{found['id']}.{entry['id']}" for entry in found["entries"]}
    return [rule for rule in found["rules"] if not {rule["reading"], rule["entry"]} & entries]


def groups_of(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The entries under the headings that the procedure gives them, in its order."""
    found: dict[str, list[dict[str, Any]]] = {}
    for entry in entries:
        found.setdefault(entry["group"] or _("More values"), []).append(entry)
    return [{"title": title, "entries": grouped} for title, grouped in found.items()]


def derived_names(found: dict[str, Any]) -> list[dict[str, Any]]:
    """One row for each quantity that is computed, although several ways to it may stand in the procedure.

    A fixed number has no row: it shows as the limit that it is.
    """
    by_name: dict[str, dict[str, Any]] = {}
    for quantity in found["derived"]:
        if not is_fixed(quantity):
            by_name.setdefault(quantity["id"], quantity)
    return list(by_name.values())


def is_fixed(quantity: dict[str, Any]) -> bool:
    given = quantity["inputs"].get("value")
    return quantity["formula"] is None and isinstance(given, dict) and "value" in given


def page(template: str, **values: object) -> Response:
    response = make_response(render_template(template, **values))
    response.headers["Cache-Control"] = "no-cache"  # kept by the service worker; asks again everywhere else
    return response


def page_urls() -> Iterator[str]:
    """Everything here that a phone keeps for work without signal."""
    yield from addresses(published(current.store()))


def addresses(procedures: dict[str, Published]) -> Iterator[str]:
    yield from ("/field", "/field/", "/field/visit", "/field/kit")
    yield from ("/field/waiting", "/field/attention", "/field/offline")
    for slug, procedure in procedures.items():
        yield f"/field/{slug}/procedure.json"
        yield f"/field/{slug}/review"
        yield f"/field/{slug}/plate"
        for found in procedure.in_order:
            yield f"/field/{slug}/{found['id']}"
