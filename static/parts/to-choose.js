import { inLanguage, phrases } from "../language/phrase.js";
import { make } from "./element.js";

/**
 * The way to the values of a visit that two phones entered differently; null where there are none.
 * @param {number} count @param {Visit} visit
 */
export function toChoose(count, visit) {
  if (count === 0) return null;
  const words = phrases("{count} value differs between two phones: choose", "{count} values differ between two phones: choose", count);
  return make("p", { class: "notice", "data-kind": "warning" }, make("a", { class: "way", href: inLanguage(`/field/attention?visit=${visit.id}`) }, words));
}
