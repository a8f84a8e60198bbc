/**
 * The operations that are no plain expression, and the evaluation of a formula: the twin of
 * checks/nodes.py, checks/inputs.py and Formula.evaluate in checks/formula.py.
 *
 * Every function walks the same steps as its twin, so that both give the same digits and the
 * same reasons. No domain word belongs here.
 */

const SLACK = 1e-9;
const HALVINGS = 80;
const LARGEST = 1e15;

/** Compare with a relative slack of 1e-9: 0.5 - 0.042 counts as at most 0.458. */
export function atMost(value, limit) {
  return value <= limit || value - limit <= SLACK * Math.max(1, Math.min(Math.abs(value), Math.abs(limit)));
}

export const larger = (first, second) => (first >= second ? first : second);
export const smaller = (first, second) => (first <= second ? first : second);

/** Steps begun: 1.2 steps count as 2, 1.0000000001 as 1. */
export const started = value => Math.ceil(value - SLACK);

/** Steps completed: 1.8 steps count as 1, 1.9999999999 as 2. */
export const completed = value => Math.floor(value + SLACK);

/** Sum of a function over the readings, in their order; NaN when lengths differ. */
export function total(body, ...series) {
  const size = series[0].length;
  if (series.some(other => other.length !== size)) return NaN;
  let result = 0;
  for (let place = 0; place < size; place += 1) {
    result += body(...series.map(values => values[place]));
  }
  return result;
}

export const count = series => series.length;
export const last = series => (series.length ? series[series.length - 1] : NaN);
export const tail = (series, number) => (number > 0 ? series.slice(-Math.trunc(number)) : series);
export const greatest = series => (series.length ? Math.max(...series) : NaN);
export const least = series => (series.length ? Math.min(...series) : NaN);

/** Least-squares slope per reading, the readings being evenly spaced; NaN for fewer than two. */
export function slope(series) {
  const size = series.length;
  if (size < 2) return NaN;
  const middle = (size - 1) / 2;
  let above = 0;
  let below = 0;
  series.forEach((value, place) => {
    above += (place - middle) * value;
    below += (place - middle) * (place - middle);
  });
  return above / below;
}

/** The table's value at exactly this key; NaN when the key is not in the table. */
export function exact({keys, values}, key) {
  const row = keys.findIndex(known => atMost(known, key) && atMost(key, known));
  return row < 0 ? NaN : values[row];
}

/** The table's value at this key or at the next lower one; NaN outside the table. */
export function stepDown({keys, values}, key) {
  let found = NaN;
  keys.forEach((known, row) => {
    if (atMost(known, key)) found = values[row];
  });
  return atMost(key, keys[keys.length - 1]) ? found : NaN;
}

/** The table's value, straight lines between the rows; NaN outside the table. */
export function linear({keys, values}, key) {
  const row = rowOf(keys, key);
  if (row < 0) return NaN;
  const share = (key - keys[row]) / (keys[row + 1] - keys[row]);
  return values[row] + share * (values[row + 1] - values[row]);
}

/** Slope of the straight line that `linear` uses at this key. */
export function linearSlope({keys, values}, key) {
  const row = rowOf(keys, key);
  return row < 0 ? NaN : (values[row + 1] - values[row]) / (keys[row + 1] - keys[row]);
}

function rowOf(keys, key) {
  if (!(atMost(keys[0], key) && atMost(key, keys[keys.length - 1]))) return -1;
  let row = 0;
  while (row < keys.length - 2 && keys[row + 1] <= key) row += 1;
  return row;
}

/** Where a function changes its sign between the two ends, by halving 80 times. */
export function root(body, lower, upper) {
  const atLower = body(lower);
  if (atLower === 0) return lower;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = lower + (upper - lower) / 2;
    if (body(middle) > 0 === atLower > 0) lower = middle;
    else upper = middle;
  }
  return lower + (upper - lower) / 2;
}

/** Probability of at most `number` events when `mean` are expected. */
export function poisson(number, mean) {
  if (number < 0) return 0;
  const half = Math.exp(-mean / 2);
  let term = half;
  let result = term;
  for (let event = 1; event <= number; event += 1) {
    term = (term * mean) / event;
    result += term;
  }
  return result * half;
}

/** Probability of exactly `number` events when `mean` are expected. */
export function poissonDensity(number, mean) {
  const half = Math.exp(-mean / 2);
  let term = half;
  for (let event = 1; event <= number; event += 1) term = (term * mean) / event;
  return term * half;
}

