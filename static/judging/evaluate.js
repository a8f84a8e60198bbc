/**
 * Evaluates a formula of ../generated/formulas.js: the twin of checks/inputs.py and of
 * Formula.evaluate and Formula.sensitivities in checks/formula.py, with the same reasons.
 */

/**
 * @typedef {{code: string, [detail: string]: any}} Refused
 * @typedef {{number?: any, reason?: Refused | null}} Taken
 * @typedef {object} Declared an input as checks/inputs.py declares it
 * @property {string[]} [options]
 * @property {any} [default]
 * @property {number} [minimum]
 * @property {number} [maximum]
 * @property {number} [above]
 * @property {number} [below]
 * @property {number[]} [among]
 * @property {number} [at_least]
 * @property {boolean} [optional]
 * @property {boolean} [repeats] read by quantities.js
 * @property {boolean} [counted]
 * @property {boolean} [infinite]
 * @typedef {Object<string, any>} Values
 * @typedef {object} Formula a descriptor of ../generated/formulas.js
 * @property {string} unit
 * @property {Object<string, Declared>} inputs
 * @property {(...given: any[]) => number} compute
 * @property {string[]} [words]
 * @property {string[]} [measured]
 * @property {(...given: any[]) => number[]} [slopes]
 * @property {[string, boolean, (...given: any[]) => boolean][]} [refusals]
 * @property {(...given: any[]) => Object<string, number>} [steps]
 */

const SLACK = 1e-9;
const LARGEST = 1e15;
const SMALLEST = 1e-30;

/**
 * Compute with bare numbers in the declared units: `{value, reason}`, one of them null.
 * @param {Formula} formula
 * @param {Values} values
 */
export function evaluate(formula, values) {
  const { given, reason } = read(formula, values);
  const refused = reason ?? refusedFor(formula, given, false);
  if (refused) return { value: null, reason: refused };
  const value = formula.compute(...given);
  if (!Number.isFinite(value)) return { value: null, reason: { code: "no_finite_result" } };
  const late = refusedFor(formula, [...given, value], true);
  if (late) return { value: null, reason: late };
  return { value: formula.words ? formula.words[value] : value, reason: null };
}

/**
 * Derivatives by the measured inputs; empty when there is no result, null where there is none.
 * @param {Formula} formula
 * @param {Values} values
 */
export function sensitivities(formula, values) {
  if (!formula.measured || evaluate(formula, values).value === null) return {};
  const slopes = formula.slopes?.(...read(formula, values).given) ?? [];
  return Object.fromEntries(
    formula.measured.map((name, place) => [name, Number.isFinite(slopes[place]) ? slopes[place] : null]),
  );
}

/**
 * The named intermediate values by symbol, for the shown working.
 * @param {Formula} formula
 * @param {Values} values
 */
export function steps(formula, values) {
  const { given, reason } = read(formula, values);
  return formula.steps && !reason ? formula.steps(...given) : {};
}

/**
 * Give every descriptor its methods.
 * @param {Object<string, any>} descriptors
 * @returns {Object<string, any>}
 */
export function catalogue(descriptors) {
  for (const [name, formula] of Object.entries(descriptors)) {
    formula.name = name;
    formula.evaluate = (/** @type {Values} */ values) => evaluate(formula, values);
    formula.sensitivities = (/** @type {Values} */ values) => sensitivities(formula, values);
    formula.stepValues = (/** @type {Values} */ values) => steps(formula, values);
  }
  return descriptors;
}

/**
 * The first of the formula's own reasons against these arguments, or null.
 * @param {Formula} formula
 * @param {any[]} given
 * @param {boolean} after
 */
function refusedFor(formula, given, after) {
  for (const [code, looksAtResult, condition] of formula.refusals ?? []) {
    if (looksAtResult === after && condition(...given)) return { code };
  }
  return null;
}

/**
 * The arguments of the compiled functions, or the first reason against one of them.
 * @param {Formula} formula
 * @param {Values} values
 * @returns {{given: any[], reason: Refused | null}}
 */
