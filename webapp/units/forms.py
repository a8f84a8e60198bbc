"""The forms of sites, units and instruments; plate and site fields are built from the procedure."""

import json
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from datetime import date
from typing import Any

from wtforms import BooleanField, SelectField, StringField, TextAreaField, ValidationError

from checks.entries import fits
from checks.units import unit_named
from webapp.certificate.wording import describe
from webapp.forms import OwnForm
from webapp.language import _, lazy, noop
from webapp.units.fields import Cell, DayField, Entry, Presence, QuantityField, field_for, options_of

PROCEDURE = "commissioning"  # its plate and site entries are those of every unit and site
PER_CENT = ("accuracy_of_reading", "accuracy_of_range")
NUMBERS = ("digits", "resolution", "calibration_uncertainty")
ENDS = ("range_minimum", "range_maximum")
PREFIX = "entry_"  # an entry may be called what a form calls its own parts ("data", "errors")


def wanted(name: str, label: str) -> Presence:
    """The check of a text that must not be empty."""
    return Presence({"id": name, "label": label, "kind": "text"}, required=True)


@dataclass
class Group:
    """Fields under one heading, each with the conditions under which it is of use."""

    title: str
    rows: list[tuple[Any, str]] = dataclass_field(default_factory=list)

    def add(self, field: Any, conditions: str) -> None:
        self.rows.append((field, conditions))

    @property
    def filled(self) -> int:
        return sum(field.data not in (None, "", "None") for field, _ in self.rows)

    @property
    def has_errors(self) -> bool:
        return any(field.errors for field, _ in self.rows)


class EntriesForm(OwnForm):
    """A form that ends in the entries of a plate or a site. ``owner`` is `plate` or `site`."""

    owner = ""
    entries: tuple[Entry, ...] = ()

    def cell(self, name: str) -> Cell | None:
        """The cell that the field of an entry holds, None while it is empty."""
        entry = next(one for one in self.entries if one["id"] == name)
        field = self[PREFIX + name]
        if isinstance(field, QuantityField):
            return field.data
        if field.data in (None, "", "None"):
            return None
        return {"value": spoken_value(entry, field.data)}

    def cells(self) -> dict[str, Cell]:
        """Every entry that was filled in, by name."""
        found = {entry["id"]: self.cell(entry["id"]) for entry in self.entries}
        return {name: cell for name, cell in found.items() if cell is not None}

    def groups(self) -> list[Group]:
        """The fields of the entries under their headings, in the procedure's order."""
        found: dict[str, Group] = {}
        for entry in self.entries:
            title = entry.get("group") or ""
            found.setdefault(title, Group(title)).add(self[PREFIX + entry["id"]], self.conditions(entry))
        return list(found.values())

    def conditions(self, entry: Entry) -> str:
        """Under which answers of this form the entry is of use, for the page's script; empty without any."""
        own = [one for one in entry.get("when") or () if one["quantity"].startswith(f"{self.owner}.")]
        named = [{"field": PREFIX + one["quantity"].partition(".")[2], "is": one["is"]} for one in own]
        return json.dumps(named) if named else ""


def spoken_value(entry: Entry, data: Any) -> Any:
    """A choice as the procedure writes it, a date as text."""
    if entry["kind"] in {"choice", "yes_no"}:
        return {str(option["value"]): option["value"] for option in options_of(entry)}[data]
    return data.isoformat() if entry["kind"] == "date" else data


class SiteForm(EntriesForm):
    owner = "site"
    name = StringField(lazy("Name of the site"), validators=[wanted("name", noop("Name of the site"))])
    address = TextAreaField(
        lazy("Address"), description=lazy("Where the installer has to go."), render_kw={"rows": 3}
    )


class UnitForm(EntriesForm):
    owner = "plate"
    name = StringField(
        lazy("Name of the unit"),
        description=lazy("What people there call it."),
        validators=[wanted("name", noop("Name of the unit"))],
    )
    serial = StringField(lazy("Serial number"), validators=[wanted("serial", noop("Serial number"))])
    site = SelectField(lazy("Site"))


def form_class(base: type[EntriesForm], entries: list[Entry]) -> type[EntriesForm]:
    """``base`` with one field per entry, in the procedure's order.

    An entry with a default may stay empty: the default holds then, and the hint says so.
    """
    labels = {f"{base.owner}.{one['id']}": one for one in entries}
    fields = {PREFIX + one["id"]: field_for(hinted(one, labels), wanted=is_wanted(one)) for one in entries}
    return type(base.__name__, (base,), {**fields, "entries": tuple(entries)})


def is_wanted(entry: Entry) -> bool:
    """Whether limits cannot be computed while the entry is empty."""
    return bool(entry["required"]) and entry["default"] is None


