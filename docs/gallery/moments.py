"""What a step looks like at certain moments: each verdict, a series, a timer, a photo, a signature."""

from pathlib import Path

from docs.gallery.camera import Camera
from docs.gallery.stage import Person, Stage

GROUP = "Moments of a step"
SAVED = 1_500
REASON = {
    "en": "The unit is rated too low for the pressure of this supply. The maker was told.",
    "de": "Die Anlage ist für den Druck dieser Versorgung zu niedrig ausgelegt. Der Hersteller weiß davon.",
}


class Bench:
    """A visit in work on a prepared phone, of which pictures are taken."""

    def __init__(self, camera: Camera, phone: Person, slug: str, visit: str):
        self.camera, self.phone, self.page = camera, phone, phone.page
        self.slug, self.visit = slug, visit

    def open(self, step: str) -> None:
        self.phone.open(f"/field/{self.slug}/{step}?visit={self.visit}")

    def enter(self, field: str, typed: str) -> None:
        box = self.page.locator(f'[data-entry="{field}"] input, [data-entry="{field}"] textarea').first
        box.fill(typed)
        box.blur()
        self.page.wait_for_timeout(SAVED)

    def measure(self, field: str, instrument: str, typed: str) -> None:
        choice = self.page.locator(f'[data-entry="{field}"] [data-part="instrument-id"]')
        option = choice.locator("option").filter(has_text=instrument).first
        choice.select_option(value=option.get_attribute("value"))
        self.enter(field, typed)

    def choose(self, field: str, value: str) -> None:
        self.page.locator(f'[data-entry="{field}"] label.choice:has(input[value="{value}"])').click()

    def take(self, name: str, caption: str, selector: str) -> None:
        self.phone.look_at(selector)
        self.camera.take(GROUP, name, caption, self.page)


def photograph(camera: Camera, stage: Stage, phone: Person, slug: str, visit: str) -> None:
    """``visit`` is the commissioning in work; a new one is begun at another unit."""
    if not camera.wants_some("moment"):
        return
    bench = Bench(camera, phone, slug, visit)
    for scene in (passing, series, scanning, coarse_gauge, conditional, overriding):
        camera.attempt(scene, bench)
    new = Bench(camera, phone, slug, begin(phone, "wash"))
    for scene in (failing, missing, crossing, timer, defect, undone):
        camera.attempt(scene, new, stage)


def begin(phone: Person, words: str) -> str:
    """Start a commissioning at the unit that these words find; gives the id of the visit."""
    page = phone.open(f"/field?unit={words}")
    page.locator('[data-part="units"] button').first.click()
    page.wait_for_url("**/field/visit?visit=*")
    return page.url.split("visit=")[1].split("&")[0]


def passing(bench: Bench) -> None:
    bench.open("earthing")
    bench.take(
        "moment-pass",
        "A reading inside its limit, its uncertainty counted",
        '[data-entry="earthing.continuity"]',
    )
    bench.camera.keep_for_readme(bench.page)
    bench.page.locator('[data-rule="earthing.continuity"] summary').first.click()
    bench.page.locator('[data-rule="earthing.continuity"] math').first.wait_for()
    bench.take("moment-working", "The working of a limit", '[data-rule="earthing.continuity"]')


def series(bench: Bench) -> None:
    bench.open("flush")
    bench.take("moment-series", "A series with its predicted course", '[data-entry="flush.conductivity"]')


def scanning(bench: Bench) -> None:
    bench.open("deioniser")
    bench.page.locator('[data-entry="deioniser.lot"] button.small').first.click()
    bench.page.locator("dialog[open]").wait_for()
    bench.page.wait_for_timeout(SAVED)
    bench.camera.take(GROUP, "moment-scan", "Scanning a code; it can also be typed", bench.page)
    bench.page.keyboard.press("Escape")


def coarse_gauge(bench: Bench) -> None:
    bench.open("relief")
    gauge = bench.page.locator('[data-entry="relief.opening_pressure"] [data-part="instrument-id"]')
    coarse = gauge.locator("option").filter(has_text="PG-40").first
    gauge.select_option(value=coarse.get_attribute("value"))
    bench.page.wait_for_timeout(SAVED)
    bench.take("moment-reason", "A measured value changes: why?", '[data-entry="relief.opening_pressure"]')
    bench.page.locator('[data-entry="relief.opening_pressure"] .asked select').select_option(
        "wrong_instrument"
    )
    bench.page.wait_for_timeout(SAVED)
    rule = '[data-rule="relief.opening_pressure"]'
    bench.take("moment-instrument", "An instrument that is not good enough", rule)