function read(formula, values) {
  /** @type {any[]} */
  const given = [];
  const flags = [];
  for (const input of Object.keys(values)) {
    if (!Object.hasOwn(formula.inputs, input)) {
      return { given, reason: { code: "unknown_input", input, inputs: Object.keys(formula.inputs) } };
    }
  }
  for (const [name, declared] of Object.entries(formula.inputs)) {
    const value = values[name] ?? null;
    const { number, reason } = readOne(name, declared, value);
    if (reason) return { given, reason };
    given.push(number);
    if (declared.optional) flags.push(value === null ? 0 : 1);
  }
  return { given: [...given, ...flags], reason: null };
}

/**
 * The number, code or list to compute with, or why the value cannot be used.
 * @param {string} name
 * @param {Declared} declared
 * @param {any} value
 * @returns {Taken}
 */
function readOne(name, declared, value) {
  if (declared.options) return readChoice(name, declared, value);
  return declared.at_least === undefined ? readNumber(name, declared, value) : readSeries(name, declared, value);
}

/**
 * The code of a word.
 * @param {string} input
 * @param {Declared} declared
 * @param {any} value
 * @returns {Taken}
 */
function readChoice(input, declared, value) {
  const options = declared.options ?? [];
  const chosen = value ?? declared.default ?? null;
  if (chosen === null) return { reason: { code: "missing_input", input } };
  const number = options.indexOf(String(chosen));
  return number < 0 ? { reason: { code: "unknown_choice", input, value: chosen, options } } : { number };
}

/**
 * A list of numbers.
 * @param {string} input
 * @param {Declared} declared
 * @param {any} value
 * @returns {Taken}
 */
function readSeries(input, declared, value) {
  if (value === null) return { reason: { code: "missing_input", input } };
  if (!Array.isArray(value)) return { reason: { code: "not_a_number", input, value } };
  const minimum = declared.at_least ?? 1;
  if (value.length < minimum) {
    return { reason: { code: "too_few_readings", input, count: value.length, minimum } };
  }
  const number = [];
  for (const one of value) {
    const taken = readNumber(input, declared, one);
    if (taken.reason) return taken;
    number.push(taken.number);
  }
  return { number };
}

/**
 * One number.
 * @param {string} input
 * @param {Declared} declared
 * @param {any} value
 * @returns {Taken}
 */
function readNumber(input, declared, value) {
  if (value === null || value === undefined) {
    if (declared.default !== undefined) return { number: declared.default };
    return declared.optional ? { number: 0 } : { reason: { code: "missing_input", input } };
  }
  if (declared.infinite && (value === "inf" || value === Infinity)) return { number: Infinity };
  if (!Number.isFinite(value)) return { reason: { code: "not_a_number", input, value } };
  if (declared.counted && !Number.isInteger(value)) return { reason: { code: "not_whole", input, value } };
  const number = Math.abs(value) < SMALLEST ? 0 : value;
  return { number, reason: outside(input, declared, number) };
}

/**
 * Why a number is outside what the formula holds for, or null.
 * @param {string} input
 * @param {Declared} declared
 * @param {any} value
 */
function outside(input, declared, value) {
  const { among, minimum, maximum, above, below } = declared;
  if (among) {
    const known = among.some(one => Math.abs(value - one) <= SLACK * Math.abs(one));
    return known ? null : { code: "not_in_table", input, value, options: among };
  }
  if (inside(declared, value)) return null;
  /** @type {Refused} */
  const reason = { code: "outside_range", input, value };
  reason.minimum = minimum ?? above ?? -LARGEST;
  reason.maximum = maximum ?? below ?? LARGEST;
  if (above !== undefined) reason.above = true;
  if (below !== undefined) reason.below = true;
  return reason;
}

/**
 * Ends that belong to the range have a slack of 1e-9: 212 degF is 100 degC.
 * @param {Declared} declared
 * @param {number} value
 */
function inside({ minimum, maximum, above, below }, value) {
  if (Math.abs(value) > LARGEST) return false;
  if (above !== undefined && value <= above) return false;
  if (below !== undefined && value >= below) return false;
  if (minimum !== undefined && value < minimum - SLACK * Math.max(1, Math.abs(minimum))) return false;
  return maximum === undefined || value <= maximum + SLACK * Math.max(1, Math.abs(maximum));
}
