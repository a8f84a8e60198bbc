import { make, part, say } from "./element.js";
import { number, quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {any} value @param {any} unit */
function valueWords(value, unit) {
  if (typeof value === "number") return quantity(value, unit);
  return Array.isArray(value) ? value.map(number).join(", ") : String(value);
}

/** What is known of a quantity, or what is missing for it. @param {any} judged @param {VisitSession} session */
function resultWords(judged, session) {
  if (judged.value !== null) return valueWords(judged.value, judged.unit);
  if (judged.reason) return session.labels.reason(judged.reason);
  const names = judged.missing.map((/** @type {string} */ name) => session.labels.withPlace(name));
  return names.length ? `Missing: ${names.join("; ")}` : "–";
}

/**
 * Paint one derived quantity: its value or what it lacks, and on demand how it comes about.
 * @param {HTMLElement} row
 * @param {any[]} alternatives the derived quantities of this name, of which the first that applies holds
 * @param {VisitSession} session
 */
export function paintDerived(row, alternatives, session) {
  const judged = session.judgement.quantities[row.dataset.derived ?? ""];
  row.hidden = judged.applies !== true;
  if (row.hidden) return;
  const used = alternatives.find((one) => one.formula === judged.formula) ?? alternatives[0];
  say(row.querySelector("dt"), used.label);
  say(part(row, "value"), resultWords(judged, session));
}
