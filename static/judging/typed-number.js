/**
 * Reads a number as people type it, and converts units: the twin of read_typed and convert in
 * checks/units.py. The factors come from there (../generated/units.js).
 */
import { letters, lowered, spellings, units as offered } from "../generated/units.js";

/** @type {Object<string, [string, string, number, number]>} */
const table = /** @type {any} */ (offered);
/** @type {[Object<string, string>, Object<string, string>]} */
const names = [spellings, lowered];

const SPACES = /[ \t\u00a0\u2007\u2009\u202f]+/g;
const PARTS = /^([+-]?) ?([0-9][0-9., ]*|[.,][0-9]+)((?:[eE][+-]?[0-9]+)?)(.*)$/s;
const PLAIN = /^[0-9]*[.,]?[0-9]*$/;
const AMBIGUOUS = /^(?!0+,)[0-9]{1,3},[0-9]{3}$/;
/** @type {[string, RegExp][]} */
const GROUPED = [
  [" ", /^[1-9][0-9]{0,2}(?: [0-9]{3})+(?:[.,][0-9]*)?$/],
  [".", /^[1-9][0-9]{0,2}(?:\.[0-9]{3})+(?:,[0-9]*)?$/],
  [",", /^[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?$/],
];

/**
 * What was typed, read: `{value, unit, problem}`.
 *
 * `unit` is the entry's own unit, in which the value is given back; `units` are those offered,
 * named in a problem; `chosen` is the unit picked beside the number (the entry's own when
 * absent); a unit typed with the number counts before it. Nothing typed is no problem.
 *
 * @param {string} text
 * @param {string} unit
 * @param {string[]} units
 * @param {string | null} [chosen]
 * @returns {{value: number | null, unit: string | null, problem: Object | null}}
 */
export function readTyped(text, unit, units, chosen = null) {
  const plain = trimmed(text.replaceAll("\u2212", "-").replace(SPACES, " "));
  if (!plain) return { value: null, unit: null, problem: null };
  const parts = PARTS.exec(plain);
  if (!parts) return unreadable({ code: "not_a_number", typed: text });
  const [, sign, spaced, exponent, suffix] = parts;
  const body = trimmed(spaced);
  const digits = digitsOf(body);
  if (digits === null) return unreadable(whyNot(body, text));
  const { meant, problem } = unitMeant(trimmed(suffix), chosen || unit, unit, units);
  if (meant === undefined) return unreadable(problem);
  const value = Number(`${sign}${digits}${exponent}`);
  const lost = value === 0 && /[1-9]/.test(digits);
  const converted = lost ? Infinity : convert(value, meant, unit);
  if (!Number.isFinite(converted)) {
    return { value: null, unit: meant, problem: { code: "out_of_float_range", typed: text } };
  }
  return { value: converted, unit: meant, problem: null };
}

/**
 * Whether a value in one unit can be said in the other.
 * @param {string} unit
 * @param {string} to
 */
export function canConvert(unit, to) {
  const [given, wanted] = [scale(unit).dimension, scale(to).dimension];
  return given === wanted || reciprocal(given, wanted);
}

/**
 * The value in another unit of the same dimension; conductivity and resistivity turn into one
 * another as reciprocals, without any compensation. NaN when the units measure different things.
 * @param {number} value
 * @param {string} unit
 * @param {string} to
 */
export function convert(value, unit, to) {
  if (unit === to) return value;
  const [given, wanted] = [scale(unit), scale(to)];
  if (!canConvert(unit, to)) return NaN;
  const base = value * given.factor + given.offset;
  return ((given.dimension === wanted.dimension ? base : 1 / base) - wanted.offset) / wanted.factor;
}

/**
 * By how much the converted value changes per unit of the value; for uncertainties.
 * @param {number} value
 * @param {string} unit
 * @param {string} to
 */
export function conversionSlope(value, unit, to) {
  if (unit === to) return 1;
  const [given, wanted] = [scale(unit), scale(to)];
  const plain = given.factor / wanted.factor;
  if (given.dimension === wanted.dimension) return plain;
  const base = value * given.factor + given.offset;
  return -plain / (base * base);
}

/**
 * The offered unit that was meant, or null: exact first, then whatever the case of the letters.
 * @param {string} text
 * @returns {string | null}
 */
export function unitNamed(text) {
  let plain = text;
  for (const [typed, written] of Object.entries(letters)) plain = plain.replaceAll(typed, written);
  plain = plain.replaceAll(" ", "");
  const small = plain.toLowerCase();
  if (Object.hasOwn(names[0], plain)) return names[0][plain];
  return Object.hasOwn(names[1], small) ? names[1][small] : null;
}

/** @param {string} unit */
function scale(unit) {
  if (!Object.hasOwn(table, unit)) return { dimension: unit, factor: 1, offset: 0 };
  const [, dimension, factor, offset] = table[unit];
  return { dimension, factor, offset };
}

/**
 * @param {string} given
 * @param {string} wanted
 */
const reciprocal = (given, wanted) =>
  (given === "conductivity" && wanted === "resistivity") || (given === "resistivity" && wanted === "conductivity");

/** @param {string} text */
const trimmed = text => text.replace(/^ +| +$/g, "");

/** @param {Object} problem */
const unreadable = problem => ({ value: null, unit: null, problem });

/**
 * The digits with a decimal point and without grouping; null when they cannot be read.
 * @param {string} body
 */
function digitsOf(body) {
  if (PLAIN.test(body)) return AMBIGUOUS.test(body) ? null : body.replace(",", ".");
  for (const [mark, pattern] of GROUPED) {
    if (pattern.test(body)) return body.replaceAll(mark, "").replace(",", ".");
  }
  return null;
}

/**
 * Why the digits cannot be read; both ways of reading where there are two.
 * @param {string} body
 * @param {string} text
 */
function whyNot(body, text) {
  if (!AMBIGUOUS.test(body)) return { code: "not_a_number", typed: text };
  return { code: "ambiguous_number", typed: text, decimal: body.replace(",", "."), whole: body.replace(",", "") };
}

/**
 * The unit typed with the number, or the other one; or the problem with it.
 * @param {string} suffix
 * @param {string} otherwise
 * @param {string} unit
 * @param {string[]} units
 * @returns {{meant: string, problem?: undefined} | {meant?: undefined, problem: Object}}
 */
function unitMeant(suffix, otherwise, unit, units) {
  if (!suffix) return { meant: otherwise };
  const named = unitNamed(suffix);
  if (named === null) return { problem: { code: "unknown_unit", unit: suffix, units } };
  if (!canConvert(named, unit)) return { problem: { code: "wrong_unit", unit: named, units } };
  return { meant: named };
}
