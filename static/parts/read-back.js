import { readTyped } from "../judging/typed-number.js";
import { phrase } from "../language/phrase.js";
import { part, say } from "./element.js";
import { quantity } from "./words.js";

/**
 * How a typed number was read, where that is not plain to see, or why it cannot be used.
 * @param {any} content
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 * @returns {{read: string, error: string}}
 */
export function readBack(content, entry, session) {
  if (!content || content.typed === undefined) return { read: "", error: "" };
  const { value, problem } = readTyped(content.typed, entry.unit ?? "1", entry.units, content.unit);
  if (problem) return { read: "", error: session.labels.reason({ ...problem, input: entry.label }) };
  if (value === null) return { read: "", error: "" };
  const { minimum, maximum, unit } = entry;
  if ((minimum !== null && value < minimum) || (maximum !== null && value > maximum)) {
    return { read: "", error: session.labels.reason({ code: "outside_possible", value, minimum, maximum, unit }) };
  }
  const plain = /^\d+(\.\d+)?$/.test(content.typed.trim()) && content.unit === (unit ?? "1");
  return { read: plain ? "" : phrase("Read as {quantity}", { quantity: quantity(value, unit, 6) }), error: "" };
}

/**
 * @param {HTMLElement} element the entry
 * @param {HTMLElement} input
 * @param {string} error empty: none
 */
export function showError(element, input, error) {
  say(part(element, "error"), error);
  if (error) input.setAttribute("aria-invalid", "true");
  else input.removeAttribute("aria-invalid");
}
