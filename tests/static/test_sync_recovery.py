"""What was on its way is not lost: cut photos, other phones, lost storage, and the file by hand."""

import hashlib
import re

import pytest

from tests.static.cellar import DONE, EMPTY, EVENTS, NOTHING, SEND, SILENT_PAGE, START_VISIT, unsent
from webapp import limits
from webapp.receiving.unsent import owner_of, take_in_unsent
from webapp.signing.unsent import read_unsent

pytestmark = [
    pytest.mark.browser,
    # When a browser hangs up, the development server leaves a file to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*unclosed file:pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore:.*FileIO:pytest.PytestUnraisableExceptionWarning"),
]

CLEAR_EVENTS = """
  await phone.database.transact(["events"], "readwrite", async transaction => {
    await transaction.objectStore("events").clear();
  });
"""


def test_a_photo_arrives_byte_for_byte(phone, server):
    visit = phone.run(START_VISIT)
    photo = phone.run(
        """
        const canvas = new OffscreenCanvas(400, 300);
        canvas.getContext("2d").fillRect(0, 0, 200, 300);
        return phone.photos.addPhoto(await canvas.convertToBlob(), argument);
        """,
        visit["id"],
    )
    phone.add(visit["id"], field="commission.photo", content=photo)
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING
    data = server.store.photos.read_bytes(photo["sha256"])
    assert (hashlib.sha256(data).hexdigest(), len(data)) == (photo["sha256"], photo["size"])


def lost_visits(server):
    return [visit for loss in server.store.contacts.losses() if loss.certain for visit in loss.visits]


def test_a_phone_without_its_entries_is_noticed_and_fetches_them_again(phone, server):
    visit = phone.run(START_VISIT)
    made = [phone.add(visit["id"]) for _ in range(2)]
    assert phone.run(SEND) == DONE
    assert visit["id"] not in lost_visits(server)
    phone.run(CLEAR_EVENTS)
    assert phone.run(SEND) == DONE
    assert visit["id"] in lost_visits(server)
    again = phone.run("return phone.events.eventsOf(argument)", visit["id"])
    assert [event["id"] for event in again] == [event["id"] for event in made]


NOISE = """
  const canvas = new OffscreenCanvas(1200, 900);
  const context = canvas.getContext("2d");
  const picture = context.createImageData(1200, 900);
  let seed = 1;
  const random = () => (seed = (seed * 1664525 + 1013904223) >>> 0) >>> 24;
  picture.data.forEach((_, place) => (picture.data[place] = place % 4 === 3 ? 255 : random()));
  context.putImageData(picture, 0, 0);
  return phone.photos.addPhoto(await canvas.convertToBlob(), argument);
"""
PARTS = re.compile("/parts$")


