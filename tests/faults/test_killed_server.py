"""The real server, over HTTP, killed in the middle of the sync again and again.

A killed process says nothing about a power cut, since the operating system still writes what it was given:
that is in `test_torn_log.py`. `FAULT_KILLS=3000 python -m pytest tests/faults` kills more often.
"""

import os
import random
import time

import pytest
from flask import Flask

from tests.faults.installer import Installer
from tests.faults.launcher import Launcher
from tests.faults.promises import broken_promises
from tests.phone import Phone
from webapp import current
from webapp.receiving import receive_decision
from webapp.store import Store

KILLS = int(os.environ.get("FAULT_KILLS", "300"))


def decide_on_all(store: Store, desk: Phone) -> None:
    """What the office page does after the password, here from another process than the server."""
    for listed in store.listing.queue():
        text = desk.signed_decision(listed.sha256, "returned", "Look at it again.")
        receive_decision(store, text, desk.person, 12)


@pytest.mark.timeout(max(300, KILLS))
def test_whatever_was_acknowledged_survives_hundreds_of_kills(
    app: Flask, launcher: Launcher, installers: list[Installer]
) -> None:
    store = app.extensions[current.NAME].store
    desk = Phone(store, store.people.add("sami", "Sami", "supervisor", "!"), "desk")
    pause = random.Random(300)
    for installer in installers:
        installer.start()
    for number in range(KILLS):
        launcher.start()
        wait_for_answers(installers, pause.randrange(4))
        if number % 10 == 0:
            decide_on_all(store, desk)
        time.sleep(pause.uniform(0.0, 0.01))
        launcher.kill()
    launcher.start()
    for installer in installers:
        installer.stopped.set()
        installer.join(timeout=60)
        assert installer.failure is None, repr(installer.failure)
        installer.handset.sync()
    launcher.kill()
    handsets = [installer.handset for installer in installers]
    assert broken_promises(store, handsets) == []
    assert [one for handset in handsets for one in handset.held.everything() if one.state == "waiting"] == []
    show(launcher, installers, store)


def wait_for_answers(installers: list[Installer], number: int) -> None:
    """Until so many requests more were answered, so that a slow machine is killed in its work, too."""
    wires = [installer.handset.wire for installer in installers]
    wanted = sum(wire.answers for wire in wires) + number
    until = time.monotonic() + 1
    while sum(wire.answers for wire in wires) < wanted and time.monotonic() < until:
        time.sleep(0.001)


def show(launcher: Launcher, installers: list[Installer], store: Store) -> None:
    """Figures for `pytest -s`, and that the kills hit work in progress."""
    starts = sorted(launcher.seconds)
    lost = sum(one.lost for one in installers)
    received = sum(one.state == "received" for each in installers for one in each.handset.held.everything())
    print(
        f"{KILLS} kills; a start takes {starts[len(starts) // 2] * 1000:.0f} ms in the median; "
        f"{lost} answers lost, {received} things acknowledged, {len(store.records.all())} records"
    )
    assert lost >= KILLS
    assert received > KILLS / 4
