import { inLanguage } from "../language/phrase.js";

/**
 * A visit with its judgement, as every session is.
 * @typedef {{visit: StoredVisit, procedure: Procedure, judgement: Judgement}} Judged
 */

/** The steps that this visit has, in the order of the stages. @param {Judged} session @returns {any[]} */
export function stepsInOrder(session) {
  const byName = new Map(session.procedure.steps.map((step) => [step.id, step]));
  return session.procedure.stages
    .flatMap((stage) => stage.steps.map((/** @type {string} */ name) => byName.get(name)))
    .filter((step) => session.judgement.steps[step.id]?.applies !== false);
}

/** The steps that the data plate or the site takes away. @param {Judged} session @returns {any[]} */
export function droppedOut(session) {
  return session.procedure.steps.filter((step) => session.judgement.steps[step.id]?.applies === false);
}

/** The condition that takes a step away. @param {Judged} session @param {any} step */
export function decidedBy(session, step) {
  const value = (/** @type {any} */ condition) => session.judgement.quantities[condition.quantity]?.value ?? null;
  const fails = (/** @type {any} */ condition) => (condition.given ? value(condition) === null : !condition.is.includes(value(condition)));
  const condition = (step.when ?? []).find(fails) ?? { quantity: step.id };
  return { quantity: condition.quantity, value: value(condition) };
}

/** @param {Judged} session @param {any} step */
export function stateOf(session, step) {
  return session.judgement.steps[step.id].state;
}

const settled = new Set(["done", "not_applicable"]);

/** What each standing of a record says; a page asks for every step. @type {WeakMap<object, Set<string>>} */
const beyond = new WeakMap();

/** The steps that wait for one that could not be done. @param {Judged} session @returns {Set<string>} */
export function notReached(session) {
  const { record } = session.judgement;
  const found = beyond.get(record) ?? new Set(record.blocking.filter(({ code }) => code === "step_not_reached").map(({ step }) => step));
  beyond.set(record, found);
  return found;
}

/**
 * The cells for which two phones say different things, each with the entry, or the step of the defect, that it belongs to.
 * @param {Case} judged
 */
export function conflictsIn({ entries, defects }) {
  /** @param {[string, any]} found */
  const open = ([name, cells]) => [cells].flat().filter((cell) => cell?.conflict).map((cell) => ({ name, cell }));
  return { entries: Object.entries(entries).flatMap(open), defects: Object.entries(defects ?? {}).flatMap(open) };
}

/**
 * How far a visit is: how many steps, how many of them settled, which one to do next (null when none is left).
 * @param {Judged} session
 */
export function progress(session) {
  const steps = stepsInOrder(session);
  const open = steps.filter((step) => !settled.has(stateOf(session, step)));
  const doable = open.filter((step) => stateOf(session, step) !== "not_done" && !notReached(session).has(step.id));
  // What has to be looked at again comes first; then the first that nothing holds up; then the first at all.
  const next =
    doable.find((step) => stateOf(session, step) === "recheck") ??
    doable.find((step) => stateOf(session, step) === "open") ??
    doable[0] ??
    null;
  return { total: steps.length, settled: steps.length - open.length, next };
}

/**
 * The steps of a returned visit that are done but for a result which was still to come when it was signed.
 * @param {Judged} session
 */
export function awaitingResult(session) {
  if (session.visit.state !== "returned") return [];
  return stepsInOrder(session).filter((step) => {
    const { state, verdict } = session.judgement.steps[step.id];
    return state === "done" && verdict === "pending";
  });
}

/** Where the pages of a procedure are. @param {{id: string, version: number}} procedure */
export function slugOf(procedure) {
  return `${procedure.id}-${procedure.version}`;
}

/** @param {{visit: Visit}} session @param {string} step */
export function stepAddress(session, step) {
  return inLanguage(`/field/${slugOf(session.visit.procedure)}/${step}?visit=${session.visit.id}`);
}

/** @param {{visit: Visit}} session */
export function reviewAddress(session) {
  return stepAddress(session, "review");
}
