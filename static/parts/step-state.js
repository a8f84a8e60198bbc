import { STATES } from "../generated/messages.js";
import { phrase, phrases } from "../language/phrase.js";
import { make, part, say } from "./element.js";
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
 * The steps that come first are unfolded while one of them stops this step; a person may fold them at any time.
 * @param {HTMLDetailsElement} before @param {string[]} unmet @param {number} total
 */
function foldBefore(before, unmet, total) {
  const count = unmet.length;
  before.hidden = total === 0;
  const done = phrases("The step before this one is done", "All {count} steps before this one are done", total);
  const left = phrases("{count} of {total} steps before this one is not done yet", "{count} of {total} steps before this one are not done yet", count, { total });
  say(part(before, "before-words"), count ? left : done);
  const now = unmet.join();
  if ((before.dataset.shown ?? "") === now) return;
  before.dataset.shown = now;
  before.open = count > 0;
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
  const before = part(root, "before");
  const there = step.needs.filter((/** @type {any} */ need) => session.judgement.steps[need.step]?.applies !== false);
  if (before) foldBefore(before, unmet, there.length);
  for (const need of step.needs) {
    const place = /** @type {HTMLElement | null} */ (root.querySelector(`[data-need="${need.step}"]`));
    if (place) showNeed(place, session, need, unmet.includes(need.step));
  }
}
