import { formulas } from "../generated/formulas.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {{time: number, value: number}} Point a reading, with its moment in milliseconds since 1970 */

const MINUTE = 60_000;
const NEWEST = 3;
const CURVE = 40;

/**
 * What the procedure makes of a series: the derived quantities that take its newest readings, with the rules on them.
 * @param {any} step @param {string} field @param {string} formula @param {VisitSession} session
 */
function judgedBy(step, field, formula, session) {
  for (const one of step.derived) {
    const name = `${step.id}.${one.id}`;
    if (one.formula !== formula || one.inputs.readings?.quantity !== field || session.judgement.quantities[name]?.applies === false) continue;
    const rule = step.rules.find((/** @type {any} */ candidate) => candidate.kind === "limit" && candidate.reading === name);
    if (rule) return { name, rule, newest: one.inputs.readings.newest };
  }
  return null;
}

/** @param {VisitSession} session @param {string | null | undefined} name @returns {number | null} */
function valueOf(session, name) {
  const value = name ? session.judgement.quantities[name]?.value : null;
  return typeof value === "number" ? value : null;
}

/**
 * How well the newest readings agree and how well they must, as half-ranges relative to their mean.
 * @param {any} step @param {string} field @param {VisitSession} session
 * @returns {{newest: number, found: number | null, enough: number | null} | null}
 */
export function stabilityOf(step, field, session) {
  const judged = judgedBy(step, field, "reading_stability", session);
  if (judged === null) return null;
  return { newest: judged.newest, found: valueOf(session, judged.name), enough: valueOf(session, judged.rule.upper) };
}

/**
 * The limit that the last reading has to keep.
 * @param {any} step @param {string} field @param {VisitSession} session
 * @returns {{name: string, value: number, side: "lower" | "upper"} | null}
 */
export function limitOf(step, field, session) {
  const rule = judgedBy(step, field, "last_reading", session)?.rule;
  for (const side of /** @type {const} */ (["upper", "lower"])) {
    const value = valueOf(session, rule?.[side]);
    if (value !== null) return { name: rule[side], value, side };
  }
  return null;
}

/**
 * The washing out that leads to the limit, as the procedure computes it: its inputs, its time in minutes, its start.
 * @param {any} step @param {string} limit the quantity @param {VisitSession} session
 * @returns {{inputs: any, minutes: number, since: number | null} | null}
 */
export function washoutOf(step, limit, session) {
  const one = step.derived.find((/** @type {any} */ derived) => derived.formula === "washout_time" && derived.inputs.limit === limit);
  if (!one) return null;
  const name = `${step.id}.${one.id}`;
  const judged = session.judgement.quantities[name];
  if (typeof judged?.value !== "number") return null;
  const timed = step.rules.find((/** @type {any} */ rule) => rule.expected === name);
  const counted = step.derived.find((/** @type {any} */ derived) => `${step.id}.${derived.id}` === timed?.reading);
  const since = Date.parse(counted ? (session.content(counted.inputs.start)?.value ?? "") : "");
  return { inputs: judged.inputs, minutes: judged.value, since: Number.isNaN(since) ? null : since };
}

/**
 * The predicted course by the formula of the catalogue, from the start to its end or to the last reading.
 * @param {{inputs: any, minutes: number, since: number | null}} washout @param {number} last milliseconds since 1970
 * @returns {Point[]}
 */
export function courseOf({ inputs, minutes, since }, last) {
  if (since === null) return [];
  const until = Math.max(since + minutes * MINUTE, last);
  if (until === since) return [];
  const { volume, flow, start, inflow } = inputs;
  return Array.from({ length: CURVE + 1 }, (_, step) => {
    const time = since + ((until - since) * step) / CURVE;
    return { time, value: formulas.washout_concentration.evaluate({ volume, flow, time: (time - since) / MINUTE, start, inflow }).value };
  }).filter((point) => point.value !== null);
}

/**
 * When the limit is reached if the newest readings go on as they went: how many ideal water changes lay between them,
 * in what time, and how many are left. Null where they do not come nearer to the limit, or never will.
 * @param {Point[]} points by time @param {number} inflow @param {number} limit
 * @returns {number | null} milliseconds since 1970
 */
export function reachedByReadings(points, inflow, limit) {
  const recent = points.slice(-NEWEST);
  const [first, last] = [recent[0], recent.at(-1)];
  if (!last || recent.length < 2 || last.time <= first.time) return null;
  const changes = (/** @type {number} */ start, /** @type {number} */ to) =>
    formulas.washout_volumes.evaluate({ start, limit: to, inflow }).value;
  const [done, left] = [changes(first.value, last.value), changes(last.value, limit)];
  if (done === null || left === null || done <= 0) return null;
  return last.time + (left / done) * (last.time - first.time);
}
