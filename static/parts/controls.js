import { readTyped } from "../judging/typed-number.js";
import { part } from "./element.js";
import { recall, remember } from "./habits.js";
import { instrumentChoice } from "./instrument-choice.js";

/**
 * How one kind of input gives the content of an event and shows one.
 * @typedef {object} Control
 * @property {HTMLElement} focus what gets the focus, carries the message and opens the keyboard
 * @property {() => any} read the content, null when nothing is there
 * @property {(content: any) => void} show
 */

/**
 * The content of a reading from what was typed; null for nothing.
 * @param {string} typed
 * @param {string | null} chosen the unit beside it
 * @param {string | null} instrument
 * @param {any} entry
 */
export function readingContent(typed, chosen, instrument, entry) {
  if (typed.trim() === "") return null;
  const own = entry.unit ?? "1";
  const { unit, value } = readTyped(typed, own, entry.units, chosen ?? own);
  return { typed, unit: unit ?? chosen ?? own, value, instrument };
}

/** @param {HTMLElement} element @param {any} entry @returns {HTMLInputElement} */
export function inputOf(element, entry) {
  return /** @type {HTMLInputElement} */ (element.querySelector(`#entry_${CSS.escape(entry.id)}`));
}

/**
 * Whether a person was faster than the script: something was typed or chosen that the page did not come with.
 * @param {HTMLElement} element
 */
export function isTouched(element) {
  const inputs = /** @type {NodeListOf<HTMLInputElement>} */ (element.querySelectorAll("input:not([type=file]), textarea"));
  return [...inputs].some((input) =>
    input.type === "radio" ? input.checked !== input.defaultChecked : input.value !== input.defaultValue,
  );
}

/**
 * A typed number: kept as typed, with the value that was read from it, its unit and the instrument.
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 * @returns {Control}
 */
export function readingControl(element, entry, session) {
  const input = inputOf(element, entry);
  const units = /** @type {HTMLSelectElement | null} */ (part(element, "unit"));
  const habit = `unit ${session.procedure.id} ${element.dataset.entry}`;
  const preferred = () => {
    const last = recall(habit);
    return last && entry.units.includes(last) ? last : entry.unit;
  };
  const instrument = entry.instrument ? instrumentChoice(part(element, "instrument"), entry, session) : null;
  if (units) units.value = preferred();
  units?.addEventListener("change", () => remember(habit, units.value));
  return {
    focus: input,
    read: () => readingContent(input.value, units?.value ?? null, instrument?.read() ?? null, entry),
    show(content) {
      input.value = content?.typed ?? "";
      if (units) units.value = entry.units.includes(content?.unit) ? content.unit : preferred();
      instrument?.show(content?.instrument ?? null);
    },
  };
}

/**
 * One of a few words. The procedure says what they are, a number among them stays a number.
 * @param {HTMLElement} element
 * @param {any} entry
 * @returns {Control}
 */
export function choiceControl(element, entry) {
  const buttons = /** @type {NodeListOf<HTMLInputElement>} */ (element.querySelectorAll("input[type=radio]"));
  const values = entry.kind === "yes_no" ? ["yes", "no"] : entry.options.map((/** @type {any} */ option) => option.value);
  return {
    focus: buttons[0],
    read() {
      const chosen = [...buttons].findIndex((button) => button.checked);
      return chosen < 0 ? null : { value: values[chosen] };
    },
    show(content) {
      for (const [index, button] of buttons.entries()) button.checked = values[index] === content?.value;
    },
  };
}

/**
 * Words or a day, as they stand in the input.
 * @param {HTMLElement} element
 * @param {any} entry
 * @returns {Control}
 */
export function wordsControl(element, entry) {
  const input = inputOf(element, entry);
  return {
    focus: input,
    read: () => (input.value.trim() === "" ? null : { value: input.value }),
    show(content) {
      input.value = content?.value ?? "";
    },
  };
}
