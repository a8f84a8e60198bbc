"""Sites, the units that stand there, and the instruments that measure them."""

import json
import sqlite3
from dataclasses import asdict, dataclass, replace
from typing import Any

from webapp.store import short_code
from webapp.store.errors import Taken
from webapp.store.lists import ONE_MORE
from webapp.store.table import Table, new_id, public_token
from webapp.store.words import refresh_words


@dataclass(frozen=True)
class Site:
    """``values`` maps the names of the site's entries (without ``site.``) to cells."""

    id: str
    name: str
    address: str
    values: dict[str, Any]

    @property
    def place(self) -> str:
        """Where it stands in the list of sites."""
        return f"{self.name}~{self.id}"


@dataclass(frozen=True)
class Unit:
    """``plate`` maps the names of the plate's entries (without ``plate.``) to cells.

    ``token`` is the unguessable part of the label's address, ``short_code`` what a person can type instead;
    ``previous`` is the identity of the last accepted record.
    """

    id: str
    name: str
    serial: str
    site: str
    plate: dict[str, Any]
    token: str
    short_code: str
    previous: str | None = None


@dataclass(frozen=True)
class RetiredLabel:
    """A label that was replaced: its token, and since when it is no longer the unit's."""

    token: str
    unit: str
    retired_at: str


@dataclass(frozen=True)
class Instrument:
    """The numbers are in ``unit``; the two accuracies are fractions, ``digits`` counts resolutions."""

    id: str
    kind: str
    name: str
    serial: str
    calibration_due: str | None
    unit: str
    range_minimum: float | None
    range_maximum: float | None
    accuracy_of_reading: float = 0
    accuracy_of_range: float = 0
    digits: float = 0
    resolution: float = 0
    calibration_uncertainty: float = 0
    active: bool = True

    @property
    def place(self) -> str:
        """Where it stands among those whose calibration is overdue."""
        return f"{self.calibration_due}~{self.id}"

    def as_json(self) -> dict[str, Any]:
        """As it stands in a case and in a record."""
        return {name: value for name, value in asdict(self).items() if name != "active"}


class Sites(Table[Site]):
    noun = "site"
    name = "sites"
    made = Site

    def thing(self, row: dict) -> Site:
        return super().thing({**row, "values": json.loads(row["values"])})

    def add(
        self,
        name: str,
        address: str,
        values: dict,
        id: str | None = None,  # noqa: A002
    ) -> Site:
        site = Site(id or new_id(), name, address, values)
        with self.connection.write() as db:
            db.table("sites").insert({**asdict(site), "values": json.dumps(values)})
        return site

    def change(self, site: str, *, name: str, address: str, values: dict) -> Site:
        self.get(site)
        with self.connection.write() as db:
            db.table("sites").update(site, {"name": name, "address": address, "values": json.dumps(values)})
            refresh_words(db, "s.id = ?", [site])
        return self.get(site)

    def page(self, after: str = "", limit: int = ONE_MORE) -> list[Site]:
        """Sites by name; ``after`` is the place of the last one of the page before this one."""
        name, _, key = after.rpartition("~")
        return self.select("(name, id) > (?, ?)", [name, key], f"name, id limit {int(limit)}")

    def all(self) -> list[Site]:
        return self.select(order="name")


class Units(Table[Unit]):
    noun = "unit"
    name = "known_units"
    made = Unit

    def thing(self, row: dict) -> Unit:
        return super().thing({**row, "plate": json.loads(row["plate"])})

    def add(
        self,
        name: str,
        serial: str,
        site: str,
        plate: dict,
        id: str | None = None,  # noqa: A002
    ) -> Unit:
        """A new unit with a public token and a short code of its own."""
        unit = Unit(id or new_id(), name, serial, site, plate, public_token(), short_code.make())
        row = asdict(unit)
        row.pop("previous")
        with self.connection.write() as db:
            if self.select("serial = ?", [serial], order="name"):
                raise Taken("unit", "serial number", serial)
            db.table("units").insert({**row, "plate": json.dumps(plate)})
            refresh_words(db, "u.id = ?", [unit.id])
        return unit

    def change(self, unit: str, *, name: str, serial: str, site: str, plate: dict) -> Unit:
        self.get(unit)
        values = {"name": name, "serial": serial, "site": site, "plate": json.dumps(plate)}
        try:
            with self.connection.write() as db:
                db.table("units").update(unit, values)
                refresh_words(db, "u.id = ?", [unit])
        except sqlite3.IntegrityError as error:
            if "units.serial" not in str(error):
                raise
            raise Taken("unit", "serial number", serial) from error
        return self.get(unit)

    def new_token(self, unit: str) -> Unit:
        """Replace the public token; the old one is kept, so that its label can say that it was replaced."""
        with self.connection.write() as db:
            before = self.get(unit)
            retired = RetiredLabel(before.token, unit, self.now())
            db.table("retired_labels").insert(asdict(retired))
            db.table("units").update(unit, {"token": public_token()})
        return self.get(unit)

    def retired_label(self, token: str) -> RetiredLabel | None:
        """The label with this token, if it was replaced."""
        rows = self.read().query("select * from retired_labels where token = ?", [token])
        return next((RetiredLabel(**row) for row in rows), None)

    def replaced_on(self, unit: str) -> str | None:
        """When the unit's label was last replaced."""
        sql = "select max(retired_at) as at from retired_labels where unit = ?"
        return next(self.read().query(sql, [unit]))["at"]

    def by_token(self, token: str) -> Unit | None:
        found = self.select("token = ?", [token], order="name")
        return found[0] if found else None

    def by_short_code(self, typed: str) -> Unit | None:
        """The unit whose code was typed, with or without spaces, hyphens and capitals."""
        found = self.select("short_code = ?", [short_code.tidy(typed)], order="name")
        return found[0] if found else None

    def find(self, key: str) -> Unit | None:
        found = self.select("id = ?", [key], order="name")
        return found[0] if found else None

    def all(self) -> list[Unit]:
        return self.select(order="name")


class Instruments(Table[Instrument]):
    noun = "instrument"
    name = "instruments"
    made = Instrument

    def thing(self, row: dict) -> Instrument:
        return super().thing({**row, "active": bool(row["active"])})

    def add(self, *, id: str | None = None, **values: Any) -> Instrument:  # noqa: A002
        """``values`` are the fields of :class:`Instrument`."""
        instrument = Instrument(id=id or new_id(), **values)
        with self.connection.write() as db:
            db.table("instruments").insert({**asdict(instrument), "active": int(instrument.active)})
        return instrument

    def change(self, instrument: str, **values: Any) -> Instrument:
        changed = replace(self.get(instrument), **values)
        with self.connection.write() as db:
            db.table("instruments").update(instrument, {**asdict(changed), "active": int(changed.active)})
        return changed

    def overdue(self, today: str, after: str = "", limit: int = ONE_MORE) -> list[Instrument]:
        """Those in use whose calibration ended before ``today``, the longest overdue first."""
        due, _, key = after.rpartition("~")
        return self.select(
            "active and calibration_due < ? and (calibration_due, id) > (?, ?)",
            [today, due, key],
            f"calibration_due, id limit {int(limit)}",
        )

    def all(self) -> list[Instrument]:
        return self.select(order="kind, name")
