"""The review of a visit, and what it looks like after the signature, in a real browser."""

import pytest
from playwright.sync_api import expect

from tests.webapp.field.filling import fill_access, fill_earthing

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

SIGNED = """async ([visit, withEntries]) => {
  const { transact } = await import("/static/record/database.js");
  const { announce } = await import("/static/record/changes.js");
  await transact(["visits", "events"], "readwrite", async (transaction) => {
    const visits = transaction.objectStore("visits");
    await visits.put({ ...(await visits.get(visit)), state: "signed", record: "ab".repeat(32) });
    if (!withEntries) await transaction.objectStore("events").clear();
  });
  announce(visit);
}"""


def test_the_review_puts_first_what_blocks_and_cannot_be_signed_before(installer, visit):
    fill_access(installer)
    installer.mark_done()
    installer.open_review(visit)
    page = installer.page
    first = page.locator(".list > li").first
    expect(first).to_contain_text("Survey")
    expect(first).to_contain_text("Blocks")
    expect(page.get_by_role("button", name="Sign this record")).to_be_hidden()
    expect(page.get_by_text("It can be signed when nothing blocks it any more")).to_be_visible()


NOT_DONE = """async ([visit, steps]) => {
  const { addEvent } = await import("/static/record/events.js");
  const content = { reason: "No earth here" };
  for (const step of steps) await addEvent({ visit, field: `${step}#not_done`, content });
}"""


def test_work_that_cannot_go_on_can_be_signed_as_failed(installer, visit, address):
    page = installer.page
    page.evaluate(NOT_DONE, [visit, ["survey", "isolator", "access", "sanitising_preparation"]])
    installer.open_review(visit)
    expect(
        page.get_by_text("Not everything could be done: the record can be signed as it is")
    ).to_be_visible()
    expect(
        page.locator(".list > li").filter(has_text="Could not be done. Reason: No earth here")
    ).to_have_count(4)
    expect(page.locator(".list > li").filter(has_text="Not reached")).to_have_count(1)
    expect(page.get_by_text("Blocks", exact=True)).to_have_count(0)
    expect(page.get_by_text("Not entered:")).to_have_count(0)
    beyond = page.get_by_text("Not reached", exact=True).count() - 1  # one line names them all
    page.goto(f"{address}/field/visit?visit={visit}")
    expect(page.locator(".tag").filter(has_text="Not reached")).to_have_count(beyond)
    expect(page.locator(".tag").filter(has_text="Held")).to_have_count(0)
    page.goto(f"{address}/field")
    expect(page.locator("main")).to_contain_text(f"{beyond} steps were not reached.")
    expect(page.locator("main")).not_to_contain_text("for others")


def test_a_signed_record_is_closed(installer, visit):
    fill_earthing(installer, "0,17")
    page = installer.page
    page.wait_for_timeout(500)
    page.evaluate(SIGNED, [visit, True])
    expect(page.get_by_text("This record is signed, so nothing can be changed here.")).to_be_visible()
    expect(installer.input("Measured resistance")).to_be_disabled()
    expect(installer.input("Measured resistance")).to_have_value("0,17")
    expect(page.get_by_role("button", name="Mark this step done")).to_be_hidden()


def test_a_signed_visit_whose_entries_are_elsewhere_does_not_look_empty(installer, visit, address):
    page = installer.page
    page.evaluate(SIGNED, [visit, False])
    for place in ("visit", "commissioning-2/earthing", "commissioning-2/review"):
        page.goto(f"{address}/field/{place}?visit={visit}")
        expect(page.get_by_text("It was signed on another phone")).to_be_visible()
        expect(page.get_by_text("Held")).to_have_count(0)
