// One reading against one interval. Twin of checks/interval.py, which explains it.

import { finite } from "./instrument.js";
import { atMost } from "./nodes.js";

const COVERAGE = 2;
const RULES = { guarded: "binary", non_binary: "non_binary", simple: "simple" };

/** The result of a rule of which only the verdict is known. */
export function blank(verdict) {
  return {
    verdict,
    reading: null,
    unit: null,
    u: null,
    expanded: null,
    k: null,
    nu: null,
    lower: null,
    upper: null,
    accept_lower: null,
    accept_upper: null,
    margin: null,
    probability: null,
    missing: [],
    reasons: [],
  };
}

/** The result of a limit rule. `found` has reading, u, nu, lower, upper, unit, uncertaintyAt, least, most. */
export function judgeInterval(rule, found, formulas) {
  const result = blank("not_measured");
  const { reading, unit, u, nu, lower, upper } = found;
  const k = coverage(nu, formulas);
  Object.assign(result, { reading, unit, u, lower, upper });
  if (u !== null) Object.assign(result, { expanded: k * u, k, nu });
  if (lower !== null && upper !== null && !atMost(lower, upper)) {
    const crossed = { code: "lower_above_upper", lower, upper, unit };
    return Object.assign(result, { verdict: "no_valid_setting", reasons: [crossed] });
  }
  const guard = rule.decision === "simple" ? 0 : rule.guard;
  result.accept_lower = accept(lower, guard * k, found);
  result.accept_upper = accept(upper, -guard * k, found);
  const without = guard ? hopeless(result, found) : null;
  if (without !== null) return Object.assign(result, { verdict: "instrument_not_good_enough", reasons: [without] });
  return reading === null ? result : decide(rule, found, result, guard, formulas);
}

function decide(rule, found, result, guard, formulas) {
  if (guard && found.u === null) {
    return Object.assign(result, { verdict: "instrument_not_good_enough", reasons: [{ code: "uncertainty_unknown" }] });
  }
  const { reading, lower, upper } = found;
  const outcome = formulas.guarded_verdict.evaluate({
    reading,
    expanded_uncertainty: result.expanded ?? 0,
    lower,
    upper,
    guard: rule.guard,
    rule: RULES[rule.decision],
  });
  if (outcome.value === null) return Object.assign(result, { reasons: [outcome.reason] });
  result.verdict = outcome.value;
  if (rule.strict && ["pass", "conditional_pass"].includes(outcome.value) && atLimit(found)) {
    result.verdict = rule.decision === "non_binary" ? "conditional_fail" : "fail";
  }
  result.margin = margin(found, result);
  result.probability = probability(found, formulas);
  return result;
}

/** The factor of the expanded uncertainty: Student's t at the degrees of freedom. */
function coverage(nu, formulas) {
  if (nu === null) return COVERAGE;
  return formulas.coverage_factor.evaluate({ degrees_of_freedom: nu }).value ?? COVERAGE;
}

/** The reading that is just accepted: the limit moved by so many standard uncertainties. */
function accept(limit, times, found) {
  if (limit === null || !times) return limit;
  if (found.uncertaintyAt !== null) return solve(limit, times, found.uncertaintyAt);
  return found.u === null ? null : finite(limit + times * found.u);
}

/** y = limit + times * u(y), by secants: u is nearly a straight line, so that a few steps are exact. */
function solve(limit, times, uncertaintyAt) {
  let before = limit;
  let u = uncertaintyAt(limit);
  if (u === null) return null;
  let offBefore = -times * u;
  let here = limit + times * u;
  for (let step = 0; step < 8; step += 1) {
    u = uncertaintyAt(here);
    if (u === null) return null;
    const off = here - limit - times * u;
    if (off === offBefore || Math.abs(off) <= 1e-15 * Math.abs(limit)) break;
    [before, here] = [here, here - (off * (here - before)) / (off - offBefore)];
    offBefore = off;
  }
  return finite(here);
}

/** Why no reading at all could pass with this uncertainty, if so. */
function hopeless(result, found) {
  const { accept_lower: low, accept_upper: high } = result;
  const { lower, upper, least, most, unit } = found;
  if (lower !== null && upper !== null) {
    if (low === null || high === null || atMost(low, high)) return null;
    return { code: "window_too_narrow", expanded: wanting(result, found), needed: (upper - lower) / 2, unit };
  }
  const tooLow = high !== null && least !== null && !atMost(least, high);
  const tooHigh = low !== null && most !== null && !atMost(low, most);
  return tooLow || tooHigh ? { code: "no_reading_can_pass", expanded: wanting(result, found), unit } : null;
}

/** The expanded uncertainty that is too large: at the reading, or else at the limit. */
function wanting(result, found) {
  if (result.expanded !== null && found.reading !== null) return result.expanded;
  return found.upper !== null ? Math.abs(result.accept_upper - result.upper) : Math.abs(result.accept_lower - result.lower);
}

function atLimit({ reading, lower, upper }) {
  return [lower, upper].some((end) => end !== null && atMost(reading, end) && atMost(end, reading));
}

/** Distance from the nearer acceptance limit, below zero outside. */
function margin({ reading }, { accept_lower: low, accept_upper: high }) {
  const rooms = [];
  if (high !== null) rooms.push(high - reading);
  if (low !== null) rooms.push(reading - low);
  return rooms.length ? Math.min(...rooms) : null;
}

/** How likely the true value conforms; null where no uncertainty is known. */
function probability({ reading, u, nu, lower, upper }, formulas) {
  if (!u) return null;
  const given = { reading, standard_uncertainty: u, lower, upper, degrees_of_freedom: nu };
  return formulas.conformance_probability.evaluate(given).value;
}
