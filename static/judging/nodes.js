/**
 * The operations that are no plain expression: the twin of checks/nodes.py.
 *
 * Every function walks the same steps as its twin, so that both give the same digits. No domain
 * word belongs here.
 *
 * @typedef {{keys: number[], values: number[]}} Table
 */

export { catalogue, evaluate, sensitivities } from "./evaluate.js";

const SLACK = 1e-9;
const HALVINGS = 80;

/**
 * Compare with a relative slack of 1e-9: 0.5 - 0.042 counts as at most 0.458.
 * @param {number} value
 * @param {number} limit
 */
export function atMost(value, limit) {
  return value <= limit || value - limit <= SLACK * Math.max(1, Math.min(Math.abs(value), Math.abs(limit)));
}

/**
 * The larger of two numbers.
 * @param {number} first
 * @param {number} second
 */
export const larger = (first, second) => (first >= second ? first : second);
/**
 * The smaller of two numbers.
 * @param {number} first
 * @param {number} second
 */
export const smaller = (first, second) => (first <= second ? first : second);

/**
 * Steps begun: 1.2 steps count as 2, 1.0000000001 as 1.
 * @param {number} value
 */
export const started = value => Math.ceil(value - SLACK);

/**
 * Steps completed: 1.8 steps count as 1, 1.9999999999 as 2.
 * @param {number} value
 */
export const completed = value => Math.floor(value + SLACK);

/**
 * Sum of a function over the readings, in their order; NaN when lengths differ.
 * @param {(...values: number[]) => number} body
 * @param {number[][]} series
 */
export function total(body, ...series) {
  const size = series[0].length;
  if (series.some(other => other.length !== size)) return NaN;
  let result = 0;
  for (let place = 0; place < size; place += 1) {
    result += body(...series.map(values => values[place]));
  }
  return result;
}

/**
 * How many readings there are.
 * @param {number[]} series
 */
export const count = series => series.length;
/**
 * The newest reading.
 * @param {number[]} series
 */
export const last = series => (series.length ? series[series.length - 1] : NaN);
/**
 * The newest readings, as many as asked for; all of them when asked for 0.
 * @param {number[]} series
 * @param {number} number
 */
export const tail = (series, number) => (number > 0 ? series.slice(-Math.trunc(number)) : series);
/**
 * The greatest reading.
 * @param {number[]} series
 */
export const greatest = series => (series.length ? Math.max(...series) : NaN);
/**
 * The least reading.
 * @param {number[]} series
 */
export const least = series => (series.length ? Math.min(...series) : NaN);

/**
 * Least-squares slope per reading, the readings being evenly spaced; NaN for fewer than two.
 * @param {number[]} series
 */
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

/**
 * Sum of the squared deviations of the readings from their mean.
 * @param {number[]} series
 */
export function squares(series) {
  const mean = total(value => value, series) / series.length;
  let result = 0;
  for (const value of series) result += (value - mean) * (value - mean);
  return result;
}

/**
 * The table's value at exactly this key; NaN when the key is not in the table.
 * @param {Table} table
 * @param {number} key
 */
export function exact({ keys, values }, key) {
  const row = keys.findIndex(known => atMost(known, key) && atMost(key, known));
  return row < 0 ? NaN : values[row];
}

/**
 * The table's value at this key or at the next lower one; NaN outside the table.
 * @param {Table} table
 * @param {number} key
 */
export function stepDown({ keys, values }, key) {
  let found = NaN;
  keys.forEach((known, row) => {
    if (atMost(known, key)) found = values[row];
  });
  return atMost(key, keys[keys.length - 1]) ? found : NaN;
}

/**
 * The table's value, straight lines between the rows; NaN outside the table.
 * @param {Table} table
 * @param {number} key
 */
export function linear({ keys, values }, key) {
  const row = rowOf(keys, key);
  if (row < 0) return NaN;
  const share = (key - keys[row]) / (keys[row + 1] - keys[row]);
  return values[row] + share * (values[row + 1] - values[row]);
}

/**
 * Slope of the straight line that `linear` uses at this key.
 * @param {Table} table
 * @param {number} key
 */
export function linearSlope({ keys, values }, key) {
  const row = rowOf(keys, key);
  return row < 0 ? NaN : (values[row + 1] - values[row]) / (keys[row + 1] - keys[row]);
}

/**
 * Index of the line's lower row; -1 outside the table.
 * @param {number[]} keys
 * @param {number} key
 */
function rowOf(keys, key) {
  if (!(atMost(keys[0], key) && atMost(key, keys[keys.length - 1]))) return -1;
  let row = 0;
  while (row < keys.length - 2 && keys[row + 1] <= key) row += 1;
  return row;
}

/**
 * Where a function changes its sign between the two ends, by halving 80 times.
 * @param {(x: number) => number} body
 * @param {number} lower
 * @param {number} upper
 */
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

/**
 * Probability of at most `number` events when `mean` are expected.
 * @param {number} number
 * @param {number} mean
 */
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

/**
 * Probability of exactly `number` events when `mean` are expected.
 * @param {number} number
 * @param {number} mean
 */
export function poissonDensity(number, mean) {
  const half = Math.exp(-mean / 2);
  let term = half;
  for (let event = 1; event <= number; event += 1) term = (term * mean) / event;
  return term * half;
}

/**
 * Share of Student's distribution below t, for a whole number of degrees of freedom.
 * @param {number} t
 * @param {number} degrees
 */
export function student(t, degrees) {
  const below = Math.sqrt(degrees + t * t);
  const sine = t / below;
  const square = degrees / (degrees + t * t);
  const odd = degrees % 2;
  let term = odd ? sine * Math.sqrt(square) : sine;
  let result = 0;
  for (let step = odd + 1; step < degrees + odd; step += 2) {
    result += term;
    term = (term * square * step) / (step + 1);
  }
  const share = odd ? (2 / Math.PI) * (Math.atan(t / Math.sqrt(degrees)) + result) : result;
  return (1 + share) / 2;
}

/**
 * Density of Student's distribution at t, for a whole number of degrees of freedom.
 * @param {number} t
 * @param {number} degrees
 */
export function studentDensity(t, degrees) {
  let scale = degrees % 2 ? 1 / Math.sqrt(Math.PI) : Math.sqrt(Math.PI) / 2;
  for (let step = 2 - (degrees % 2); step < degrees; step += 2) scale = (scale * (step + 1)) / step;
  const power = Math.pow(1 + (t * t) / degrees, -(degrees + 1) / 2);
  return (scale / Math.sqrt(degrees * Math.PI)) * power;
}
