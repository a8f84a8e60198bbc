"""What the fields of every form say of a wrong value: in the reader's language, and what to do."""

import pytest
from werkzeug.datastructures import MultiDict
from wtforms import DateField, RadioField, SelectField
from wtforms.fields import SelectChoice

from webapp.accounts.forms import PersonForm
from webapp.forms import SENTENCES, QueryForm
from webapp.office.forms import SearchForm


class Every(QueryForm):
    """Each kind of field of our forms that can refuse a value by itself."""

    day = DateField("Day")
    one = RadioField("One", choices=[SelectChoice("a", "A")])
    other = SelectField("Other", choices=[SelectChoice(1, "A")], coerce=int)


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_field_refuses_in_the_words_of_its_library(app, language):
    with app.test_request_context(f"/?lang={language}"):
        form = Every(MultiDict({"day": "31.2.", "one": "b", "other": "x"}))
        assert not form.validate()
        said = {message for messages in form.errors.values() for message in messages}
    assert len(said) == 2
    assert not any(message in SENTENCES or "Not a valid" in message for message in said)
    assert ("Choose one of what is offered." in said) == (language == "en")


def test_a_day_that_does_not_exist_is_refused_in_german(app):
    with app.test_request_context("/?lang=de"):
        form = SearchForm(MultiDict({"since": "2026-02-31"}), [])
        assert not form.validate()
        assert "Kalender" in form.since.errors[0]


def test_a_role_that_does_not_exist_is_refused_in_german(app):
    with app.test_request_context("/?lang=de", method="POST", data={"role": "emperor"}):
        form = PersonForm(meta={"csrf": False})
        assert not form.validate()
        assert form.role.errors == ["Wählen Sie etwas von dem, was angeboten wird."]