def lacking(owner: str, cells: dict[str, Cell], entries: list[Entry]) -> list[str]:
    """The labels of what is wanted and not given; what is of no use here is not wanted."""
    values = {f"{owner}.{one['id']}": one["default"] for one in entries}
    values |= {f"{owner}.{name}": cell.get("value") for name, cell in cells.items()}
    return [
        one["label"]
        for one in entries
        if is_wanted(one)
        and one["id"] not in cells
        and all(may_hold(condition, owner, values) for condition in one["when"] or ())
    ]


def may_hold(condition: dict[str, Any], owner: str, values: dict[str, Any]) -> bool:
    """Whether a condition holds, as far as the values say; what is asked elsewhere may hold."""
    if not condition["quantity"].startswith(f"{owner}."):
        return True
    return fits(condition, values.get(condition["quantity"]))


def hinted(entry: Entry, known: dict[str, Entry]) -> Entry:
    """The entry with a hint that also says when it exists and what holds while it is empty."""
    parts = [entry["hint"]]
    parts += [
        only_where(one, known[one["quantity"]]) for one in entry["when"] or () if one["quantity"] in known
    ]
    if entry["default"] is not None:
        parts.append(_("Left empty: {value}.", value=spoken(entry, entry["default"])))
    return {**entry, "hint": " ".join(filter(None, parts))}


def only_where(condition: dict[str, Any], other: Entry) -> str:
    if condition["given"]:
        return _("Only where “{other}” is given.", other=other["label"])
    return _(
        "Only where “{other}” is: {values}.",
        other=other["label"],
        values=", ".join(spoken(other, one) for one in condition["is"]),
    )


def spoken(entry: Entry, value: Any) -> str:
    return describe(entry, {"value": value})


def data_of(cells: dict[str, Cell], entries: list[Entry]) -> dict[str, Any]:
    """What the fields show for the cells that are stored."""
    return {PREFIX + one["id"]: shown(one, cells[one["id"]]) for one in entries if one["id"] in cells}


def shown(entry: Entry, cell: Cell) -> Any:
    if entry["kind"] == "reading":
        return {"typed": str(cell["value"]), "unit": entry["unit"], **cell}
    return date.fromisoformat(cell["value"]) if entry["kind"] == "date" else str(cell["value"])


class Number(QuantityField):
    """A number of an instrument. ``data`` is a cell; empty is None."""

    def __init__(self, label: Any, unit: str | None = None, minimum: float | None = None, **arguments: Any):
        entry: Entry = {"label": label, "unit": unit, "units": [], "minimum": minimum, "maximum": None}
        super().__init__(label, entry=entry, **arguments)

    @property
    def value(self) -> float | None:
        return self.data["value"] if self.data else None


class InstrumentForm(OwnForm):
    """Numbers are in the instrument's unit, except those in per cent."""

    kind = SelectField(lazy("Kind"))
    name = StringField(
        lazy("Name"),
        description=lazy("How people tell it from others."),
        validators=[wanted("name", noop("Name of the instrument"))],
    )
    serial = StringField(lazy("Serial number"), validators=[wanted("serial", noop("Serial number"))])
    calibration_due = DayField(
        lazy("Calibration due"), description=lazy("Empty: it has no calibration on record.")
    )
    unit = StringField(
        lazy("Unit"),
        description=lazy("For example bar, ohm, uS/cm."),
        validators=[wanted("unit", noop("Unit"))],
    )
    range_minimum = Number(lazy("Range from"))
    range_maximum = Number(lazy("Range to"))
    accuracy_of_reading = Number(lazy("Accuracy, per cent of reading"), "percent", minimum=0)
    accuracy_of_range = Number(lazy("Accuracy, per cent of range"), "percent", minimum=0)
    digits = Number(lazy("Accuracy, digits"), minimum=0)
    resolution = Number(lazy("Resolution"), minimum=0)
    calibration_uncertainty = Number(
        lazy("Uncertainty of the calibration"),
        description=lazy("U at k = 2 from its certificate."),
        minimum=0,
    )
    active = BooleanField(lazy("In use"), default=True)

    def validate_unit(self, field: StringField) -> None:
        if unit_named(field.data) is None:
            raise ValidationError(
                _("“{data}” is not a known unit. Write it like bar, ohm or uS/cm.", data=field.data)
            )

    def validate_range_maximum(self, field: Number) -> None:
        low, high = self.range_minimum.value, field.value
        if low is not None and high is not None and high <= low:
            raise ValidationError(_("“Range to” must be greater than “Range from”."))

    def values(self) -> dict[str, Any]:
        """The fields of an instrument as the store keeps them."""
        due = self.calibration_due.data
        return {
            **{name: self[name].data.strip() for name in ("kind", "name", "serial")},
            **{name: (self[name].value or 0) / 100 for name in PER_CENT},
            **{name: self[name].value or 0 for name in NUMBERS},
            **{name: self[name].value for name in ENDS},
            "unit": unit_named(self.unit.data),
            "calibration_due": due.isoformat() if due else None,
            "active": self.active.data,
        }
