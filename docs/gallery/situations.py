"""What is out of the ordinary on a phone: no signal, two values, no room, a new version, a withdrawn key."""

from datetime import timedelta

from docs.gallery.camera import Camera
from docs.gallery.moments import Bench
from docs.gallery.stage import NOW, Person, Stage

GROUP = "Out of the ordinary"
NO_ROOM = """() => {
  window.put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
}"""
ROOM = "() => { IDBObjectStore.prototype.put = window.put; }"
LOOK_FOR_NEWS = "async () => { await (await navigator.serviceWorker.getRegistration()).update(); }"
DAYS_ALONE = 30


def photograph(camera: Camera, stage: Stage, phone: Person, slug: str, visit: str) -> None:
    if not camera.wants_some("situation"):
        return
    bench = Bench(camera, phone, slug, visit)
    for scene in (full, conflict, unsent, update, revoked):
        camera.attempt(scene, bench, stage)


def take(bench: Bench, name: str, caption: str) -> None:
    bench.camera.take(GROUP, f"situation-{name}", caption, bench.page)


def send(bench: Bench) -> None:
    bench.page.locator('[data-module="saved-status"] button').first.click()
    bench.page.wait_for_timeout(4_000)


def full(bench: Bench, stage: Stage) -> None:
    bench.open("reverse_osmosis")
    bench.page.evaluate(NO_ROOM)
    bench.page.locator('[data-entry="reverse_osmosis.permeate_pressure"] input').first.fill("0.4")
    bench.page.wait_for_timeout(2_000)
    bench.phone.look_at('[data-entry="reverse_osmosis.permeate_pressure"]')
    take(bench, "full", "The phone is full: what was typed stays on the screen")
    if bench.page.locator("#not-stored").count():
        bench.phone.look_at("#not-stored")
        take(bench, "full-what-to-do", "The phone is full: what to do")
    bench.page.evaluate(ROOM)
    bench.page.locator('[data-entry="reverse_osmosis.permeate_pressure"] input').first.blur()
    bench.page.wait_for_timeout(2_000)


def conflict(bench: Bench, stage: Stage) -> None:
    bench.open("reverse_osmosis")
    send(bench)
    stage.enter_elsewhere(bench.visit, "reverse_osmosis.running_minutes", "25", "min")
    send(bench)
    bench.open("reverse_osmosis")
    bench.phone.look_at('[data-entry="reverse_osmosis.running_minutes"]')
    take(bench, "conflict", "Two phones entered different values")
    bench.phone.open("/field/attention")
    take(bench, "conflict-attention", "What needs attention: two values, one has to be chosen")


def unsent(bench: Bench, stage: Stage) -> None:
    stage.server.stop()
    bench.open("reverse_osmosis")
    bench.enter("reverse_osmosis.permeate_flow", "3.6")
    bench.phone.look_at('[data-entry="reverse_osmosis.permeate_flow"]')
    take(bench, "unsent", "Without signal: saved on this phone, and only here")
    bench.phone.open("/field/waiting")
    take(bench, "unsent-waiting", "What waits to be sent; it can leave as a file")
    bench.phone.open("/people")
    take(bench, "offline", "A page that only the server has, without signal")
    bench.phone.context.clock.set_fixed_time(NOW + timedelta(days=DAYS_ALONE))
    bench.phone.open("/field")
    take(bench, "alone", "A month without the server")
    bench.phone.open("/field/attention")
    take(bench, "alone-attention", "A month without the server: what is safe and what to do")
    bench.phone.context.clock.set_fixed_time(NOW)
    stage.server.start()


def update(bench: Bench, stage: Stage) -> None:
    stage.release()
    bench.open("reverse_osmosis")
    bench.page.evaluate(LOOK_FOR_NEWS)
    bench.page.locator('[data-module="update-notice"] button').first.wait_for()
    bench.page.evaluate("scrollTo(0, 0)")
    take(bench, "update", "A new version waits until it is asked for")


def revoked(bench: Bench, stage: Stage) -> None:
    person = next(one for one in stage.store.people.all() if one.login == "tamsin")
    stage.store.devices.revoke(stage.store.devices.of(person.id)[-1].thumbprint)
    bench.open("reverse_osmosis")
    bench.enter("reverse_osmosis.concentrate_flow", "8.2")
    send(bench)
    bench.phone.open("/field/attention")
    take(bench, "revoked", "The phone's key was withdrawn")