def test_a_large_photo_goes_on_where_it_stopped(phone, server):
    visit = phone.run(START_VISIT)
    photo = phone.run(NOISE, visit["id"])
    assert photo["size"] > 2 * 256 * 1024
    sent = []

    def cut(route):
        if route.request.method == "GET":
            return route.continue_()
        sent.append(route.request.headers["content-range"])
        if len(sent) == 1:
            return route.continue_()
        route.fetch()  # stored, and the answer is lost
        return route.abort()

    phone.context.route(PARTS, cut)
    assert phone.run(SEND)["state"] == "offline"
    assert len(sent) == 2
    assert unsent(phone) == NOTHING | {"photos": 1}
    phone.context.unroute(PARTS)
    phone.context.on("request", lambda request: sent.append(request.headers.get("content-range")))
    phone.open(SILENT_PAGE)  # a reload
    assert phone.run(SEND) == DONE
    ranges = [one for one in sent if one]
    assert len(ranges) == len(set(ranges)) == -(-photo["size"] // (256 * 1024)), "no part twice"
    assert unsent(phone) == NOTHING
    assert len(server.store.photos.read_bytes(photo["sha256"])) == photo["size"]


@pytest.mark.parametrize("status", [403, 429, 507])
def test_a_server_that_asks_for_time_is_left_alone(phone, status):
    visit = phone.run(START_VISIT)
    phone.add(visit["id"])
    problem = {"status": status, "code": "storage_full", "detail": "Later, please.", "title": "Later"}
    headers = {"Retry-After": "120", "Content-Type": "application/problem+json"}
    phone.context.route(EVENTS, lambda route: route.fulfill(status=status, headers=headers, json=problem))
    wait = "return phone.api.post('/api/events', {events: []}).catch(error => [error.kind, error.wait])"
    assert phone.run(wait) == ["later", 120_000]
    answer = phone.run(SEND)
    assert (answer["state"], answer["message"]) == ("stopped", "Later, please.")
    assert unsent(phone) == NOTHING | {"events": 1}
    phone.context.unroute(EVENTS)
    assert phone.run(SEND) == DONE


def test_a_phone_that_called_too_often_waits_on_every_page_and_loses_nothing(phone, server):
    visit = phone.run(START_VISIT)
    made = phone.add(visit["id"])
    usual = server.app.extensions[limits.NAME]
    purses = dict.fromkeys(usual.allowances, limits.Allowance(at_once=2, a_minute=2))
    server.app.extensions[limits.NAME] = limits.Limits(purses)
    answer = phone.run(SEND)
    assert (answer["state"], answer["code"]) == ("stopped", "too_many_calls")
    assert unsent(phone) == NOTHING | {"events": 1}
    calls = []
    phone.context.on("request", lambda one: calls.append(one.url) if "/api/" in one.url else None)
    phone.open("/field/waiting")  # sends by itself as soon as it is open
    phone.page.get_by_text("1 entry only on this phone").wait_for()
    phone.page.wait_for_timeout(500)
    assert calls == []
    server.app.extensions[limits.NAME] = usual
    phone.open(SILENT_PAGE)
    assert phone.run(SEND) == DONE
    assert server.store.events.find(made["id"]) is not None


def test_the_exported_file_is_taken_in_by_a_supervisor(phone, server):
    server.stop()
    visit = phone.run(START_VISIT)
    event = phone.add(visit["id"], content={"value": "5 °C"})
    text = phone.run("return (await load('record/export')).unsentFile().then(file => file.text())")
    server.start()
    store = server.store
    supervisor = store.people.by_login("sam") or store.people.add("sam", "Sam Orr", "supervisor", "!")
    file = read_unsent(text.encode(), store.devices.find)
    assert (file.whole, file.sealed, file.altered) == (True, True, False)
    lines = take_in_unsent(store, file, owner_of(store, file, supervisor, True), supervisor)
    assert [(line.kind, line.state) for line in lines] == [("visits", "new"), ("events", "new")]
    assert [one.content() for one in store.events.of_visit(visit["id"])] == [event]
    # The phone learns by sending that all of it is there.
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING


def test_entries_of_another_phone_arrive_and_move_the_clock(phone, second_phone):
    one, two = phone, second_phone
    visit = one.run(START_VISIT)
    far = one.run("await phone.database.writeSettings({clock: {time: Date.now() + 60000, count: 0}})")
    assert far is None
    event = one.add(visit["id"])
    assert one.run(SEND) == DONE
    assert two.run(SEND) == DONE
    assert [got["id"] for got in two.run("return phone.events.eventsOf(argument)", visit["id"])] == [
        event["id"]
    ]
    later = two.add(visit["id"])
    assert later["hlc"] > event["hlc"]
    assert unsent(two) == NOTHING | {"events": 1}


def test_a_revoked_phone_keeps_its_entries_with_the_reason(second_phone, server):
    phone = second_phone
    phone.run(EMPTY)
    visit = phone.run(START_VISIT)
    phone.add(visit["id"])
    server.store.devices.revoke(phone.run("return phone.database.readSetting('device')")["thumbprint"])
    assert phone.run(SEND) == DONE
    assert unsent(phone) == NOTHING | {"events": 1, "problems": 1}
    [parked] = phone.run("return phone.outbox.listBySent('events', 'problem')")
    assert parked["problem"]["code"] == "device_revoked"
