"""Form fields for the entries of a data plate or a site: one class per kind, what was typed comes back."""

from typing import Any

from markupsafe import Markup
from wtforms import DateField, Field, RadioField, StringField, validators
from wtforms.fields.choices import SelectChoice
from wtforms.widgets import html_params

from checks.units import read_typed
from webapp.certificate.figures import rounded, symbol
from webapp.language import _, noop, say, sentence

Cell = dict[str, Any]
Entry = dict[str, Any]


class WithUnit:
    """A text input for a number, and the choice of its unit where there is one."""

    def __call__(self, field: "QuantityField", **arguments: Any) -> Markup:
        typed = (field.data or {}).get("typed", "")
        keys = {"name": field.name, "id": field.id, "value": typed, "type": "text", "autocomplete": "off"}
        attributes = html_params(inputmode="decimal", **keys, **arguments)  # escapes what was typed
        return Markup('<div class="with-unit"><input {}>{}</div>').format(
            Markup(attributes),  # noqa: S704
            self.unit(field),
        )

    def unit(self, field: "QuantityField") -> Markup:
        units = field.entry["units"] or [field.entry["unit"]]
        chosen = (field.data or {}).get("unit") or field.entry["unit"]
        if len(units) == 1:
            return Markup('<span class="unit">{}</span>').format(symbol(units[0] or ""))
        options = Markup("").join(
            Markup('<option value="{}"{}>{}</option>').format(
                unit, Markup(" selected") if unit == chosen else "", symbol(unit)
            )
            for unit in units
        )
        name = Markup('name="{}" aria-label="{}"').format(
            field.name, _("Unit of {label}", label=field.label.text)
        )
        return Markup("<select {}>{}</select>").format(name, options)


class QuantityField(Field):
    """A number as typed, read by the same rules as on the phone. ``data`` is a cell, None when empty."""

    widget = WithUnit()

    def __init__(self, label: str, *, entry: Entry, **arguments: Any):
        super().__init__(label, **arguments)
        self.entry = entry
        self.data: Cell | None

    def process_formdata(self, values: list[str]) -> None:
        typed = values[0].strip() if values else ""
        unit = values[1] if len(values) > 1 and values[1] in self.entry["units"] else self.entry["unit"]
        self.data = {"typed": typed, "unit": unit, "value": None} if typed else None

    def pre_validate(self, form: Any) -> None:
        if self.data is None:
            return
        value = read_value(self.data, self.entry)
        self.data["value"] = value
        refuse_impossible(value, self.entry)


def read_value(cell: Cell, entry: Entry) -> float:
    """The typed number in the entry's own unit; a ValidationError says how to write it."""
    own = entry["unit"] or "1"
    read = read_typed(cell["typed"], own, entry["units"] or [own], cell["unit"])
    if read.value is None:
        raise validators.ValidationError(f"{entry['label']}: {sentence(read.problem or 'not_a_number')}")
    cell["unit"] = read.unit
    return read.value


def refuse_impossible(value: float, entry: Entry) -> None:
    """What is physically impossible was mistyped, or typed in another unit."""
    unit = symbol(entry["unit"] or "")
    for end, outside, text in (
        ("minimum", value.__lt__, noop("{label} must be at least {limit}. Check number and unit.")),
        ("maximum", value.__gt__, noop("{label} must be at most {limit}. Check number and unit.")),
    ):
        if entry[end] is not None and outside(entry[end]):
            limit = f"{rounded(entry[end])} {unit}".strip()
            raise validators.ValidationError(_(text, label=entry["label"], limit=limit))


class ChoiceField(RadioField):
    """One of the options of the procedure; ``data`` is a cell."""

    def __init__(self, label: str, *, entry: Entry, **arguments: Any):
        self.values = {str(option["value"]): option["value"] for option in options_of(entry)}
        choices = [SelectChoice(str(option["value"]), option["label"]) for option in options_of(entry)]
        super().__init__(label, choices=choices, coerce=str, validate_choice=True, **arguments)
        self.type = "RadioField"  # by this word the page draws it


def options_of(entry: Entry) -> list[dict[str, Any]]:
    if entry["kind"] == "yes_no":
        return [{"value": "yes", "label": _("Yes")}, {"value": "no", "label": _("No")}]
    return entry["options"]


class DayField(DateField):
    """A date. What cannot be read as one is said in the field's own words."""

    def process_formdata(self, values: list[str]) -> None:
        if not any(values):
            self.data = None
            return
        try:
            super().process_formdata(values)
        except ValueError:
            raise ValueError(_("{label} must be a date, like 2027-03-31.", label=self.label.text)) from None


def field_for(entry: Entry, wanted: bool) -> Field:
    """The unbound form field of one entry; what is ``wanted`` may still be given later."""
    arguments: dict[str, Any] = {
        "description": entry["hint"],
        "validators": [Presence(entry, required=False)],
    }
    label = entry["label"] if wanted else _("{label} (optional)", label=entry["label"])
    if entry["kind"] == "reading":
        return QuantityField(label, entry=entry, **arguments)
    if entry["kind"] in {"choice", "yes_no"}:
        return ChoiceField(label, entry=entry, **arguments)
    if entry["kind"] == "date":
        return DayField(label, **arguments)
    return StringField(label, **arguments)


class Presence:
    """Asks for the entry by its label, or ends the checks of an entry that may stay empty."""

    def __init__(self, entry: Entry, required: bool):
        self.entry = entry
        self.required = required

    def __call__(self, form: Any, field: Field) -> None:
        empty = field.data is None or (isinstance(field.data, str) and field.data.strip() in {"", "None"})
        if not empty:
            return
        field.errors = []
        if self.required:
            text = noop("Choose: {label}.") if isinstance(field, ChoiceField) else noop("Enter: {label}.")
            raise validators.StopValidation(_(text, label=say(self.entry["label"])))
        raise validators.StopValidation
