// How far a computed value can be off. Twin of checks/uncertainty.py, which explains it.

import { finite } from "./instrument.js";
import { completed } from "./nodes.js";

/**
 * @typedef {{own: number, common: number, instrument: string | null, degrees: number | null}} Contribution
 * @typedef {Map<string, [number, Contribution]>} Slopes
 */

/** @type {Contribution} */
export const UNKNOWN = { own: NaN, common: 0, instrument: null, degrees: null };

/**
 * The combined standard uncertainty (null: unknown) and its degrees of freedom (null: no limit).
 * @param {Slopes} slopes
 * @param {any} formulas
 */
export function combined(slopes, formulas) {
  const shared = new Map();
  const observed = [];
  let specified = 0;
  for (const [slope, brought] of slopes.values()) {
    const own = slope * brought.own;
    if (brought.degrees === null) specified += own * own;
    else observed.push({ u: Math.abs(own), degrees: brought.degrees });
    if (brought.instrument !== null) {
      shared.set(brought.instrument, (shared.get(brought.instrument) ?? 0) + slope * brought.common);
    }
  }
  for (const together of shared.values()) specified += together * together;
  let total = specified;
  for (const { u } of observed) total += u * u;
  return { u: finite(Math.sqrt(total)), nu: degreesOf(Math.sqrt(specified), observed, formulas) };
}

/**
 * What the scatter of repeated readings brings into their mean; null for a single one.
 * @param {number[]} values
 * @param {any} formulas
 * @returns {Contribution | null}
 */
export function repeated(values, formulas) {
  if (values.length < 2) return null;
  const u = formulas.series_mean_uncertainty.evaluate({ readings: values }).value;
  return { own: u ?? NaN, common: 0, instrument: null, degrees: values.length - 1 };
}

/**
 * Effective degrees of freedom, truncated to the next lower integer.
 * @param {number} specified
 * @param {{u: number, degrees: number}[]} observed
 * @param {any} formulas
 * @returns {number | null}
 */
function degreesOf(specified, observed, formulas) {
  if (!observed.length) return null;
  const uncertainties = [specified, ...observed.map(({ u }) => u)];
  const degrees = ["inf", ...observed.map((one) => one.degrees)];
  const { value } = formulas.effective_degrees_of_freedom.evaluate({ uncertainties, degrees });
  return value === null ? null : completed(value);
}
