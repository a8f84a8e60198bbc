import { phrase } from "../language/phrase.js";
import { screenKeeper } from "./awake.js";
import { inputOf } from "./controls.js";
import { make, part, say } from "./element.js";
import { offerNotice } from "./notify.js";
import { everySecond } from "./ticking.js";
import { readSpan, spansOf, startStopwatch, stopStopwatch } from "./timer-span.js";
import { isOver, leftWords, passedWords } from "./timer-words.js";
import { clockTime, day, two } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

const LONGEST_AWAKE = 3_600_000;
const AWAKE = {
  off: "",
  on: phrase("The screen stays on while this time runs."),
  refused: phrase("This phone lets its screen go off. The time runs on and is right when you look again."),
};

/** What a watched timer shows: the time, what is to go, and whether the screen stays on. @param {HTMLElement} place @param {string} label */
function panel(place, label) {
  place.setAttribute("aria-label", label);
  const [passed, left] = [make("span", { class: "passed" }), make("span", { class: "left" })];
  place.replaceChildren(passed, left);
  const [told, awake, notice] = [make("p", { class: "visually-hidden", role: "status" }), make("p", { class: "muted awake" }), make("div")];
  place.after(told, awake, notice);
  return { passed, left, told, awake, notice };
}

/**
 * Show a time as it runs, from the stored moments and the clock.
 * @param {HTMLElement} place
 * @param {import("./timer-span.js").Span} span
 * @param {VisitSession} session
 */
function runTimer(place, span, session) {
  const { passed, left, told, awake, notice } = panel(place, span.label);
  const watch = screenKeeper((state) => say(awake, AWAKE[state]));
  const paint = () => {
    const running = readSpan(span, session);
    const now = Date.now();
    const over = running !== null && isOver(running, now);
    const runs = running !== null && running.until === null && session.open;
    place.hidden = running === null;
    notice.hidden = !runs || running.over === null || over;
    if (!notice.hidden) offerNotice(notice);
    watch(runs && !over && isShort(running, now));
    place.toggleAttribute("data-over", over);
    say(passed, running ? passedWords(running, now) : "");
    say(left, running ? leftWords(running, now) : "");
    say(told, over ? leftWords(running, now) : "");
  };
  everySecond(place, paint);
  session.follow(paint);
}

/** A screen that stayed on for hours would empty the battery. @param {import("./timer-span.js").Running} running @param {number} now */
function isShort({ since, over }, now) {
  return (over === null ? now - since : over - now) <= LONGEST_AWAKE;
}

/**
 * The phone's own stopwatch beside minutes that are typed. Its start survives a reload; its end is typed for the person.
 * @param {HTMLElement} element
 * @param {import("./timer-span.js").Span} span
 * @param {VisitSession} session
 */
function mountStopwatch(element, span, session) {
  const place = make("p", { class: "timer", role: "timer", hidden: true });
  const start = make("button", { type: "button", class: "button quiet small" }, phrase("Count from now"));
  const stop = make("button", { type: "button", class: "button quiet small" }, phrase("Stop and enter the minutes"));
  element.querySelector(".with-unit")?.after(make("div", { class: "row" }, start, stop), place);
  start.addEventListener("click", () => {
    startStopwatch(session, span);
    session.refresh();
    stop.focus();
  });
  stop.addEventListener("click", async () => {
    const running = readSpan(span, session);
    if (running === null) return;
    enterMinutes(element, (Date.now() - running.since) / 60_000);
    // The start is let go only when the minutes are stored.
    await session.flush(span.until);
    stopStopwatch(session, span);
    session.refresh();
  });
  session.follow(() => {
    const runs = readSpan(span, session) !== null;
    start.hidden = runs || !session.open;
    stop.hidden = !runs || !session.open;
  });
  runTimer(place, span, session);
}

/** Whole tenths, rounded down: a wait is never told longer than it was. @param {HTMLElement} element @param {number} minutes */
function enterMinutes(element, minutes) {
  const input = /** @type {HTMLInputElement} */ (element.querySelector(".with-unit input"));
  const unit = /** @type {HTMLSelectElement | null} */ (part(element, "unit"));
  if (unit) unit.value = "min";
  input.value = String(Math.floor(minutes * 10) / 10);
  input.dispatchEvent(new Event("change", { bubbles: true }));
  input.focus();
}

/**
 * The times of a step, each beside the entry that ends it.
 * @param {HTMLElement} root
 * @param {any} step
 * @param {VisitSession} session
 */
export function mountTimers(root, step, session) {
  for (const span of spansOf(step)) {
    const element = /** @type {HTMLElement} */ (root.querySelector(`[data-entry="${span.until}"]`));
    if (span.since === null) mountStopwatch(element, span, session);
    else runTimer(part(element, "timer"), span, session);
  }
}