def conditional(bench: Bench) -> None:
    """The gauge counts with 10 mbar, which is as much as there is to spare."""
    bench.open("degasser")
    bench.measure("degasser.vacuum", "PG-12", "95 mbar")
    bench.take(
        "moment-conditional",
        "Inside the limit by less than the uncertainty",
        '[data-entry="degasser.vacuum"]',
    )


def overriding(bench: Bench) -> None:
    bench.open("degasser")
    bench.page.locator('[data-part="exceptions"] summary').first.click()
    bench.take("moment-override", "A step that waits, and going on all the same", '[data-part="exceptions"]')


def failing(bench: Bench, stage: Stage) -> None:
    bench.open("earthing")
    bench.take("moment-held", "A step that an earlier one holds", "h1")
    bench.enter("earthing.length", "12")
    bench.enter("earthing.cross_section", "1.5")
    bench.choose("earthing.conductor_class", "5")
    bench.choose("earthing.leads_nulled", "yes")
    bench.enter("earthing.continuity", "0.9")
    bench.take("moment-fail", "A reading outside its limit", '[data-entry="earthing.continuity"]')
    bench.enter("earthing.continuity", "0.9 bar")
    bench.take(
        "moment-unreadable", "What cannot be read is kept, and said", '[data-entry="earthing.continuity"]'
    )
    photo = Path(stage.photo)
    bench.page.locator('[data-entry="earthing.photo"] input[type=file]').set_input_files(photo)
    bench.page.locator('[data-entry="earthing.photo"] figure img').wait_for()
    bench.take("moment-photo", "A photo", '[data-entry="earthing.photo"]')


def missing(bench: Bench, stage: Stage) -> None:
    bench.open("relief")
    bench.enter("relief.marked_set_pressure", "1.9")
    bench.take(
        "moment-missing",
        "A limit that cannot be computed yet names what is missing",
        '[data-rule="relief.marked_set_pressure"]',
    )


def crossing(bench: Bench, stage: Stage) -> None:
    """The unit is rated too low for a valve that stays closed at the pressure of this supply."""
    bench.open("supply")
    bench.measure("supply.lock_up_pressure", "PG-12", "1.3")
    bench.open("relief")
    bench.choose("relief.valve_family", "iso_4126")
    bench.enter("relief.valve_height", "1.2")
    bench.measure("relief.opening_pressure", "PG-12", "1.8")
    rule = '[data-rule="relief.opening_pressure"]'
    bench.take("moment-no-setting", "No setting is right: the limits have crossed", rule)


def undone(bench: Bench, stage: Stage) -> None:
    """A step that could not be done: at the step, in the list of the visit, in the review."""
    bench.open("relief")
    form = bench.page.locator('[data-part="exceptions"] details:has(#undone-reason)')
    form.locator("summary").click()
    bench.page.locator("#undone-reason").fill(REASON[bench.phone.language])
    bench.take("moment-undone-why", "A step could not be done: why?", '[data-part="exceptions"]')
    form.locator("button").click()
    bench.page.wait_for_timeout(SAVED)
    bench.take("moment-undone", "A step that could not be done", '[data-part="exceptions"]')
    page = bench.phone.open(f"/field/visit?visit={bench.visit}")
    bench.phone.look_at('a[href*="/relief"]')
    bench.camera.take(GROUP, "moment-undone-list", "In the list: what waits for it was not reached", page)
    page = bench.phone.open(f"/field/{bench.slug}/review?visit={bench.visit}")
    bench.camera.take(GROUP, "moment-undone-review", "In the review: the record fails", page)


def timer(bench: Bench, stage: Stage) -> None:
    bench.open("leak_test")
    bench.page.locator('[data-entry="leak_test.started_at"] [data-part="now"]').click()
    bench.page.wait_for_timeout(SAVED)
    bench.take(
        "moment-timer", "A timer that runs on while the phone sleeps", '[data-entry="leak_test.ended_at"]'
    )


def defect(bench: Bench, stage: Stage) -> None:
    bench.open("defects")
    form = bench.page.locator('[data-part="defects"]')
    form.locator("summary").click()
    form.locator("input, textarea").first.fill("Drip at the union below the reservoir, one drop a minute")
    form.locator('label.choice:has(input[value="major"])').click()
    bench.take("moment-defect", "A defect is written down", '[data-part="defects"]')
    bench.take(
        "moment-drawing", "Who takes the unit over signs on the glass", '[data-entry="defects.taken_over"]'
    )
