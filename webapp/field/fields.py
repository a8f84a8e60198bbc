"""One field class per kind of entry. Each shows again what was typed; reading it is the phone's work."""

from wtforms import DateField, FileField, RadioField, SelectChoice, StringField, TextAreaField
from wtforms.fields.core import Field

from webapp.language import _

Entry = dict

TYPED = {"autocomplete": "off", "spellcheck": "false", "autocapitalize": "off"}


class EntryMixin:
    """What every field knows: its ``entry`` of the procedure, and the template block that draws it."""

    block = "plain"

    def __init__(self, entry: Entry, **options: object):
        options.setdefault("render_kw", {"autocomplete": "off"})
        super().__init__(entry["label"], description=entry.get("hint") or "", **options)  # type: ignore[call-arg]
        self.entry = entry


class ReadingField(EntryMixin, StringField):
    """A number with its unit and instrument. Text: a number input loses what it cannot read ("3,4")."""

    block = "reading"

    def __init__(self, entry: Entry, **options: object):
        # Some decimal keypads have no minus.
        keyboard = {} if (entry.get("minimum") or 0) < 0 else {"inputmode": "decimal"}
        super().__init__(entry, render_kw=TYPED | keyboard | {"enterkeyhint": "next"}, **options)


class SeriesField(ReadingField):
    """Readings that repeat: one input for the next, a list of those taken."""

    block = "series"


class ChoiceField(EntryMixin, RadioField):
    """One of a few words, each a row that a wet thumb finds."""

    block = "choice"

    def __init__(self, entry: Entry, **options: object):
        choices = [SelectChoice(str(option["value"]), option["label"]) for option in self.options(entry)]
        super().__init__(entry, choices=choices, validate_choice=False, **options)

    def options(self, entry: Entry) -> list[dict]:
        return entry["options"]


class YesNoField(ChoiceField):
    def options(self, entry: Entry) -> list[dict]:
        return [{"value": "yes", "label": _("Yes")}, {"value": "no", "label": _("No")}]


class WordsField(EntryMixin, TextAreaField):
    """Words in a person's own language; spelling help is welcome here."""

    def __init__(self, entry: Entry, **options: object):
        super().__init__(entry, render_kw={"autocomplete": "off", "rows": 2}, **options)


class DayField(EntryMixin, DateField):
    """A day without a time."""


class InstantField(EntryMixin, StringField):
    """A moment: taken with one touch, or typed later. Shown in the phone's own time zone."""

    block = "instant"

    def __init__(self, entry: Entry, **options: object):
        render = {"autocomplete": "off", "type": "datetime-local", "step": "1"}
        super().__init__(entry, render_kw=render, **options)


class PhotoField(EntryMixin, FileField):
    """One picture from the phone's camera."""

    block = "photo"

    def __init__(self, entry: Entry, **options: object):
        super().__init__(entry, render_kw={"accept": "image/*", "capture": "environment"}, **options)


class DrawingField(EntryMixin, StringField):
    """A signature on the glass. Its input is the name; the rest of it is the phone's own."""

    block = "drawing"

    def __init__(self, entry: Entry, **options: object):
        super().__init__(entry, render_kw={"autocomplete": "off", "autocapitalize": "words"}, **options)


FIELDS: dict[str, type[Field]] = {
    "reading": ReadingField,
    "series": SeriesField,
    "choice": ChoiceField,
    "yes_no": YesNoField,
    "text": WordsField,
    "date": DayField,
    "instant": InstantField,
    "photo": PhotoField,
    "drawing": DrawingField,
}
