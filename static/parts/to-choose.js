import { inLanguage, phrases } from "../language/phrase.js";
import { conflictsOf } from "./conflicts.js";
import { make } from "./element.js";

/**
 * The way to the values of a visit that two phones entered differently; null where there are none.
 * @param {import("./session.js").VisitSession} session
 */
export function toChoose(session) {
  const count = conflictsOf(session).length;
  if (count === 0) return null;
  const words = phrases("{count} value differs between two phones: choose", "{count} values differ between two phones: choose", count);
  return make("p", { class: "notice", "data-kind": "warning" }, make("a", { class: "way", href: inLanguage(`/field/attention?visit=${session.visit.id}`) }, words));
}
