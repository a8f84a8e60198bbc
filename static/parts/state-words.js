import { STATES } from "../generated/messages.js";
import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { decidedBy, notReached, stateOf } from "./progress.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** The state of a step as a mark; one that nobody can reach any more is neither held nor waits. @param {VisitSession} session @param {any} step */
export function stateTag(session, step) {
  const state = stateOf(session, step);
  const word = notReached(session).has(step.id) ? phrase("Not reached") : /** @type {any} */ (STATES)[state].word;
  return make("span", { class: "tag", "data-state": state }, word);
}

/** @param {VisitSession} session @param {any} step @param {string} needed */
function because(session, step, needed) {
  return step.needs.find((/** @type {any} */ need) => need.step === needed)?.because ?? session.labels.of(needed);
}

/**
 * The same for a list of steps: only which steps come first, where the step itself says why.
 * @param {VisitSession} session
 * @param {any} step
 */
export function stateInShort(session, step) {
  const { state, held_by, unmet } = session.judgement.steps[step.id];
  const names = (/** @type {string[]} */ needed) => needed.map((one) => session.labels.of(one)).join(", ");
  if (state === "held") return phrase("After: {names}", { names: names(held_by) });
  if (state === "waiting") return phrase("After: {names}", { names: names(unmet) });
  return stateWords(session, step);
}

/**
 * Why a step is as it is, in a sentence; empty for open and done.
 * @param {VisitSession} session
 * @param {any} step
 */
export function stateWords(session, step) {
  const judged = session.judgement.steps[step.id];
  const statement = session.case.steps[step.id] ?? {};
  const reasons = (/** @type {string[]} */ needed) => needed.map((one) => because(session, step, one)).join(" ");
  if (judged.state === "not_done") return phrase("Could not be done. Reason: {reason}", { reason: statement.not_done?.reason ?? "" });
  if (judged.state === "held") return phrase("Held: {reasons}", { reasons: reasons(judged.held_by) });
  if (judged.state === "waiting") return phrase("Waits: {reasons}", { reasons: reasons(judged.unmet) });
  if (judged.state === "recheck") {
    const names = changedSince(session, step);
    return names.length ? phrase("Changed since it was marked done: {names}.", { names: names.join(", ") }) : phrase("Something it rested on has changed since.");
  }
  if (judged.applies === false) return session.labels.condition(decidedBy(session, step));
  if (judged.state === "not_applicable") return statement.not_applicable?.reason ?? "";
  return "";
}

/**
 * What the step's verdict rested on when it was marked done, and no longer is the same.
 * @param {VisitSession} session
 * @param {any} step
 * @returns {string[]}
 */
export function changedSince(session, step) {
  const seen = session.case.steps[step.id]?.done?.seen ?? {};
  const { basis } = session.judgement.steps[step.id];
  const names = new Set([...Object.keys(seen), ...Object.keys(basis)]);
  return [...names].filter((name) => JSON.stringify(seen[name]) !== JSON.stringify(basis[name])).map((name) => session.labels.of(name));
}
