import { basisOf, keepOutline } from "../record/outlines.js";
import { awaitingResult, conflictsIn, notReached, progress, stateOf, stepsInOrder } from "./progress.js";

const PAUSE = 1_000;

/** What is over: nobody can do it, and it keeps nobody from signing. */
const ENDED = ["step_not_done", "step_not_reached"];

const named = (/** @type {any} */ { id, title }) => ({ id, title });

/** @param {import("./progress.js").Judged} judged */
function stopsIn(judged) {
  const steps = stepsInOrder(judged);
  const beyond = notReached(judged);
  const verdict = (/** @type {any} */ step) => judged.judgement.steps[step.id].verdict;
  const number = (/** @type {string[]} */ ...states) => steps.filter((step) => !beyond.has(step.id) && states.includes(stateOf(judged, step))).length;
  return {
    failed: steps.filter((step) => ["fail", "no_valid_setting", "instrument_not_good_enough"].includes(verdict(step))).length,
    again: number("recheck"),
    held: number("held", "waiting"),
    beyond: beyond.size,
  };
}

/**
 * How far a judged visit is.
 * @param {import("./progress.js").Judged & {case: Case}} judged
 * @returns {Omit<Outline, "basis">}
 */
export function outlineOf(judged) {
  const { total, settled, next } = progress(judged);
  const { entries, defects } = conflictsIn(judged.case);
  return {
    total,
    settled,
    next: next && named(next),
    results: awaitingResult(judged).map(named),
    blocking: judged.judgement.record.blocking.filter((/** @type {any} */ one) => !ENDED.includes(one.code)).length,
    conflicts: entries.length + defects.length,
    stops: stopsIn(judged),
  };
}

/** @param {import("./session.js").VisitSession} session */
async function keep(session) {
  const { visit, unit, site, known, events, drafts, open } = session;
  // What is being typed is no part of the visit yet; it calls again when it is stored.
  if (!open || drafts.size > 0) return;
  const outline = outlineOf(session);
  await keepOutline(visit.id, { basis: await basisOf({ visit, count: events.size, unit, site, known }), ...outline });
}

/**
 * Keep the outline of a visit that is open on a page, a moment after each change.
 * @param {import("./session.js").VisitSession} session
 */
export function keepOutlineOf(session) {
  let timer = 0;
  session.follow(() => {
    clearTimeout(timer);
    // Without it the visit is only judged once more.
    timer = window.setTimeout(() => keep(session).catch((error) => console.warn("outline", error)), PAUSE);
  });
}