/** Compute with bare numbers in the declared units: `{value, reason}`, one of them null. */
export function evaluate(formula, values) {
  const {given, reason} = read(formula, values);
  const refused = reason ?? refusedFor(formula, given, false);
  if (refused) return {value: null, reason: refused};
  const value = formula.compute(...given);
  if (!Number.isFinite(value)) return {value: null, reason: {code: "no_finite_result"}};
  const late = refusedFor(formula, [...given, value], true);
  if (late) return {value: null, reason: late};
  return {value: formula.words ? formula.words[value] : value, reason: null};
}

/** Derivatives by the measured inputs; empty when there is no result, null where there is none. */
export function sensitivities(formula, values) {
  if (!formula.measured || evaluate(formula, values).value === null) return {};
  const slopes = formula.slopes(...read(formula, values).given);
  return Object.fromEntries(
    formula.measured.map((name, place) => [name, Number.isFinite(slopes[place]) ? slopes[place] : null]),
  );
}

/** The named intermediate values by symbol, for the shown working. */
export function steps(formula, values) {
  const {given, reason} = read(formula, values);
  return formula.steps && !reason ? formula.steps(...given) : {};
}

/** Give every descriptor its methods. */
export function catalogue(descriptors) {
  for (const [name, formula] of Object.entries(descriptors)) {
    formula.name = name;
    formula.evaluate = values => evaluate(formula, values);
    formula.sensitivities = values => sensitivities(formula, values);
    formula.stepValues = values => steps(formula, values);
  }
  return descriptors;
}

function refusedFor(formula, given, after) {
  for (const [code, looksAtResult, condition] of formula.refusals ?? []) {
    if (looksAtResult === after && condition(...given)) return {code};
  }
  return null;
}

function read(formula, values) {
  const given = [];
  const flags = [];
  for (const input of Object.keys(values)) {
    if (!Object.hasOwn(formula.inputs, input)) {
      return {reason: {code: "unknown_input", input, inputs: Object.keys(formula.inputs)}};
    }
  }
  for (const [name, declared] of Object.entries(formula.inputs)) {
    const value = values[name] ?? null;
    const {number, reason} = readOne(name, declared, value);
    if (reason) return {reason};
    given.push(number);
    if (declared.optional) flags.push(value === null ? 0 : 1);
  }
  return {given: [...given, ...flags], reason: null};
}

function readOne(name, declared, value) {
  if (declared.options) return readChoice(name, declared, value);
  return declared.at_least === undefined ? readNumber(name, declared, value) : readSeries(name, declared, value);
}

function readChoice(input, {options, default: usual}, value) {
  const chosen = value ?? usual ?? null;
  if (chosen === null) return {reason: {code: "missing_input", input}};
  const number = options.indexOf(String(chosen));
  return number < 0 ? {reason: {code: "unknown_choice", input, value: chosen, options}} : {number};
}

function readSeries(input, declared, value) {
  if (value === null) return {reason: {code: "missing_input", input}};
  if (!Array.isArray(value)) return {reason: {code: "not_a_number", input, value}};
  if (value.length < declared.at_least) {
    return {reason: {code: "too_few_readings", input, count: value.length, minimum: declared.at_least}};
  }
  const number = [];
  for (const one of value) {
    const taken = readNumber(input, declared, one);
    if (taken.reason) return taken;
    number.push(taken.number);
  }
  return {number};
}

function readNumber(input, declared, value) {
  if (value === null || value === undefined) {
    if (declared.default !== undefined) return {number: declared.default};
    return declared.optional ? {number: 0} : {reason: {code: "missing_input", input}};
  }
  if (declared.infinite && (value === "inf" || value === Infinity)) return {number: Infinity};
  if (!Number.isFinite(value)) return {reason: {code: "not_a_number", input, value}};
  if (declared.counted && !Number.isInteger(value)) return {reason: {code: "not_whole", input, value}};
  return {number: value, reason: outside(input, declared, value)};
}

function outside(input, declared, value) {
  const {among, minimum, maximum, above, below} = declared;
  if (among) {
    const known = among.some(one => Math.abs(value - one) <= SLACK * Math.abs(one));
    return known ? null : {code: "not_in_table", input, value, options: among};
  }
  if (inside(declared, value)) return null;
  const reason = {code: "outside_range", input, value};
  reason.minimum = minimum ?? above ?? -LARGEST;
  reason.maximum = maximum ?? below ?? LARGEST;
  if (above !== undefined) reason.above = true;
  if (below !== undefined) reason.below = true;
  return reason;
}

function inside({minimum, maximum, above, below}, value) {
  if (Math.abs(value) > LARGEST) return false;
  if (above !== undefined && value <= above) return false;
  if (below !== undefined && value >= below) return false;
  if (minimum !== undefined && value < minimum - SLACK * Math.max(1, Math.abs(minimum))) return false;
  return maximum === undefined || value <= maximum + SLACK * Math.max(1, Math.abs(maximum));
}
