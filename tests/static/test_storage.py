"""What the phone has said is saved is there after a reload, after a kill and on a full phone."""

import pytest

from tests import browser

pytestmark = pytest.mark.browser

VISIT = "11111111-1111-4111-8111-111111111111"
ADD = """async count => {
  const { person } = await import("/tests/prepared.js");
  const { addEvent } = await import("/static/record/events.js");
  await person();
  const made = [];
  for (let value = 0; value < count; value += 1) {
    made.push(await addEvent({ visit: "VISIT", field: "a.b", content: { value } }));
  }
  return made;
}""".replace("VISIT", VISIT)
STORED = """async () => {
  const { eventsOf } = await import("/static/record/events.js");
  return eventsOf("VISIT");
}""".replace("VISIT", VISIT)
MAKE_KEY = "() => import('/tests/prepared.js').then(prepared => prepared.signer()).then(() => null)"
SIGN_AFTER_RESTART = """async () => {
  const { signCompact } = await import("/static/signing/device-key.js");
  return (await signCompact({ a: 1 }, "test+jws")).split(".").length;
}"""
ADD_LARGE = """async size => {
  const { person } = await import("/tests/prepared.js");
  const { addEvent, eventsOf } = await import("/static/record/events.js");
  const { summary } = await import("/static/record/outbox.js");
  await person();
  const content = { value: "x".repeat(size) };
  const add = content => addEvent({ visit: "v", field: "a.b", content }).then(() => "stored", error => error);
  const error = await add(content);
  const small = await add({ value: "small" });
  return { code: error?.code, message: error?.message, small, stored: (await eventsOf("v")).length,
           waiting: (await summary()).events };
}"""
PHOTO_ON_A_FULL_PHONE = """async () => {
  const { addPhoto } = await import("/static/record/photos.js");
  const canvas = new OffscreenCanvas(3000, 2000);
  const context = canvas.getContext("2d");
  const pixels = context.createImageData(3000, 2000);
  for (let index = 0; index < pixels.data.length; index += 65536) {
    crypto.getRandomValues(pixels.data.subarray(index, Math.min(index + 65536, pixels.data.length)));
  }
  context.putImageData(pixels, 0, 0);
  const picture = await canvas.convertToBlob({ type: "image/png" });
  return addPhoto(picture, "v").catch(error => error.code);
}"""


def opened(context, files):
    page = context.new_page()
    page.goto(f"{files}/blank.html")
    return page


def test_entries_are_there_after_a_reload(page):
    made = page.evaluate(ADD, 3)
    page.reload()
    assert page.evaluate(STORED) == made


def test_entries_are_there_after_the_browser_was_killed(playwright, files, tmp_path):
    folder = tmp_path / "profile"
    context = browser.launch_phone(playwright, folder)
    made = opened(context, files).evaluate(ADD, 50)
    browser.kill(folder)
    context = browser.launch_phone(playwright, folder)
    assert opened(context, files).evaluate(STORED) == made
    context.close()


def test_the_key_signs_after_the_browser_was_closed(playwright, files, tmp_path):
    folder = tmp_path / "profile"
    context = browser.launch_phone(playwright, folder)
    opened(context, files).evaluate(
        "() => import('/tests/prepared.js').then(it => it.signer()).then(() => null)"
    )
    context.close()
    context = browser.launch_phone(playwright, folder)
    assert opened(context, files).evaluate(SIGN_AFTER_RESTART) == 3
    context.close()


def limit_storage(page, size):
    page.evaluate("() => import('/static/record/database.js').then(it => it.readSetting('x'))")
    origin = page.evaluate("() => location.origin")
    session = page.context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": size})


def test_a_full_phone_says_so_and_stores_nothing_by_half(page):
    limit_storage(page, 200_000)
    answer = page.evaluate(ADD_LARGE, 5_000_000)
    assert answer["code"] == "storage_full"
    assert "The phone's storage is full. Free some space" in answer["message"]
    assert (answer["small"], answer["stored"], answer["waiting"]) == ("stored", 1, 1)


def test_a_photo_that_fits_in_no_size_is_refused_as_such(page):
    limit_storage(page, 100_000)
    assert page.evaluate(PHOTO_ON_A_FULL_PHONE) == "storage_full"
