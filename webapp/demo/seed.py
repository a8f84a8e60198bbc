"""Puts the invented scenario into a store, so that nothing is empty at the first look."""

import tomllib
import uuid
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from checks import procedure as procedures
from checks.units import read_typed
from webapp.demo.visit import commission
from webapp.passwords import hash_password
from webapp.store import Store

SCENARIO = Path(__file__).with_name("scenario.toml")
VISITS = ("accepted", "service", "waiting", "in_work")
"""The files of the visits, in the order in which they were."""
NAMESPACE = uuid.UUID("6f6d2c1e-6a0f-5d1c-9a53-2f1f1f2b7c11")
PROCEDURES = ("commissioning", "service")


@dataclass(frozen=True)
class SignIn:
    """What somebody types to enter the demonstration."""

    login: str
    password: str
    name: str
    role: str


def seed(store: Store, clock: Callable[[], datetime]) -> list[SignIn]:
    """Fill an empty store with the scenario; in a store that has it already nothing changes.

    The visits lie some days before ``clock()``, and the store's own times say so, too.
    """
    scenario = read(SCENARIO)
    sign_ins = [SignIn(one["login"], one["password"], one["name"], one["role"]) for one in scenario["people"]]
    if store.people.by_login(sign_ins[0].login) is None:
        visits = [read(SCENARIO.with_name(f"visit_{name}.toml")) for name in VISITS]
        starts = [start_of(visit, clock()) for visit in visits]
        moment = Moment(min(starts) - timedelta(days=1))
        past = Store(store.connection.path, moment.now, store.photos.folder)
        try:
            fill(past, scenario, clock().date())
            for visit, started in zip(visits, starts, strict=True):
                commission(past, visit, started, moment, key_of)
        finally:
            past.close()
    return sign_ins


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


class Moment:
    """A clock that stands where it is put."""

    def __init__(self, at: datetime):
        self.at = at

    def now(self) -> datetime:
        return self.at


def start_of(visit: dict[str, Any], now: datetime) -> datetime:
    day = now - timedelta(days=visit["days_ago"])
    return day.replace(hour=visit["hour"], minute=0, second=0, microsecond=0)


def key_of(noun: str, key: str) -> str:
    """The same id for the same thing at every seeding."""
    return str(uuid.uuid5(NAMESPACE, f"{noun}/{key}"))


def fill(store: Store, scenario: dict[str, Any], today: date) -> None:
    """People, sites, units and instruments."""
    document = procedures.load(PROCEDURES[0])
    with store.transaction():
        for name in PROCEDURES:
            store.procedures.keep(procedures.load(name), procedures.canonical_text(name))
        for one in scenario["people"]:
            key = key_of("person", one["key"])
            store.people.add(one["login"], one["name"], one["role"], hash_password(one["password"]), id=key)
        for one in scenario["sites"]:
            values = cells(one["values"], document["site"])
            store.sites.add(one["name"], one["address"], values, id=key_of("site", one["key"]))
        for one in scenario["units"]:
            plate, site = cells(one["plate"], document["plate"]), key_of("site", one["site"])
            store.units.add(one["name"], one["serial"], site, plate, id=key_of("unit", one["key"]))
        for one in scenario["instruments"]:
            store.instruments.add(id=key_of("instrument", one["key"]), **instrument(one, today))


def cells(values: dict[str, Any], entries: list[dict[str, Any]]) -> dict[str, dict[str, Any]]:
    """Cells as a form would have made them; a name that the procedure does not know is a KeyError."""
    known = {entry["id"]: entry for entry in entries}
    return {name: cell(value, known[name]) for name, value in values.items()}


def cell(value: Any, entry: dict[str, Any]) -> dict[str, Any]:
    if entry["kind"] != "reading":
        return {"value": value}
    typed = str(value)
    read = read_typed(typed, entry["unit"], entry["units"])
    if read.value is None:
        raise ValueError(f"{entry['id']}: {typed!r} cannot be read: {read.problem}")
    return {"typed": typed, "unit": read.unit, "value": read.value}


def instrument(one: dict[str, Any], today: date) -> dict[str, Any]:
    values = {name: value for name, value in one.items() if name not in {"key", "calibration_days"}}
    return {**values, "calibration_due": (today + timedelta(days=one["calibration_days"])).isoformat()}
