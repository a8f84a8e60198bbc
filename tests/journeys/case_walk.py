"""A whole record, typed and touched into the real screens; every touch and every key is counted."""

import re

from playwright.sync_api import Locator, expect

from tests.journeys.navigators import Installer
from tests.journeys.plant_room import PlantRoom

JUDGED = """async (visit) => {
  const { caseOf } = await import("/static/record/events.js");
  const { procedureOf } = await import("/static/record/work.js");
  const { visitOf } = await import("/static/record/visits.js");
  const { judge } = await import("/static/judging/engine.js");
  const procedure = await procedureOf((await visitOf(visit)).procedure);
  return judge(procedure, await caseOf(visit));
}"""


class CaseWalk:
    """The installer's way through one plant room."""

    def __init__(self, installer: Installer, room: PlantRoom, photo: str):
        self.installer, self.room, self.photo = installer, room, photo
        self.page = installer.page
        self.touches = self.keys = 0

    def judged(self, visit: str) -> dict:
        """The judgement that the phone makes of what it has stored."""
        return self.page.evaluate(JUDGED, visit)

    def open_step(self, step: str, visit: str) -> None:
        procedure = self.room.procedure
        slug = f"{procedure['id']}-{procedure['version']}"
        self.page.goto(f"{self.installer.base_url}/field/{slug}/{step}?visit={visit}")
        expect(self.page.locator('[data-part="state"] .tag')).to_be_visible()
        self.touches += 1

    def fill_step(self, step: str) -> None:
        """Everything that the record has for this step, in the order of the screen."""
        for name, entry, given in self.room.cells(step):
            place = self.page.locator(f'[data-entry="{name}"]')
            for cell in given if isinstance(given, list) else [given]:
                self.enter(place, entry, cell)
        for defect in self.room.case.get("defects", {}).get(step, []):
            self.record_defect(defect)

    def enter(self, place: Locator, entry: dict, cell: dict) -> None:
        kind = entry["kind"]
        if kind in ("choice", "yes_no"):
            self.touch(place.locator(f'input[value="{cell["value"]}"]').locator("xpath=.."))
        elif kind in ("reading", "series"):
            self.type_reading(place, entry, cell)
        elif kind == "photo":
            place.locator("input[type=file]").set_input_files(self.photo)
            self.touches += 2
            expect(place.locator("figure img")).to_be_visible()
        elif kind == "drawing":
            place.locator("input").first.fill(cell["value"])
            place.locator('[data-part="role"]').fill(cell["role"])
            self.touch(place.get_by_text("My typed name is my signature"))
            self.touch(place.get_by_role("button", name="Sign", exact=True))
            expect(place.locator("figure figcaption")).to_be_visible()
        else:
            text = cell["value"].rstrip("Z")[:19] if kind == "instant" else cell["value"]
            self.type(place.locator("input, textarea").first, text)

    def type_reading(self, place: Locator, entry: dict, cell: dict) -> None:
        if cell.get("instrument") and entry["instrument"]:
            choice = place.locator('[data-part="instrument-id"]')
            if choice.input_value() != cell["instrument"]:
                choice.select_option(value=cell["instrument"])
                self.touches += 2
        typed = cell.get("typed") or f"{cell['value']:g}"
        unit = place.locator('[data-part="unit"]')
        wanted = cell.get("unit") or entry["unit"]
        if not re.search(r"[^\d\s.,+\u2212-]", typed) and unit.count() and unit.input_value() != wanted:
            unit.select_option(value=wanted)
            self.touches += 2
        self.type(place.locator("input").first, typed)
        if entry["kind"] == "series":
            before = place.locator(".readings > li").count()
            self.touch(place.get_by_role("button", name="Add this reading"))
            expect(place.locator(".readings > li")).to_have_count(before + 1)

    def record_defect(self, defect: dict) -> None:
        place = self.page.locator('[data-part="defects"]')
        self.touch(place.get_by_text("Record a defect", exact=True))
        self.type(place.get_by_label("What is wrong"), defect["text"])
        self.touch(place.locator(f'input[value="{defect["severity"]}"]').locator("xpath=.."))
        self.type(place.get_by_label("Who puts it right"), defect["owner"])
        if defect.get("due"):
            self.type(place.get_by_label("By when"), defect["due"])
        self.touch(place.get_by_role("button", name="Record this defect"))
        expect(place.get_by_role("listitem").filter(has_text=defect["text"])).to_be_visible()

    def finish_step(self, step: str) -> None:
        """Say that the step is done, where the record says so and nothing holds the step."""
        said = self.room.case["steps"].get(step, {})
        if said.get("override"):
            self.touch(self.page.get_by_text("Go on although this waits"))
            self.type(self.page.locator("#override-reason"), said["override"]["reason"])
            self.touch(self.page.get_by_role("button", name="Go on, with this reason"))
        if said.get("done") and self.room.judgement["steps"][step]["state"] == "done":
            self.installer.mark_done()
            self.touches += 1
        # A person is slower than the phone's storage; a script is not.
        expect(self.page.locator("[data-module=step]:not([data-unsaved])")).to_be_attached()

    def touch(self, place: Locator) -> None:
        place.tap()
        self.touches += 1

    def type(self, place: Locator, text: str) -> None:
        place.fill(text)
        place.blur()
        self.touches += 1
        self.keys += len(text)
