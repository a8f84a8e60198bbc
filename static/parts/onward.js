import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { reviewAddress, stepAddress } from "./progress.js";

/**
 * The sensible next thing in an open visit, as one button, or as two where a result that came later can be entered.
 * @param {Pick<Outline, "next" | "results">} outline
 * @param {{visit: Visit}} about
 * @returns {HTMLElement[]}
 */
export function onward({ next, results }, about) {
  if (next) return [make("a", { class: "button", href: stepAddress(about, next.id) }, phrase("Continue: {title}", { title: next.title }))];
  const entries = results.map(({ id, title }) => make("a", { class: "button", href: stepAddress(about, id) }, phrase("Enter the result: {title}", { title })));
  const review = make("a", { class: results.length ? "button quiet" : "button", href: reviewAddress(about) }, phrase("Review and sign"));
  return [...entries, review];
}
