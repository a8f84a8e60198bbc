import { phrase, phrases } from "../language/phrase.js";
import { make, part } from "./element.js";
import { openPage } from "./page.js";
import { notReached, stateOf, stepAddress, stepsInOrder } from "./progress.js";
import { concerns } from "./review-concerns.js";
import { stepInShort } from "./review-step.js";
import { mountSignature } from "./signature.js";
import { verdictMark } from "./verdict.js";
import { capital } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {VisitSession} session */
function counts(session) {
  const verdicts = stepsInOrder(session).map((step) => session.judgement.steps[step.id].verdict);
  const undone = stepsInOrder(session).filter((step) => stateOf(session, step) === "not_done");
  const beyond = notReached(session);
  const open = stepsInOrder(session).filter((step) => !["done", "not_applicable", "not_done"].includes(stateOf(session, step)) && !beyond.has(step.id));
  const number = (/** @type {string[]} */ ...wanted) => verdicts.filter((verdict) => wanted.includes(verdict)).length;
  /** @type {[number, (count: number) => string][]} */
  const lines = [
    [number("pass"), (n) => phrases("{count} step passes", "{count} steps pass", n)],
    [number("conditional_pass", "conditional_fail", "pending"), (n) => phrases("{count} step is conditional", "{count} steps are conditional", n)],
    [number("fail", "no_valid_setting", "instrument_not_good_enough"), (n) => phrases("{count} step fails", "{count} steps fail", n)],
    [undone.length, (n) => phrases("{count} step could not be done", "{count} steps could not be done", n)],
    [beyond.size, (n) => phrases("{count} step was not reached", "{count} steps were not reached", n)],
    [open.length, (n) => phrases("{count} step is still open", "{count} steps are still open", n)],
  ];
  return `${lines.filter(([count]) => count > 0).map(([count, said]) => said(count)).join(", ")}.`;
}

/** @param {VisitSession} session */
function completeWords(session) {
  const isWhole = stepsInOrder(session).every((step) => stateOf(session, step) !== "not_done");
  return isWhole ? phrase("Every step is done.") : phrase("Not everything could be done: the record can be signed as it is, and the unit must not be used.");
}

/** @param {VisitSession} session */
function head(session) {
  const { verdict, state } = session.judgement.record;
  const words = state === "complete" ? completeWords(session) : phrase("Not complete yet: the verdict is what stands so far.");
  return make("div", { class: "card" }, make("p", {}, verdictMark(verdict)), make("p", {}, words), make("p", { class: "muted" }, counts(session)));
}

/** @param {VisitSession} session */
function thought(session) {
  const found = concerns(session);
  if (found.length === 0) {
    return make("p", { class: "notice", "data-kind": "success" }, phrase("Nothing failed, nothing is conditional, nothing was overridden, and every instrument is within its calibration date."));
  }
  const rows = found.map(({ step, words, kind, title }) =>
    make(
      "li",
      {},
      make(
        "a",
        { href: stepAddress(session, step) },
        make("span", {}, title ?? session.labels.of(step)),
        make("span", { class: "tag", "data-state": kind === "blocks" ? "held" : "recheck" }, kind === "blocks" ? phrase("Blocks") : phrase("Look at it")),
        make("span", { class: "line" }, words),
      ),
    ),
  );
  return make("section", { class: "stack" }, make("h2", {}, phrase("What needs thought")), make("ul", { class: "list" }, ...rows));
}

/** What a person has folded or opened stays so. @param {HTMLElement} place @param {HTMLElement[]} steps */
function keepFolds(place, steps) {
  for (const now of steps.flatMap((step) => [...step.querySelectorAll("details")])) {
    const before = /** @type {HTMLDetailsElement | null} */ (place.querySelector(`details[data-step="${now.dataset.step}"]`));
    if (before) now.open = before.open;
  }
}

/**
 * What needs thought first, then everything in short, then the signature.
 * @param {HTMLElement} root
 */
export default async function review(root) {
  const session = await openPage(root);
  if (session === null) return;
  const place = part(root, "content");
  session.watch(() => {
    const steps = stepsInOrder(session).map((step) => stepInShort(session, step));
    keepFolds(place, steps);
    place.replaceChildren(head(session), thought(session), make("h2", {}, phrase("Everything in short")), ...steps);
  });
  await mountSignature(root, session);
}
