"""Two installers and a supervisor work while everything goes wrong, in schedules made by Hypothesis.

Every step is a call of the real application over a real store, in this process: the connection fails before
or after the server has acted, the database breaks off in the middle, the server is opened anew, clocks are
wrong, phones are revoked, sessions end. `FAULT_STEPS=200000 python -m pytest tests/faults` runs longer.
"""

import contextlib
import itertools
import os
import secrets
import tempfile
import uuid
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

import pytest
from flask import Flask
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from tests.faults.handset import Handset, waiting
from tests.faults.promises import broken_promises
from tests.faults.wires import InProcess, Lost
from tests.phone import PROCEDURE, Phone
from webapp import create_app, current
from webapp.receiving import receive_decision, reopen_quarantined
from webapp.settings import Settings
from webapp.store import Store
from webapp.store.photo_parts import PART

STEPS = int(os.environ.get("FAULT_STEPS", "10000"))
PHASES = [Phase.generate]  # a schedule that fails is shown as it is: to shorten it takes minutes
LENGTH = 260  # steps of one schedule
LOGINS = ("ilse", "ivor")

WHO = st.sampled_from(LOGINS)
FATE = st.sampled_from(["arrives"] * 4 + ["lost", "reply_lost", "reply_lost", "too_many"]) | st.integers(
    1, 4000
)
SPARED = st.integers(0, 4)  # calls that go well before the one with this fate
PLACE = st.integers(0, 7)
MORE = st.sampled_from([0, 0, 0, 2 * PART])  # bytes of a photo: none, or so many that it goes in three parts
TROUBLES = ("revoke", "disable", "expire", "restart", "clock", "clock", "time")

MEMORY = Path("/dev/shm")  # nothing here depends on the disk: what a power cut does is another test

