import { make, part, say } from "./element.js";
import { inputOf } from "./controls.js";
import { duration } from "./words.js";

const two = (/** @type {number} */ value) => String(value).padStart(2, "0");

/** The value of a date-and-time input for a moment, in the phone's zone. @param {Date} date */
function local(date) {
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
}

/**
 * A moment: typed, or taken with one touch. Stored in UTC.
 * @param {HTMLElement} element
 * @param {any} entry
 * @returns {import("./controls.js").Control}
 */
export function instantControl(element, entry) {
  const input = inputOf(element, entry);
  part(element, "now").addEventListener("click", () => {
    input.value = local(new Date());
    input.dispatchEvent(new Event("change", { bubbles: true }));
  });
  return {
    focus: input,
    read() {
      const date = new Date(input.value);
      return input.value === "" || Number.isNaN(date.getTime()) ? null : { value: date.toISOString() };
    },
    show(content) {
      input.value = content ? local(new Date(content.value)) : "";
    },
  };
}

/**
 * Show the time since a moment, from the stored moment and the clock: a phone that slept counts right again at once.
 * @param {HTMLElement} place
 * @param {() => {since: string | null, until: string | null}} read the two moments as they are stored now
 */
export function runTimer(place, read) {
  const spoken = make("span", {}, "");
  place.replaceChildren(spoken);
  const tick = () => {
    const { since, until } = read();
    place.hidden = since === null;
    if (since === null) return;
    const passed = (until ? Date.parse(until) : Date.now()) - Date.parse(since);
    say(spoken, until ? `${duration(passed)} in all` : `${duration(passed)} so far`);
  };
  tick();
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", tick);
  addEventListener("pageshow", tick);
  return tick;
}
