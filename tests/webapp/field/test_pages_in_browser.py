"""What an installer sees and keeps on the pages of a visit, in a real browser without the server's help."""

import re

import pytest
from playwright.sync_api import expect

from tests.journeys.navigators import Installer
from tests.webapp.field.filling import events, fill_access, fill_earthing, until_stored, values

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

FROM_ANOTHER_PHONE = """async ([visit, field, typed]) => {
  const { transact } = await import("/static/record/database.js");
  const { announce } = await import("/static/record/changes.js");
  const id = crypto.randomUUID();
  const at = new Date().toISOString();
  const content = { typed, unit: "ohm", value: Number(typed), instrument: "ct-04" };
  const made = { by: "p-2", device: "other", at, offset: 0, hlc: `${at}-0000-other`, app: "tests" };
  const event = { id, visit, field, item: null, content, replaces: [], reason: null, ...made };
  await transact(["events"], "readwrite", (transaction) =>
    transaction.objectStore("events").put({ id, visit, sent: "received", problem: null, event }));
  announce(visit);
}"""


def test_a_phone_that_nobody_prepared_says_what_to_do(page, address):
    page.goto(f"{address}/field")
    expect(page.get_by_role("heading", name="This phone is not prepared yet")).to_be_visible()
    expect(page.get_by_role("link", name="Sign in and prepare this phone")).to_have_attribute(
        "href", "/phone"
    )


def test_a_unit_is_found_by_the_code_on_its_label_and_a_visit_started(installer, address):
    page = installer.page
    page.goto(f"{address}/field")
    page.get_by_label("Unit", exact=True).fill("p3kn 473j")
    expect(page.get_by_text("one unit found.")).to_be_visible()
    page.get_by_role("button", name="Trace analysis unit").click()
    expect(page.get_by_text("0 of 22 steps done")).to_be_visible()
    expect(page.get_by_role("link", name="Continue: Survey")).to_be_visible()


def test_the_visit_in_work_is_continued_with_one_touch(installer, address):
    page = installer.page
    page.goto(f"{address}/field")
    page.get_by_role("link", name="Continue: Survey").click()
    expect(page.get_by_role("heading", level=1, name="Survey")).to_be_visible()


def test_the_list_of_visits_judges_what_has_changed_and_says_so_meanwhile(installer, address, visit):
    page, started, held = installer.page, [], []
    page.on("worker", lambda worker: started.append(worker.url))
    onward = page.get_by_role("link", name="Continue: Survey")
    meanwhile = page.get_by_text("being judged again")
    page.goto(f"{address}/field")
    expect(onward).to_be_visible()
    before = len(started)
    page.reload()
    expect(onward).to_be_visible()
    assert len(started) == before, "nothing has changed"
    page.route("**/outline-worker.js", lambda route: held.append(route))
    page.evaluate(FROM_ANOTHER_PHONE, [visit, "earthing.continuity", "0.1"])
    expect(meanwhile).to_be_visible()
    expect(onward).to_have_count(0)
    held[0].abort()  # as in a browser whose workers know no modules: the page judges itself
    expect(onward).to_be_visible()
    expect(meanwhile).to_have_count(0)


def test_a_reading_is_judged_while_it_is_typed(installer):
    fill_earthing(installer, "0,1")
    page = installer.page
    verdict = page.locator('[data-rule="earthing.continuity"] .verdict')
    box = installer.input("Measured resistance")
    box.press("End")
    for key, word in (("7", "Pass"), ("Backspace", "Pass"), ("Backspace", "Pass"), ("4", "Fail")):
        box.press(key)
        expect(verdict).to_have_text(word)


def test_what_was_typed_is_there_after_a_reload_as_it_was_typed(installer, visit):
    fill_earthing(installer, "0,17")
    page = installer.page
    page.reload()
    expect(installer.input("Measured resistance")).to_have_value("0,17")
    expect(page.locator('[data-rule="earthing.continuity"] .verdict')).to_have_text("Pass")
    [event] = events(page, visit, "earthing.continuity")
    assert event["content"] == {"typed": "0,17", "unit": "ohm", "value": 0.17, "instrument": "ct-04"}


