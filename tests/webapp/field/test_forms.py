"""The form of a step is the procedure's step, entry by entry."""

import pytest
from werkzeug.datastructures import MultiDict

from checks import procedure
from webapp.field.fields import FIELDS
from webapp.field.forms import field_name, step_form


def an_entry(**changes):
    entry = {
        "id": "pressure",
        "kind": "reading",
        "label": "Opening pressure",
        "hint": "At the gauge",
        "unit": "bar",
        "units": ["bar", "kPa"],
        "instrument": "pressure_gauge",
        "minimum": 0,
        "maximum": 25,
        "required": True,
        "options": [],
    }
    return entry | changes


def form_of(app, *entries, typed=None):
    with app.test_request_context():
        return step_form({"entries": list(entries)})(MultiDict(typed or {}))


def test_there_is_a_field_class_for_every_kind_of_entry():
    assert set(FIELDS) == set(procedure.model.ENTRY_KINDS)


def test_the_fields_stand_in_the_order_of_the_procedure(app):
    form = form_of(app, an_entry(id="second"), an_entry(id="first"))
    assert [field.name for field in form] == ["entry_second", "entry_first"]


@pytest.mark.parametrize("name", ["data", "errors", "meta", "validate"])
def test_an_entry_may_be_called_what_a_form_calls_its_own_parts(app, name):
    form = form_of(app, an_entry(id=name))
    assert form[field_name(name)].label.text == "Opening pressure"
    assert form.validate() is True


@pytest.mark.parametrize("typed", ["3,4", "about 3", "1e5", " 2.5 bar "])
def test_a_reading_shows_again_exactly_what_was_typed(app, typed):
    form = form_of(app, an_entry(), typed={"entry_pressure": typed})
    assert form.entry_pressure._value() == typed


def test_an_empty_reading_stays_empty(app):
    assert form_of(app, an_entry()).entry_pressure._value() == ""


def test_a_reading_is_a_text_input_that_opens_the_number_keypad(app):
    html = form_of(app, an_entry()).entry_pressure()
    assert 'type="text"' in html
    assert 'inputmode="decimal"' in html
    assert 'autocomplete="off"' in html


def test_a_reading_that_may_be_negative_opens_a_keypad_with_a_minus(app):
    assert "inputmode" not in form_of(app, an_entry(minimum=-20)).entry_pressure()


def test_yes_and_no_are_offered_as_two_rows(app):
    form = form_of(app, an_entry(kind="yes_no"))
    assert [option.label.text for option in form.entry_pressure] == ["Yes", "No"]


def test_a_choice_offers_what_the_procedure_lists(app):
    options = [{"value": 1, "label": "Solid"}, {"value": 5, "label": "Flexible"}]
    form = form_of(app, an_entry(kind="choice", options=options), typed={"entry_pressure": "5"})
    assert [(option.label.text, option.checked) for option in form.entry_pressure] == [
        ("Solid", False),
        ("Flexible", True),
    ]


def test_a_photo_asks_for_the_camera(app):
    html = form_of(app, an_entry(kind="photo")).entry_pressure()
    assert 'capture="environment"' in html
    assert 'accept="image/*"' in html


def test_the_forms_carry_no_token(app):
    assert "csrf_token" not in form_of(app, an_entry())
