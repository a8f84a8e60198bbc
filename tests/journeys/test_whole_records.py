"""The whole records, done through the real screens without a server: the phone says what was agreed to."""

import os

import pytest

from tests import browser
from tests.journeys.case_walk import CaseWalk
from tests.journeys.navigators import Installer
from tests.journeys.plant_room import PlantRoom, agreed, numbered
from tests.records.test_records import reviewed
from tests.static.cellar import PASSWORD, Phone
from webapp.signing.judged_again import differences

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(
        "WHOLE_RECORDS" not in os.environ,
        reason="takes minutes: WHOLE_RECORDS=1 runs it; test_commissioning.py walks one record",
    ),
    pytest.mark.timeout(900),
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]


# The marginal one is done from end to end in test_commissioning.py.
@pytest.mark.parametrize("record", ["all-well", "unsafe"])
def test_a_whole_commissioning_is_done_through_the_screens_without_signal(
    record, chromium, cellar, photo, record_property
):
    room = PlantRoom(record)
    room.stock(cellar.store)
    phone = Phone(chromium.new_context(**browser.PHONE, timezone_id="UTC"), cellar)
    errors = []
    phone.page.on("pageerror", lambda error: errors.append(str(error)))
    phone.sign_in()
    assert "ready for offline work" in phone.prepare(PASSWORD)
    installer = Installer(phone.page, cellar.url)
    visit = installer.start_visit(room.unit)
    cellar.stop()

    walk = CaseWalk(installer, room, photo)
    for step in room.steps:
        walk.open_step(step["id"], visit)
        walk.fill_step(step["id"])
        walk.finish_step(step["id"])
    assert list(differences(numbered(reviewed(walk.judged(visit))), agreed(record))) == []
    assert errors == []
    print(f"{record}: {len(room.steps)} steps, {walk.touches} touches, {walk.keys} characters typed")
    phone.context.close()
