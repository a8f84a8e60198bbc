import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { awaitingResult, progress, reviewAddress, stepAddress } from "./progress.js";

/**
 * The sensible next thing in an open visit, as one button, or as two where a result that came later can be entered.
 * @param {import("./session.js").VisitSession} session
 * @returns {HTMLElement[]}
 */
export function onward(session) {
  const { next } = progress(session);
  if (next) return [make("a", { class: "button", href: stepAddress(session, next.id) }, phrase("Continue: {title}", { title: next.title }))];
  const results = awaitingResult(session).map((step) =>
    make("a", { class: "button", href: stepAddress(session, step.id) }, phrase("Enter the result: {title}", { title: step.title })),
  );
  const review = make("a", { class: results.length ? "button quiet" : "button", href: reviewAddress(session) }, phrase("Review and sign"));
  return [...results, review];
}
