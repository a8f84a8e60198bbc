// What was typed into a formula's form, read: the same as webapp/calculator/reading.py does without script.
import { formulas } from "../generated/formulas.js";
import { sentence } from "../generated/messages.js";
import { unitLabel } from "../generated/units.js";
import { convert, readTyped } from "../judging/typed-number.js";
import { phrase } from "../language/phrase.js";
import { DAY } from "./words.js";

const ENDLESS = ["inf", "infinite", "infinity", "∞"];
const DIFFERENCES = ["degC", "degF"];

/**
 * A formula's form: what was typed by input, the unit chosen by input (`any` for the shared one), the units offered,
 * and how a person calls each input.
 * @typedef {{texts: Record<string, string[]>, units: Record<string, string>, offered: Record<string, string[]>, meanings: Record<string, string>}} Form
 */

/**
 * @typedef {{values: Record<string, any>, problems: Record<string, string>, shared: string}} Reading
 * @typedef {{value: any, unit: string, shown: any, shownUnit: string, reason: string, code: string, missing: string[], at: string}} Answer
 */

/** Sentences begin with a capital; pH keeps its own. @param {string} text */
const capital = (text) => (/^.\p{Lu}/u.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1));

/** @param {string} name @returns {any} */
export const declared = (name) => /** @type {any} */ (formulas)[name];

/**
 * Bare numbers in the declared units, or the sentence that says why not; what is empty is left out.
 * @param {string} name of the formula
 * @param {Form} form
 * @returns {Reading}
 */
export function readInputs(name, form) {
  /** @type {Reading} */
  const reading = { values: {}, problems: {}, shared: form.units.any || "1" };
  for (const [input, about] of Object.entries(declared(name).inputs)) {
    const typed = (form.texts[input] ?? []).map((text) => text.trim()).filter(Boolean);
    if (typed.length === 0) continue;
    if (about.options) {
      reading.values[input] = typed[0];
      continue;
    }
    const read = typed.map((text) => readOne(about, text, form.units[input], form.offered[input] ?? [], reading.shared));
    const problem = read.find((one) => one.problem)?.problem;
    if (problem) reading.problems[input] = explained(problem, form.meanings[input]);
    else reading.values[input] = about.at_least === undefined ? read[0].value : read.map((one) => one.value);
  }
  return reading;
}

/**
 * @param {any} about the input's declaration
 * @param {string} text
 * @param {string | undefined} chosen
 * @param {string[]} offered
 * @param {string} shared
 * @returns {{value?: any, unit?: string | null, problem?: any}}
 */
function readOne(about, text, chosen, offered, shared) {
  if (about.infinite && ENDLESS.includes(text.toLowerCase())) return { value: Infinity };
  if (about.unit === "date") return readDate(text);
  const own = about.unit === "any" ? shared : about.unit;
  const units = offered.length ? offered : [own];
  const typed = readTyped(text, own, units, chosen && units.includes(chosen) ? chosen : null);
  // 2 °C would become 275.15 K, where a difference of 2 K is meant.
  if (own === "K" && typed.unit && DIFFERENCES.includes(typed.unit)) {
    return { problem: { code: "wrong_unit", unit: typed.unit, units } };
  }
  return typed;
}

/** Whole days since 1970-01-01. @param {string} text */
function readDate(text) {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : NaN;
  const there = Number.isFinite(at) && new Date(at).toISOString().startsWith(text);
  return there ? { value: at / DAY } : { problem: { code: "not_a_date", typed: text } };
}

/** @param {string} unit */
export const sign = (unit) => (unit === "any" || unit === "date" ? "" : unitLabel(unit));

/**
 * The sentence of a reason, with the input and its units as a person knows them.
 * @param {any} reason
 * @param {string} [meaning]
 */
function explained(reason, meaning) {
  const details = { ...reason };
  if (meaning !== undefined) details.input = meaning;
  for (const name of ["unit", "wanted"]) if (name in details) details[name] = sign(details[name]);
  if (details.units) details.units = details.units.map((/** @type {string} */ unit) => sign(unit) || phrase("no unit"));
  return capital(sentence(details.code, details));
}

/**
 * The result, shown in the wanted unit, or why there is none.
 * @param {string} name of the formula
 * @param {Form} form
 * @param {Reading} reading
 * @returns {Answer}
 */
export function answer(name, form, reading) {
  const formula = declared(name);
  const none = { value: null, unit: "1", shown: null, shownUnit: "1", reason: "", code: "", missing: [], at: "" };
  const missing = missingInputs(formula, reading);
  if (missing.length || Object.keys(reading.problems).length) return { ...none, missing };
  const { value, reason } = formula.evaluate(reading.values);
  if (reason) {
    const at = reason.input ?? "";
    return { ...none, reason: explained(reason, form.meanings[at]), code: reason.code, at };
  }
  const unit = formula.unit === "any" ? reading.shared : formula.unit;
  return { ...none, value, unit, ...shownIn(value, unit, form.units.result) };
}

/** @param {any} formula @param {Reading} reading */
function missingInputs(formula, { values, problems }) {
  const names = Object.keys(formula.inputs);
  return names.filter((input) => {
    const about = formula.inputs[input];
    return !(input in values) && !(input in problems) && about.default === undefined && !about.optional;
  });
}

/** @param {any} value @param {string} unit @param {string | undefined} wanted */
function shownIn(value, unit, wanted) {
  const shown = wanted && typeof value === "number" ? convert(value, unit, wanted) : NaN;
  return Number.isFinite(shown) ? { shown, shownUnit: wanted ?? unit } : { shown: value, shownUnit: unit };
}