# A time-out within a schedule reads like a broken promise: the healing that follows finds a closed store.
TIME = max(300, STEPS // 10)  # seconds

done_steps = 0


@cache
def application() -> Flask:
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(Settings.for_tests(Path(folder)))
        app.extensions[current.NAME].store.close()
    return app


class Site(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None)
        self.now = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
        self.numbers = itertools.count()
        self.retired: list[Handset] = []
        self.open()
        self.people = {
            login: self.store.people.add(login, login.title(), "installer", "!") for login in LOGINS
        }
        self.supervisor = self.store.people.add("sami", "Sami", "supervisor", "!")
        self.desk = Phone(self.store, self.supervisor, "desk")
        self.store.procedures.keep(PROCEDURE)
        place = self.store.sites.add("Weir House", "3 Mill Lane", {})
        self.units = [self.store.units.add(f"Unit {n}", f"FW-{n}", place.id, {}).id for n in range(2)]
        self.phones = {login: self.new_phone(login) for login in LOGINS}

    def open(self) -> None:
        """The one application over this site's store: to make it anew each time would take the most time."""
        self.app = application()
        running = self.app.extensions[current.NAME]
        self.store = Store(Path(self.folder.name) / "test.db", lambda: self.now)
        self.app.extensions[current.NAME] = replace(running, store=self.store, clock=self.store.clock)

    def new_phone(self, login: str) -> Handset:
        phone = Handset(self.store, self.people[login], login, wire=self.signed_in(login))
        phone.previous = dict.fromkeys(self.units)
        return phone

    def signed_in(self, login: str) -> InProcess:
        token = secrets.token_urlsafe(32)
        self.store.sessions.start(current.session_key(token), self.people[login].id)
        return InProcess(self.app, token)

    @initialize()
    def one_visit_is_known_to_both(self) -> None:
        phone = self.phones["ilse"]
        phone.begin(str(uuid.UUID(int=next(self.numbers))), self.units[0])
        phone.sync()
        self.phones["ivor"].fetch()

    def visit_of(self, phone: Handset, place: int) -> str:
        return list(phone.visits)[place % len(phone.visits)]

    def try_to(self, phone: Handset, fate: str | int, send, spared: int = 0) -> None:
        phone.wire.fate, phone.wire.spared = fate, spared
        with contextlib.suppress(Lost):
            send()
        phone.wire.fate, phone.wire.spared = "arrives", 0

    # In the plant room

    @rule(who=WHO, place=PLACE, value=st.sampled_from([6.5, 7, 0.1, 1e21]))
    def read_off(self, who: str, place: int, value: float) -> None:
        self.phones[who].read_off(self.visit_of(self.phones[who], place), value)

    @rule(who=WHO, place=PLACE, more=MORE)
    def photograph(self, who: str, place: int, more: int) -> None:
        self.phones[who].photograph(self.visit_of(self.phones[who], place), next(self.numbers), more)

    @rule(who=WHO, place=PLACE)
    def write_note(self, who: str, place: int) -> None:
        phone = self.phones[who]
        phone.enter(self.visit_of(phone, place), "test#note", {"value": "\u20ac 18,20 \U0001f600"})

    @rule(who=WHO, place=PLACE)
    def sign(self, who: str, place: int) -> None:
        self.phones[who].sign_record(self.visit_of(self.phones[who], place))

    @precondition(lambda self: len(self.phones["ilse"].visits) < 4)
    @rule(who=WHO, unit=st.integers(0, 1))
    def begin_visit(self, who: str, unit: int) -> None:
        self.phones[who].begin(str(uuid.UUID(int=next(self.numbers))), self.units[unit])

    # On the way

    @rule(who=WHO, fate=FATE)
    def send_visits(self, who: str, fate: str | int) -> None:
        self.try_to(self.phones[who], fate, self.phones[who].send_visits)

    @rule(who=WHO, fate=FATE, order=st.randoms(use_true_random=False), again=st.booleans())
    def send_events(self, who: str, fate: str | int, order, again: bool) -> None:
        """In any order, some twice, also those that were received before."""
        phone = self.phones[who]
        events = phone.sendable_events()
        if again:
            events += [one.content for one in phone.held.events.values() if one.state == "received"][-3:]
            events += events[:2]
        order.shuffle(events)
        self.try_to(phone, fate, lambda: phone.send_events(events[:12]))

    @rule(who=WHO, fate=FATE, spared=SPARED)
    def send_photos(self, who: str, fate: str | int, spared: int) -> None:
        self.try_to(self.phones[who], fate, self.phones[who].send_photos, spared)

    @rule(who=WHO, fate=FATE)
    def send_records(self, who: str, fate: str | int) -> None:
        """Perhaps before their entries and photos."""
        self.try_to(self.phones[who], fate, self.phones[who].send_records)

    @rule(who=WHO, fate=FATE, again=st.booleans())
    def send_records_with_bad_ones(self, who: str, fate: str | int, again: bool) -> None:
        """In one call with what is none, unsigned and signed; perhaps with some that were received before."""
        phone = self.phones[who]
        records = phone.sendable_records()
        if again:
            records += [(key, one) for key, one in phone.held.records.items() if one.state == "received"][-2:]
        bad = [{"jws": 7}, {"jws": phone.sign({"type": "no record"}, "firstwater-record+jws")}]
        self.try_to(phone, fate, lambda: phone.send_together(records, bad))

    @rule(who=WHO, fate=FATE, spared=SPARED)
    def sync(self, who: str, fate: str | int, spared: int) -> None:
        self.try_to(self.phones[who], fate, self.phones[who].sync, spared)

    # In the office

    @rule(word=st.sampled_from(["accepted", "accepted_with_conditions", "returned"]), place=PLACE)
    def decide(self, word: str, place: int) -> None:
        records = self.store.records.all()
        if records:
            record = records[place % len(records)]
            text = self.desk.signed_decision(record.sha256, word, "Look at it again.")
            receive_decision(self.store, text, self.supervisor, 12)

    @rule()
    def look_at_what_was_quarantined(self) -> None:
        for item in self.store.quarantine.waiting()[:1]:
            reopen_quarantined(self.store, item.id, self.supervisor, "Sign it again.")

    # Trouble

    @rule(who=WHO, what=st.sampled_from(TROUBLES), size=st.integers(-30, 30))
    def trouble(self, who: str, what: str, size: int) -> None:
        getattr(self, what)(who, size)

    def revoke(self, who: str, size: int) -> None:
        """The phone is lost; what it still holds may come later, and is kept apart then."""
        if size > 20:
            self.store.devices.revoke(self.phones[who].thumbprint)

    def disable(self, who: str, size: int) -> None:
        self.store.people.set_active(self.people[who].id, size % 3 == 0)

    def expire(self, who: str, size: int) -> None:
        self.store.sessions.end_all(self.people[who].id)

    def restart(self, who: str, size: int) -> None:
        """Without a farewell: the store is opened again as it lies on the disk."""
        self.store.close()
        self.open()
        for phone in (*self.phones.values(), *self.retired, self.desk):
            phone.store = self.store

    def clock(self, who: str, size: int) -> None:
        self.phones[who].clock_error = timedelta(hours=size)

    def time(self, who: str, size: int) -> None:
        self.now += timedelta(minutes=abs(size))

    @rule(who=WHO)
    def sign_in_again(self, who: str) -> None:
        self.store.people.set_active(self.people[who].id, True)
        self.phones[who].wire = self.signed_in(who)

    @rule(who=WHO)
    def take_a_new_phone_for_a_revoked_one(self, who: str) -> None:
        old = self.phones[who]
        if self.store.devices.get(old.thumbprint).revoked_at:
            self.retired.append(old)
            self.phones[who] = self.new_phone(who)
            self.phones[who].visits = dict(old.visits)
            for key, held in waiting(old.held.visits):
                self.phones[who].held.visits[key] = held

    # What must never work

    @rule(who=WHO, place=PLACE)
    def try_what_is_forbidden(self, who: str, place: int) -> None:
        mine, other = self.phones[who], self.phones[LOGINS[who == "ilse"]]
        if not mine.held.events or mine.post("/api/events", {"events": []}).status != 200:
            return
        event = list(mine.held.events.values())[place % len(mine.held.events)].content
        reply = other.post("/api/events", {"events": [event]})
        assert reply.status in {401, 403} or [one["code"] for one in reply.body["refused"]] == ["not_yours"]
        kept = self.store.events.find(event["id"])
        if kept is not None:
            reply = mine.post("/api/events", {"events": [{**event, "offset": event["offset"] + 1}]})
            assert [one["code"] for one in reply.body["refused"]] == ["id_taken"]
            assert self.store.events.get(event["id"]) == kept

    @invariant()
    def count(self) -> None:
        global done_steps
        done_steps += 1

    def teardown(self) -> None:
        try:
            self.heal()
            handsets = [*self.phones.values(), *self.retired]
            broken = broken_promises(self.store, handsets)
            assert not broken, "\n".join(broken)
            assert [
                one for phone in handsets for one in phone.held.everything() if one.state == "waiting"
            ] == []
        finally:
            self.store.close()
            self.folder.cleanup()

    def heal(self) -> None:
        """The network is there again and everybody signs in: now everything arrives, or says why not."""
        for who in LOGINS:
            self.sign_in_again(who)
        for phone in (*self.retired, *self.phones.values()):
            phone.wire = self.signed_in(phone.person.login)
            for _ in range(2):
                phone.sync()


@pytest.mark.timeout(TIME)
def test_nothing_is_lost_invented_or_wrongly_accepted_whatever_the_schedule(
    caplog: pytest.LogCaptureFixture,
) -> None:
    caplog.set_level("CRITICAL", "webapp")  # thousands of failures that are meant
    while done_steps < STEPS:
        some = settings(
            max_examples=min(20, -(-(STEPS - done_steps) // LENGTH)),
            stateful_step_count=LENGTH,
            deadline=None,
            phases=PHASES,
            suppress_health_check=list(HealthCheck),
            derandomize=False,  # where Hypothesis sees a CI it would make the same schedules in each round
            database=None,
        )
        run_state_machine_as_test(Site, settings=some)
    print(f"{done_steps} steps")  # shown by pytest -s
