"""The installer and the supervisor, as people who read the page and touch what it offers."""

import re
from collections.abc import Iterable

from playwright.sync_api import Locator, Page, expect

OWN_TEXT = """
(name) => [...document.querySelectorAll("[data-entry]")].filter((entry) => {
  if (!entry.checkVisibility()) return false;
  const label = entry.querySelector(":scope > label, :scope > legend");
  const own = [...label.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE);
  return own.map((node) => node.textContent).join("").trim() === name;
}).map((entry) => entry.dataset.entry)
"""


class Installer:
    """Acts on one page of a browser; every method ends when the screen shows the result."""

    def __init__(self, page: Page, base_url: str):
        self.page = page
        self.base_url = base_url.rstrip("/")

    def sign_in(self, login: str, password: str) -> None:
        self.page.goto(f"{self.base_url}/sign-in")
        self.page.get_by_label("Login").fill(login)
        self.page.get_by_label("Password", exact=True).fill(password)
        self.page.get_by_role("button", name="Sign in").click()
        expect(self.page).not_to_have_url(re.compile("/sign-in"))

    def prepare_phone(self, name: str, password: str) -> None:
        self.page.goto(f"{self.base_url}/phone")
        expect(self.page.locator('form [role="status"]')).to_be_attached()
        self.page.get_by_label("Name of this phone").fill(name)
        self.page.get_by_label("Your password").fill(password)
        self.page.get_by_role("button", name="Prepare this phone").click()
        expect(self.page.get_by_text("This phone is ready for offline work.")).to_be_visible(timeout=60_000)

    def start_visit(self, unit: str) -> str:
        """Find the unit and start a visit to it; gives the visit's id."""
        self.page.goto(f"{self.base_url}/field")
        self.page.get_by_label("Unit", exact=True).fill(unit)
        self.page.get_by_role("listitem").filter(has_text=unit).get_by_role("button").first.click()
        expect(self.page.get_by_role("heading", name="Visit", exact=True)).to_be_visible()
        self.page.wait_for_url("**/field/visit?visit=*")
        return self.page.url.split("visit=")[1]

    def open_visit(self, visit: str) -> None:
        self.page.goto(f"{self.base_url}/field/visit?visit={visit}")
        expect(self.page.get_by_role("heading", name="Visit", exact=True)).to_be_visible()

    def open_step(self, title: str) -> None:
        """From the overview of the visit or from any other step."""
        if "/field/visit" not in self.page.url:
            self.page.locator("a[data-link=visit]").first.click()
        self.page.locator(".list a").filter(has_text=title).first.click()
        expect(self.page.get_by_role("heading", level=1, name=title, exact=True)).to_be_visible()
        expect(self.page.locator('[data-part="state"] .tag')).to_be_visible()

    def entry(self, label: str) -> Locator:
        """The entry that carries this label."""
        names = self.page.evaluate(OWN_TEXT, label)
        assert len(names) == 1, f"{len(names)} entries on {self.page.url} are labelled {label!r}"
        return self.page.locator(f'[data-entry="{names[0]}"]')

    def input(self, label: str) -> Locator:
        """The box into which the entry is typed."""
        return self.entry(label).locator("input, textarea").first

    def fill(self, label: str, value: str, unit: str | None = None, instrument: str | None = None) -> None:
        """Enter a value as typed, or choose the option of this label; then leave the input."""
        entry = self.entry(label)
        if unit is not None:
            entry.locator('[data-part="unit"]').select_option(label=unit)
        if instrument is not None:
            self.choose_instrument(entry, instrument)
        if entry.get_attribute("data-kind") in {"choice", "yes_no"}:
            entry.locator("label.choice").get_by_text(value, exact=True).click()
            return
        box = self.input(label)
        box.fill(value)
        box.blur()

    def choose_instrument(self, entry: Locator, name: str) -> None:
        select = entry.locator('[data-part="instrument-id"]')
        option = select.locator("option").filter(has_text=name).first
        select.select_option(value=option.get_attribute("value"))

    def now(self, label: str) -> None:
        self.entry(label).get_by_role("button", name="Now").click()

    def add_readings(self, label: str, values: Iterable[str], instrument: str | None = None) -> None:
        """Add readings to a series, one after the other."""
        entry = self.entry(label)
        if instrument is not None:
            self.choose_instrument(entry, instrument)
        for value in values:
            before = entry.locator(".readings > li").count()
            entry.locator("input").first.fill(value)
            entry.get_by_role("button", name="Add this reading").click()
            expect(entry.locator(".readings > li")).to_have_count(before + 1)

    def add_photo(self, label: str, path: str) -> None:
        entry = self.entry(label)
        entry.locator("input[type=file]").set_input_files(path)
        expect(entry.locator("figure img")).to_be_visible()

    def verdict(self, rule: str) -> str:
        """The word beside a rule, as it is shown now."""
        block = self.page.locator(".rule:visible").filter(has=self.page.get_by_text(rule, exact=True))
        # An entry out of sight is not laid out, so that it has no inner text.
        return (block.locator(".verdict").text_content() or "").strip()

    def state(self) -> str:
        """The state word of the open step."""
        return self.page.locator('[data-part="state"] .tag').inner_text()

    def mark_done(self) -> None:
        self.page.get_by_role("button", name=re.compile("^Mark this step done")).click()
        expect(self.page.locator('[data-part="state"] .tag')).to_have_text("Done")

    def open_review(self, visit: str) -> None:
        self.open_visit(visit)
        self.page.get_by_role("link", name=re.compile("^(Review|See the signed record)")).first.click()
        expect(self.page.get_by_role("heading", name="Review and sign")).to_be_visible()

    def sign(self, password: str) -> None:
        """On the review page: enter the password and sign."""
        self.page.get_by_label("Your password").fill(password)
        self.page.get_by_role("button", name="Sign this record").click()
        expect(self.page.get_by_role("heading", name="Signed")).to_be_visible(timeout=30_000)

    def send_now(self) -> None:
        self.page.get_by_role("button", name="Send now").first.click()


class Supervisor(Installer):
    """Acts on the pages of the office; a supervisor may also do everything that an installer does."""

    def open_waiting(self, unit: str) -> None:
        """From the queue to the record of the unit that waits for a decision."""
        self.page.goto(f"{self.base_url}/office/")
        waiting = self.page.locator("h2:text-is('For a decision') + ul")
        waiting.get_by_role("link", name=re.compile(unit)).click()
        expect(self.page.get_by_role("heading", level=1)).to_contain_text("Record of")

    def open_later_result(self, unit: str) -> None:
        """From the queue to the page on which an accepted record is re-opened for a result."""
        self.page.goto(f"{self.base_url}/office/")
        self.page.get_by_role("link", name=re.compile(f"Enter a later result: {unit}")).click()
        expect(self.page.get_by_role("heading", level=1)).to_contain_text("Enter a later result")

    def decide(self, decision: str | None, reasons: str | None, password: str, told: str) -> None:
        """Sign the decision with this label, None for the one that is chosen; ``told`` is the answer."""
        if decision is not None:
            self.page.get_by_label(decision, exact=True).check()
        if reasons is not None:
            self.page.get_by_label(re.compile("^Reasons")).fill(reasons)
        self.page.get_by_label("Your password").fill(password)
        self.page.get_by_role("button", name="Sign the decision").click()
        expect(self.page.locator('p.notice[role="status"]')).to_contain_text(told, timeout=30_000)
