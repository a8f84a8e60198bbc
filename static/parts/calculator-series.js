import { phrase } from "../language/phrase.js";
import { make, part } from "./element.js";

/**
 * A list of readings: rows that can be added and removed, never fewer than the formula needs.
 * @param {HTMLElement} field
 */
export function rowsOf(field) {
  const list = /** @type {HTMLOListElement} */ (part(field, "readings"));
  const least = Number(list.dataset.least ?? 1);
  const first = /** @type {HTMLInputElement} */ (list.querySelector("input"));
  const name = field.dataset.input ?? "";

  const renumber = () => {
    for (const [index, row] of [...list.children].entries()) {
      const label = phrase("Reading {index} of {meaning}", { index: index + 1, meaning: field.dataset.meaning });
      const input = /** @type {HTMLInputElement} */ (row.querySelector("input"));
      input.id = `in-${name}-${index + 1}`;
      input.setAttribute("aria-label", label);
      row.querySelector("button")?.remove();
      if (list.children.length > least) row.append(removal(/** @type {HTMLElement} */ (row), label));
    }
  };

  /** @param {HTMLElement} row @param {string} label */
  const removal = (row, label) =>
    make("button", { type: "button", class: "button quiet small", "aria-label": phrase("Remove {label}", { label }), onclick: () => remove(row) }, phrase("Remove"));

  /** @param {HTMLElement} row */
  const remove = (row) => {
    const next = /** @type {HTMLElement} */ (row.nextElementSibling ?? row.previousElementSibling);
    row.remove();
    renumber();
    next.querySelector("input")?.focus();
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };

  const add = () => {
    const input = /** @type {HTMLInputElement} */ (first.cloneNode());
    input.value = "";
    list.append(make("li", { class: "with-unit" }, input));
    renumber();
    return input;
  };
  return { add, renumber };
}

/** Rows with buttons, and one that adds a row. @param {HTMLElement} field */
export function mountSeries(field) {
  const rows = rowsOf(field);
  rows.renumber();
  const more = make("button", { type: "button", class: "button quiet", onclick: () => rows.add().focus() }, phrase("Add a reading"));
  part(field, "readings").after(make("p", {}, more));
}
