"""The forms that all pages build on: what a field says of a wrong value is said in the reader's language."""

from flask_wtf import FlaskForm
from wtforms import Form

from webapp.language import _, ngettext, noop

SENTENCES = {
    "Not a valid choice.": noop("Choose one of what is offered."),
    "Invalid Choice: could not coerce.": noop("Choose one of what is offered."),
    "Not a valid date value.": noop("Enter a day that is in the calendar, like 2026-11-25."),
}
"""What the fields of WTForms say by themselves, and what a reader of ours is told instead."""


class Said:
    """Translations as WTForms asks for them, by our catalogues."""

    def gettext(self, text: str) -> str:
        return _(SENTENCES.get(text, text))

    def ngettext(self, one: str, many: str, count: int) -> str:
        return ngettext(one, many, count)


class Speaking:
    class Meta:
        def get_translations(self, form: object) -> Said:
            return Said()


class OwnForm(Speaking, FlaskForm):
    """A form that changes something, with the token of its session."""


class QueryForm(Speaking, Form):
    """A form whose values stand in the address: a search."""
