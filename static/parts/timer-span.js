import { recall, remember } from "./habits.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * A time that runs between two moments of the record; `since` is null where the phone's own stopwatch keeps the first.
 * @typedef {{step: string, since: string | null, until: string, label: string, rules: any[]}} Span
 */

/**
 * A span as it stands now, in milliseconds since 1970: when it began and ended, when the time asked for is over
 * (`predicted`: computed, and the readings decide), and until when it may last.
 * @typedef {{since: number, until: number | null, over: number | null, predicted: boolean, latest: number | null}} Running
 */

const MINUTE = 60_000;

/** @type {WeakMap<any, Span[]>} */
const known = new WeakMap();

/** The times of a step: what the procedure counts in minutes, and moments that follow one another. @param {any} step @returns {Span[]} */
export function spansOf(step) {
  const before = known.get(step);
  if (before) return before;
  const counted = step.derived
    .filter((/** @type {any} */ one) => one.formula === "elapsed_minutes" && one.inputs.end.startsWith(`${step.id}.`))
    .map((/** @type {any} */ one) => spanOf(step, one.inputs.start, one.inputs.end, one));
  const ends = new Set(counted.map((/** @type {Span} */ span) => span.until));
  const followed = step.rules
    .filter((/** @type {any} */ rule) => rule.kind === "order" && rule.entries.length === 2 && !ends.has(rule.entries[1]))
    .map((/** @type {any} */ rule) => spanOf(step, rule.entries[0], rule.entries[1], { id: null, label: rule.label }));
  const spans = [...counted, ...followed, ...waitsOf(step)];
  known.set(step, spans);
  return spans;
}

/** @param {any} step @param {string | null} since @param {string} until @param {any} counted @returns {Span} */
function spanOf(step, since, until, { id, label }) {
  return { step: step.id, since, until, label, rules: limitsOn(step, `${step.id}.${id}`) };
}

/** Minutes that are typed and must be long enough: the phone can count them. @param {any} step @returns {Span[]} */
function waitsOf(step) {
  return step.entries
    .filter((/** @type {any} */ entry) => entry.kind === "reading" && entry.unit === "min")
    .map((/** @type {any} */ entry) => spanOf(step, null, `${step.id}.${entry.id}`, entry))
    .filter((/** @type {Span} */ span) => span.rules.some((rule) => rule.lower));
}

/** @param {any} step @param {string} name */
function limitsOn(step, name) {
  return step.rules.filter((/** @type {any} */ rule) => rule.kind === "limit" && rule.reading === name);
}

/** @param {VisitSession} session @param {Span} span */
const habit = (session, span) => `stopwatch ${session.visit.id} ${span.until}`;

/** @param {VisitSession} session @param {Span} span */
export const startStopwatch = (session, span) => remember(habit(session, span), new Date().toISOString());
/** @param {VisitSession} session @param {Span} span */
export const stopStopwatch = (session, span) => remember(habit(session, span), "");

/**
 * @param {Span} span
 * @param {VisitSession} session
 * @returns {Running | null} null while it has not begun
 */
export function readSpan(span, session) {
  if (!session.exists(span.until)) return null;
  const since = Date.parse(span.since ? (session.content(span.since)?.value ?? "") : (recall(habit(session, span)) ?? ""));
  if (Number.isNaN(since)) return null;
  const ended = Date.parse(span.since ? (session.content(span.until)?.value ?? "") : "");
  const at = (/** @type {number | null} */ minutes) => (minutes === null ? null : since + minutes * MINUTE);
  const asked = limitOf(span, session, "lower", false);
  const over = asked ?? limitOf(span, session, "lower", true);
  return {
    since,
    until: Number.isNaN(ended) ? null : ended,
    over: at(over),
    predicted: asked === null,
    latest: at(limitOf(span, session, "upper", false) ?? limitOf(span, session, "upper", true)),
  };
}

/**
 * The strictest limit in minutes among the rules that are judged, or among those that only inform.
 * @param {Span} span @param {VisitSession} session @param {"lower" | "upper"} side @param {boolean} informing
 */
function limitOf(span, session, side, informing) {
  const minutes = span.rules
    .filter((rule) => rule[side] && (rule.weight === "information") === informing)
    .filter((rule) => session.judgement.rules[`${span.step}.${rule.id}`]?.verdict !== "not_applicable")
    .map((rule) => session.judgement.quantities[rule[side]]?.value)
    .filter((value) => typeof value === "number");
  if (minutes.length === 0) return null;
  return side === "lower" ? Math.max(...minutes) : Math.min(...minutes);
}

/**
 * What runs now in a step.
 * @param {VisitSession} session @param {any} step
 * @returns {{span: Span, running: Running}[]}
 */
export function runningIn(session, step) {
  if (!session.open) return [];
  return spansOf(step).flatMap((span) => {
    const running = readSpan(span, session);
    return running && running.until === null ? [{ span, running }] : [];
  });
}
