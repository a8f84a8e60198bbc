import { rowsOf } from "./calculator-series.js";
import { part } from "./element.js";
import { recall, remember } from "./habits.js";

/** @typedef {import("./calculator-reading.js").Form} Form */

/** @param {HTMLElement} body @returns {HTMLElement[]} the inputs of the formula */
export const fieldsOf = (body) => [...body.querySelectorAll("[data-input]")].map((one) => /** @type {HTMLElement} */ (one));

/** @param {HTMLElement} field @returns {(HTMLInputElement | HTMLSelectElement)[]} where its values are typed */
export function typedIn(field) {
  return [...field.querySelectorAll("input, select")]
    .map((one) => /** @type {HTMLInputElement | HTMLSelectElement} */ (one))
    .filter((one) => one.name === field.dataset.input);
}

/** @param {HTMLElement} body @returns {HTMLSelectElement[]} */
const unitChoices = (body) => [...body.querySelectorAll('select[name$=".unit"]')].map((one) => /** @type {HTMLSelectElement} */ (one));

/** @param {HTMLSelectElement} choice */
const unitOf = (choice) => choice.name.replace(/\.unit$/, "");

/**
 * Everything that was typed and chosen.
 * @param {HTMLElement} body
 * @returns {Form}
 */
export function readForm(body) {
  /** @type {Form} */
  const form = { texts: {}, units: {}, offered: {}, meanings: {} };
  for (const field of fieldsOf(body)) {
    const name = field.dataset.input ?? "";
    form.texts[name] = typedIn(field).map((input) => input.value);
    form.meanings[name] = field.dataset.meaning ?? name;
  }
  for (const choice of unitChoices(body)) {
    form.units[unitOf(choice)] = choice.value;
    form.offered[unitOf(choice)] = [...choice.options].map((option) => option.value);
  }
  return form;
}

/**
 * Put in what the address names. A number without a unit counts in the formula's own one, so the unit that this phone
 * remembers is taken only for what the address does not give.
 * @param {HTMLElement} body
 * @param {string} formula
 * @param {URLSearchParams} query
 */
export function fillForm(body, formula, query) {
  for (const field of fieldsOf(body)) {
    const given = query.getAll(field.dataset.input ?? "").filter(Boolean);
    if (field.dataset.kind === "series") while (typedIn(field).length < given.length) rowsOf(field).add();
    for (const [index, input] of typedIn(field).entries()) if (given[index] !== undefined) input.value = given[index];
  }
  for (const choice of unitChoices(body)) {
    const name = unitOf(choice);
    const wanted = query.get(choice.name) ?? (query.has(name) ? null : recall(habit(formula, name)));
    // Who chose before the script was there keeps the choice.
    const untouched = choice.selectedOptions[0]?.defaultSelected;
    if (untouched && wanted && [...choice.options].some((option) => option.value === wanted)) choice.value = wanted;
    choice.addEventListener("change", () => remember(habit(formula, name), choice.value));
  }
}

/** @param {string} formula @param {string} name */
const habit = (formula, name) => `calculator ${formula} ${name}`;

/**
 * The address that brings back what is in the form.
 * @param {HTMLElement} body
 */
export function addressOf(body) {
  const data = new FormData(part(body, "form"));
  const pairs = [...data].map(([name, value]) => [name, String(value)]).filter(([, value]) => value !== "");
  return `?${new URLSearchParams(pairs)}`;
}
