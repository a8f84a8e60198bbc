import { inputOf } from "./controls.js";
import { part } from "./element.js";
import { clockTime, day, two } from "./words.js";

/** The value of a date-and-time input for a moment, in the phone's zone. @param {Date} date */
function local(date) {
  return `${day(date)}T${clockTime(date)}:${two(date.getSeconds())}`;
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