def test_what_is_typed_before_the_script_is_there_is_not_lost(page, address, visit):
    page.route("**/static/parts/step.js", lambda route: held.append(route))
    held: list = []
    page.goto(f"{address}/field/commissioning-2/earthing?visit={visit}")
    page.locator("#entry_length").fill("12,5")
    page.get_by_text("Flexible cord (class 5)").click()
    page.locator("#note").fill("Cable tray above the door")
    expect(page.get_by_role("button", name="Mark this step done")).to_be_disabled()
    expect(page.get_by_text("Getting ready: what you type is kept")).to_be_visible()
    page.locator("#note").press("Tab")
    page.locator("#entry_length").press("Enter")
    for route in held:
        route.continue_()
    expect(page.locator('[data-part="state"] .tag')).to_be_visible()
    expect(page.get_by_role("button", name="Mark this step done")).to_be_enabled()
    expect(page.get_by_text("Getting ready")).to_have_count(0)
    expect(page.locator("#entry_length")).to_have_value("12,5")
    page.wait_for_timeout(700)
    assert values(page, visit, "earthing.length") == ["12,5"]
    assert events(page, visit, "earthing.conductor_class")[-1]["content"] == {"value": "5"}
    assert events(page, visit, "earthing#note")[-1]["content"] == {"value": "Cable tray above the door"}


def test_a_value_is_stored_after_a_pause_without_leaving_the_input(installer, visit):
    installer.open_step("Protective earth")
    page = installer.page
    installer.input("Length of the conductor, one way").press_sequentially("12")
    page.wait_for_timeout(700)
    assert values(page, visit, "earthing.length") == ["12"]


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("about 12", "is not a number. Type digits, like 6.5."),
        ("1,234", "can be read in two ways"),
        ("12 parsec", "is not known here"),
        ("12 bar", "measures something else"),
        ("-3", "cannot be"),
    ],
)
def test_what_cannot_be_used_is_kept_with_a_message_beside_it(installer, visit, typed, message):
    installer.open_step("Protective earth")
    installer.fill("Length of the conductor, one way", typed)
    entry = installer.entry("Length of the conductor, one way")
    expect(entry.locator(".error")).to_contain_text(message)
    expect(entry.locator("input")).to_have_attribute("aria-invalid", "true")
    installer.page.reload()
    expect(installer.input("Length of the conductor, one way")).to_have_value(typed)
    assert values(installer.page, visit, "earthing.length") == [typed]


def test_a_reading_that_fails_its_limit_is_a_result_and_not_an_error(installer):
    fill_earthing(installer, "0,36")
    entry = installer.entry("Measured resistance")
    expect(entry.locator(".verdict").first).to_have_text("Fail")
    expect(entry.locator(".rule-words").first).to_contain_text("Missed by")
    expect(entry.locator(".error")).to_be_empty()


def test_a_change_within_a_minute_is_a_typing_error_and_nobody_is_asked(installer, visit):
    fill_earthing(installer, "0,71")
    installer.fill("Measured resistance", "0,17")
    page = installer.page
    expect(page.get_by_label("Why did this value change?")).to_have_count(0)
    page.wait_for_timeout(500)
    first, second = events(page, visit, "earthing.continuity")
    assert second["replaces"] == [first["id"]]
    assert second["reason"] == {"code": "typing_error", "text": ""}


def test_a_later_change_asks_for_its_reason_and_is_stored_meanwhile(page, address, visit):
    page.clock.install()
    installer = Installer(page, address)
    installer.open_visit(visit)
    fill_earthing(installer, "0,71")
    until_stored(page, visit, "earthing.continuity", ["0,71"])
    page.clock.fast_forward("02:00")
    installer.fill("Measured resistance", "0,17")
    question = page.get_by_label("Why did this value change?")
    expect(question).to_be_visible()
    page.clock.run_for(500)
    assert values(page, visit, "earthing.continuity") == ["0,71", "0,17"]
    question.select_option(label="Measured again")
    page.clock.run_for(500)
    expect(question).to_have_value("re_measured")
    last = events(page, visit, "earthing.continuity")[-1]
    assert (last["content"]["typed"], last["reason"]["code"]) == ("0,17", "re_measured")


def test_a_reason_that_was_left_open_is_asked_for_again(page, address, visit):
    page.clock.install()
    installer = Installer(page, address)
    installer.open_visit(visit)
    fill_earthing(installer, "0,71")
    until_stored(page, visit, "earthing.continuity", ["0,71"])
    page.clock.fast_forward("02:00")
    installer.fill("Measured resistance", "0,17")
    page.clock.run_for(500)
    page.reload()
    question = page.get_by_label("Why did this value change?")
    question.select_option(label="Another reason")
    page.get_by_label("The other reason").fill("Read off the wrong display")
    page.get_by_label("The other reason").blur()
    expect(question).to_have_value("other")
    page.clock.run_for(500)
    page.wait_for_timeout(300)
    last = events(page, visit, "earthing.continuity")[-1]
    assert last["reason"] == {"code": "other", "text": "Read off the wrong display"}
    assert last["content"]["typed"] == "0,17"


