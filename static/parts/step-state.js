import { STATES } from "../generated/messages.js";
import { phrase } from "../language/phrase.js";
import { make, part } from "./element.js";
import { stateWords } from "./state-words.js";
import { verdictMark } from "./verdict.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {HTMLElement} line @param {VisitSession} session @param {any} need @param {boolean} stops */
function showNeed(line, session, need, stops) {
  const { state, verdict } = session.judgement.steps[need.step];
  const shown = JSON.stringify([state, verdict, stops]);
  if (line.dataset.shown === shown) return;
  line.dataset.shown = shown;
  const judgedMark = verdict === "not_measured" || verdict === "not_applicable" ? null : verdictMark(verdict);
  part(line, "need-state").replaceChildren(
    .../** @type {Node[]} */ (
      [
        make("span", { class: "tag", "data-state": state }, /** @type {any} */ (STATES)[state].word),
        judgedMark,
        stops ? make("span", { class: "visually-hidden" }, phrase("This step waits for it.")) : null,
      ].filter(Boolean)
    ),
  );
}

/**
 * The state of the step on top, and of each step that comes before it.
 * @param {HTMLElement} root
 * @param {any} step
 * @param {VisitSession} session
 */
export function showState(root, step, session) {
  const judged = session.judgement.steps[step.id];
  const { state, verdict } = judged;
  const words = stateWords(session, step);
  const line = part(root, "state");
  const shown = JSON.stringify([state, verdict, words]);
  if (line.dataset.shown !== shown) {
    line.dataset.shown = shown;
    line.replaceChildren(
      make("span", { class: "tag", "data-state": state }, /** @type {any} */ (STATES)[state].word),
      verdictMark(verdict),
      ...(words ? [make("span", { class: "because" }, words)] : []),
    );
  }
  const unmet = [...judged.held_by, ...judged.unmet];
  for (const need of step.needs) {
    const place = /** @type {HTMLElement | null} */ (root.querySelector(`[data-need="${need.step}"]`));
    if (place) showNeed(place, session, need, unmet.includes(need.step));
  }
}
