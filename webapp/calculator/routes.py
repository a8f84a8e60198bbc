"""The calculator's pages.

They hold formulas and nothing of a visit, a unit or a person, and what is typed into them is stored nowhere:
so anyone may use them, as anyone may read the procedure. A phone keeps three of them for all formulas: the
list, the empty page of a formula, and the forms that its script puts into that page.
"""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from flask import Blueprint, Response, jsonify, make_response, render_template, request

from checks.catalogue import FORMULAS
from checks.formula import Formula
from checks.working import Line, working
from webapp.calculator import declared, wording
from webapp.calculator.reading import Answer, Reading, answer, read_inputs
from webapp.certificate.working import in_words
from webapp.language import _, language
from webapp.rights import right

FORMULA = "formula"
"""The query's name for the formula; no formula has an input of that name."""

EMPTY: dict[str, Any] = {"reading": Reading(), "answer": Answer(), "lines": [], "typed": {}}


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_app_template_filter(wording.shown_number, "shown_number")
    blueprint.add_app_template_filter(declared.label, "unit_sign")
    blueprint.add_app_template_filter(declared.title, "formula_title")
    blueprint.add_app_template_filter(declared.paragraphs, "paragraphs")
    blueprint.add_app_template_filter(in_words)
    blueprint.add_app_template_filter(declared.capital, "capital_first")
    blueprint.get("")(catalogue)
    blueprint.get("/formula")(formula)
    blueprint.get("/forms.json")(forms)


def page_urls() -> Iterator[str]:
    """Everything here that a phone keeps for work without signal."""
    yield from ("/calculator", "/calculator/formula", "/calculator/forms.json")


@right("anyone")
def catalogue() -> Response:
    words = request.args.get("search", "")
    return page(
        "calculator/catalogue.html", words=words, subjects=declared.found(words), meanings=declared.meanings
    )


@right("anyone")
def formula() -> Response:
    """The form of the formula that the query names, with what the query gives put in and computed."""
    name = request.args.get(FORMULA, "")
    if name not in FORMULAS:
        response = page("calculator/formula.html", title=_("Calculator"), name=name, body=None)
        response.status_code = 404 if name else 200
        return response
    one = FORMULAS[name]
    reading = read_inputs(one, request.args.getlist)
    computed = answer(one, reading, request.args.get("result.unit"))
    lines = lines_of(one, reading) if computed.value is not None else []
    typed = {key: request.args.getlist(key) for key in request.args}
    body = form_of(one, reading=reading, answer=computed, lines=lines, typed=typed)
    return page("calculator/formula.html", title=declared.title(one), name=name, body=body)


@right("anyone")
def forms() -> Response:
    """Every formula's title and empty form, as the page above would hold it."""
    response = jsonify(all_forms())
    response.headers["Cache-Control"] = "no-cache"
    return response


def all_forms() -> dict[str, dict[str, str]]:
    return forms_in(language())


@cache
def forms_in(reader: str) -> dict[str, dict[str, str]]:
    return {
        one.name: {"title": declared.title(one), "html": form_of(one, **EMPTY)} for one in FORMULAS.values()
    }


def form_of(one: Formula, **given: Any) -> str:
    """The form, without the indentation that all of them together would carry to a phone."""
    text = render_template(
        "calculator/form.html",
        formula=one,
        fields=declared.fields(one),
        shared_units=declared.shared_units() if declared.shares_a_unit(one) else (),
        result_units=declared.result_units(one),
        **given,
    )
    return re.sub(r"\n\s+", "\n", text)


def lines_of(one: Formula, reading: Reading) -> list[Line]:
    """The equations with symbols and with numbers."""
    return working(one, reading.values, reading.shared if declared.shares_a_unit(one) else None)


def page(template: str, **values: object) -> Response:
    response = make_response(render_template(template, **values))
    response.headers["Cache-Control"] = "no-cache"  # kept by the service worker; asks again everywhere else
    return response