def test_the_keypads_next_goes_to_the_next_input_and_does_not_mark_the_step_done(installer, visit):
    installer.open_step("Protective earth")
    installer.input("Length of the conductor, one way").fill("12")
    installer.input("Length of the conductor, one way").press("Enter")
    expect(installer.input("Cross-section")).to_be_focused()
    expect(installer.page.locator(".error-summary")).to_have_count(0)
    assert events(installer.page, visit, "earthing#done") == []


def test_an_instrument_out_of_calibration_is_told_at_once(installer):
    installer.open_step("Pressure relief")
    installer.fill("Measured opening pressure", "4.5", instrument="Line gauge 0 to 10 bar")
    entry = installer.entry("Measured opening pressure")
    expect(entry.get_by_text("Its calibration ended on 2026-01-31.")).to_be_visible()


def test_only_instruments_of_the_needed_kind_are_offered(installer):
    installer.open_step("Protective earth")
    options = installer.entry("Measured resistance").locator("[data-part=instrument-id] option")
    assert options.all_text_contents() == ["Choose the continuity tester", "Continuity tester 4, CT-04"]


def test_readings_of_a_series_are_added_changed_and_removed_with_a_reason(installer, visit):
    installer.open_step("First fill and flush")
    installer.add_readings("Conductivity during the flush", ["35", "18,2", "18.1"])
    page = installer.page
    rows = page.locator(".readings > li")
    expect(rows.nth(1)).to_contain_text("18,2 µS/cm")
    expect(page.locator("svg.plot circle")).to_have_count(3)
    rows.nth(0).get_by_role("button", name="Change").click()
    rows.nth(0).get_by_label(re.compile("^Conductivity during the flush,")).fill("25")
    rows.nth(0).get_by_label("Why does it change?").select_option(label="Wrong unit")
    rows.nth(0).get_by_role("button", name="Keep the new value").click()
    expect(rows.nth(0)).to_contain_text("25 µS/cm")
    rows.nth(1).get_by_role("button", name="Change").click()
    rows.nth(1).get_by_role("button", name="Remove this reading").click()
    expect(rows).to_have_count(2)
    stored = events(page, visit, "flush.conductivity")
    assert [event["reason"] and event["reason"]["code"] for event in stored] == [
        None,
        None,
        None,
        "wrong_unit",
        "typing_error",
    ]
    assert stored[4]["content"] is None


def test_a_reading_that_cannot_be_read_stays_in_its_input_and_out_of_the_series(installer, visit):
    installer.open_step("First fill and flush")
    entry = installer.entry("Conductivity during the flush")
    entry.locator("input").first.fill("about 30")
    entry.get_by_role("button", name="Add this reading").click()
    expect(entry.locator("[data-part=error]")).to_contain_text("is not a number")
    expect(entry.locator("input").first).to_have_value("about 30")
    assert events(installer.page, visit, "flush.conductivity") == []


def test_two_values_of_two_phones_are_shown_side_by_side_until_one_is_picked(installer, visit, address):
    fill_earthing(installer, "0,17")
    page = installer.page
    page.wait_for_timeout(500)
    page.evaluate(FROM_ANOTHER_PHONE, [visit, "earthing.continuity", "0.19"])
    entry = installer.entry("Measured resistance")
    expect(entry.get_by_text("Two phones say different things.")).to_be_visible()
    expect(entry.get_by_role("button", name="holds")).to_have_count(2)
    # From the list of visits, one touch to the choice and one to choose.
    page.goto(f"{address}/field")
    page.get_by_role("link", name="1 value differs between two phones: choose").click()
    expect(page.locator(".rivals > li")).to_have_count(2)
    mine, other = page.locator(".rivals > li").all()
    for words in ("0,17 Ω", "Tamsin Orrel", "this phone", "Continuity tester 4"):
        expect(mine).to_contain_text(words)
    for words in ("0.19 Ω", "Bram Ostley", "another phone (other)"):
        expect(other).to_contain_text(words)
    tops = "(list) => [...list.children].map((one) => one.getBoundingClientRect().top)"
    assert len(set(page.locator(".rivals").evaluate(tops))) == 1
    other.get_by_role("button", name="0.19 Ω holds").click()
    expect(page.get_by_text("Chosen for Measured resistance (Protective earth).")).to_be_visible()
    expect(page.locator(".rivals")).to_have_count(0)
    *before, last = events(page, visit, "earthing.continuity")
    assert sorted(last["replaces"]) == sorted(event["id"] for event in before)
    assert (last["content"]["typed"], last["reason"]["code"]) == ("0.19", "conflict")
    installer.open_visit(visit)
    expect(page.get_by_role("link", name="differs between two phones")).to_have_count(0)


