"""Procedures by their hash, and the visits that follow them."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from webapp.signing.canonical import canonical, digest
from webapp.store.connection import Connection
from webapp.store.errors import Taken
from webapp.store.table import Clock, Table, written

BEGUN_LATELY = timedelta(days=180)
MOST_SHARED = 16
OPEN = "t.state <> 'accepted' and t.state <> 'signed'"  # in this form it goes by the index of the unfinished


@dataclass(frozen=True)
class KeptProcedure:
    """A procedure as it was; records of years ago are judged again by it."""

    hash: str
    id: str
    version: int
    json: str

    def content(self) -> dict[str, Any]:
        return json.loads(self.json)


@dataclass(frozen=True)
class Visit:
    """``state`` is draft, signed, accepted, returned or quarantined; ``record`` the last one signed.

    ``procedure`` is ``{id, version, hash}``, ``returned`` None or ``{reasons, by, at}``.
    """

    id: str
    unit: str
    kind: str
    procedure: dict[str, Any]
    state: str
    started_at: str
    started_by: str
    record: str | None
    returned: dict[str, str] | None

    @property
    def is_open(self) -> bool:
        """Whether its entries may still change."""
        return self.state not in {"signed", "accepted"}

    def as_json(self) -> dict[str, Any]:
        return dict(self.__dict__)


class Procedures(Table[KeptProcedure]):
    noun = "procedure"
    name = "procedures"
    key = "hash"
    made = KeptProcedure

    def __init__(self, connection: Connection, clock: Clock):
        super().__init__(connection, clock)
        self._shared: dict[str, dict[str, Any]] = {}

    def keep(self, procedure: dict[str, Any], text: bytes | None = None) -> str:
        """Keep a procedure for good; its hash. Keeping it again changes nothing.

        ``text`` is its canonical JSON where that is known already: making it takes a tenth of a second.
        """
        text = text or canonical(procedure)
        sha256 = digest(text)
        if self.find(sha256) is None:
            row = {"hash": sha256, "id": procedure["id"], "version": procedure["version"]}
            with self.connection.write() as db:
                db.table("procedures").insert(
                    {**row, "json": text.decode(), "kept_at": self.now()}, ignore=True
                )
        return sha256

    def shared(self, sha256: str) -> Mapping[str, Any] | None:
        """The procedure, the same object each time, because reading it takes long: it must not be changed.

        A kept procedure never changes, so that a copy in memory is as good.
        """
        content = self._shared.get(sha256)
        if content is None:
            kept = self.find(sha256)
            content = kept.content() if kept else None
            if len(self._shared) >= MOST_SHARED:
                self._shared.clear()
            if content is not None:
                self._shared[sha256] = content
        return content

    def contents(self, *hashes: str) -> dict[str, dict[str, Any]]:
        """Those of the procedures that are known, by hash."""
        found = {sha256: self.find(sha256) for sha256 in hashes}
        return {sha256: procedure.content() for sha256, procedure in found.items() if procedure}

    def needed_by_visits(self) -> list[KeptProcedure]:
        """The procedures of visits that are open, wait, or were begun lately, and of each the newest two."""
        since = written(self.clock() - BEGUN_LATELY)
        sql = """select * from procedures p where version >= (
                select max(version) - 1 from procedures other where other.id = p.id
            ) or exists (
                select 1 from visits v where v.procedure_hash = p.hash and v.started_at >= ?
            ) or p.hash in (
                select v.procedure_hash from visit_states t join visits v on v.id = t.visit
                where t.state <> 'accepted'
            )"""
        return [self.thing(row) for row in self.read().query(sql, [since])]


class Visits(Table[Visit]):
    noun = "visit"
    name = "known_visits"
    made = Visit
    _in_use: tuple[str, list[str]] = ("", [])

    def thing(self, row: dict) -> Visit:
        procedure = {"id": row["procedure"], "version": row["version"], "hash": row["procedure_hash"]}
        returned = json.loads(row["returned"]) if row["returned"] else None
        return super().thing({**row, "procedure": procedure, "returned": returned})

    def start(
        self,
        id: str,  # noqa: A002
        *,
        unit: str,
        kind: str,
        procedure: dict[str, Any],
        started_at: str,
        started_by: str,
    ) -> Visit:
        """Begin a visit; the same one again gives what was kept, another one with its id is Taken."""
        row = {
            "id": id,
            "unit": unit,
            "kind": kind,
            "procedure": procedure["id"],
            "version": procedure["version"],
            "procedure_hash": procedure["hash"],
            "started_at": started_at,
            "started_by": started_by,
        }
        with self.connection.write() as db:
            kept = next(db.query("select * from visits where id = ?", [id]), None)
            if kept is None:
                db.table("visits").insert({**row, "received_at": self.now()})
            elif {name: kept[name] for name in row} != row:
                raise Taken("visit", "id", id)
        return self.get(id)

    def find(self, key: str) -> Visit | None:
        found = self.select("id = ?", [key], "id")
        return found[0] if found else None

    def all(self) -> list[Visit]:
        return self.select(order="started_at desc")

    def open_or_finished_since(self, instant: datetime) -> list[Visit]:
        """Those that are open or wait, and those whose last record was decided at ``instant`` or later."""
        where = """id in (select visit from visit_states where state <> 'accepted'
            union all select visit from visit_states where state = 'accepted' and finished_at >= ?)"""
        return self.select(where, [written(instant)], "started_at desc")

    def changed_after(self, number: int, instant: datetime) -> list[Visit]:
        """Those of them that changed after a number of :mod:`webapp.store.news`."""
        where = """id in (select n.visit from visit_news n join visit_states t on t.visit = n.visit
            where n.number > ? and (t.state <> 'accepted' or t.finished_at >= ?))"""
        return self.select(where, [number, written(instant)], "started_at desc")

    def news(self, instant: datetime) -> str:
        """A word that stays as long as nothing changes that phones are told, and no finished visit leaves.

        Finished visits leave the oldest first, so that the oldest of them tells which are there.
        """
        sql = """select value || coalesce((select min(finished_at) from visit_states
            where state = 'accepted' and finished_at >= ?), '') as word from work_version"""
        return next(self.read().query(sql, [written(instant)]))["word"]

    def procedures_in_use(self) -> list[str]:
        """The hashes of the procedures that visits which are open began with."""
        word = next(self.read().query("select value from work_version"))["value"]
        if (
            self._in_use[0] != word
        ):  # asked with every contact of a phone, and the same until something is news
            self._in_use = (word, self._procedures_in_use())
        return self._in_use[1]

    def _procedures_in_use(self) -> list[str]:
        sql = f"""select distinct v.procedure_hash from visit_states t join visits v on v.id = t.visit
            where {OPEN} order by v.procedure_hash"""  # noqa: S608 - no outside text in it
        return [row["procedure_hash"] for row in self.read().query(sql)]

    def instruments_in_use(self) -> set[str]:
        """The instruments that the entries of visits which are open name."""
        sql = f"""select distinct json_extract(e.json, '$.content.instrument') as instrument
            from visit_states t cross join events e on e.visit = t.visit
            where {OPEN}"""  # noqa: S608 - no outside text in it
        return {row["instrument"] for row in self.read().query(sql) if row["instrument"]}

    def of_unit(self, unit: str) -> list[Visit]:
        return self.select("unit = ?", [unit], "started_at desc")