def test_a_hold_offers_no_way_round_it_but_a_place_for_why_it_could_not_be_done(installer, visit):
    installer.open_step("Protective earth")
    page = installer.page
    assert installer.state() == "Held"
    expect(page.get_by_text("Held: Continuity is a dead test")).to_be_visible()
    expect(page.locator("details.before[open]")).to_contain_text(
        "1 of 1 steps before this one is not done yet"
    )
    page.get_by_role("button", name="Mark this step done").click()
    summary = page.locator(".error-summary")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("the circuit must be proved dead first")
    expect(page.get_by_text("Go on although this waits")).to_have_count(0)
    page.get_by_text("This step could not be done").click()
    page.get_by_label("Why it could not be done").fill("The tester's battery is flat")
    page.get_by_role("button", name="It could not be done, for this reason").click()
    expect(page.locator('[data-part="state"]')).to_contain_text("Reason: The tester's battery is flat")
    [event] = events(page, visit, "earthing#not_done")
    assert (event["content"]["reason"], installer.state()) == (
        "The tester's battery is flat",
        "Could not be done",
    )
    expect(page.get_by_role("button", name="Mark this step done")).to_be_hidden()
    page.get_by_role("button", name="Take back").click()
    expect(page.get_by_text("This step could not be done")).to_be_visible()
    assert installer.state() == "Held"


def test_a_step_that_only_waits_can_be_gone_on_with_for_a_reason(installer, visit):
    installer.open_step("Isolator")
    page = installer.page
    assert installer.state() == "Waiting"
    page.get_by_text("Go on although this waits").click()
    page.get_by_role("button", name="Go on, with this reason").click()
    expect(page.get_by_text("Write the reason first")).to_be_visible()
    page.get_by_label("Reason", exact=True).fill("Survey papers are with the office")
    page.get_by_role("button", name="Go on, with this reason").click()
    expect(page.locator('[data-part="state"] .tag')).to_have_text("Open")
    [event] = events(page, visit, "isolator#override")
    assert event["content"] == {"reason": "Survey papers are with the office"}


def test_a_step_with_missing_entries_says_which_and_leads_to_them(installer):
    installer.open_step("Survey")
    page = installer.page
    page.get_by_role("button", name="Mark this step done").click()
    page.locator(".error-summary").get_by_role(
        "link", name="Not entered yet: Serial number on the plate"
    ).click()
    expect(page.get_by_label("Serial number on the plate")).to_be_focused()


def test_a_done_step_whose_value_changes_asks_to_be_looked_at_again(installer):
    fill_access(installer)
    installer.mark_done()
    page = installer.page
    installer.fill("Delivered codes changed", "No")
    expect(page.locator('[data-part="state"] .tag')).to_have_text("Re-check")
    expect(page.locator('[data-part="state"]')).to_contain_text("Delivered codes changed")
    installer.mark_done()


def test_a_note_is_kept(installer):
    installer.open_step("Survey")
    page = installer.page
    page.get_by_label("Note").fill("The lift is out of order.")
    page.get_by_label("Note").blur()
    page.wait_for_timeout(300)
    page.reload()
    expect(page.get_by_label("Note")).to_have_value("The lift is out of order.")


def test_the_working_shows_the_numbers_and_the_source(installer):
    fill_earthing(installer)
    row = installer.page.locator('[data-derived="earthing.limit"]')
    row.get_by_text("Show working").click()
    expect(row.locator("math").last).to_contain_text("0.1")
    expect(row).to_contain_text("IEC 60228")


def test_a_page_without_a_visit_leads_back_to_the_visits(page, address, visit):
    page.goto(f"{address}/field/commissioning-2/earthing")
    expect(page.get_by_text("Choose a visit first")).to_be_visible()
    expect(page.get_by_role("link", name="Go to my visits")).to_be_visible()
