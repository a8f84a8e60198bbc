import { phrase } from "../language/phrase.js";
import { number, quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** Slightly, by a quarter, or so many times. @param {number} reading @param {number} expected */
function apart(reading, expected) {
  if (expected === 0) return "";
  const share = reading / expected;
  if (share >= 3) return phrase("the reading is {times} times the expected", { times: number(share, 2) });
  const percent = Math.round(Math.abs(share - 1) * 100);
  if (percent === 0) return phrase("the reading is as expected");
  return share > 1 ? phrase("the reading is {percent} % above it", { percent }) : phrase("the reading is {percent} % below it", { percent });
}

/**
 * The prediction beside the reading, and where they differ by more than the band, what to look for.
 * @param {any} rule
 * @param {any} judged
 * @param {VisitSession} session
 * @returns {string[]}
 */
export function expectedWords(rule, judged, session) {
  const expected = rule.expected ? session.judgement.quantities[rule.expected]?.value : null;
  if (typeof expected !== "number") return [];
  const words = phrase("Expected: {quantity}", { quantity: quantity(expected, judged.unit) });
  if (judged.reading === null) return [`${words}.`];
  const away = apart(judged.reading, expected);
  const causes = causesOf(rule, judged);
  return [away ? `${words}; ${away}.` : `${words}.`, ...(causes.length ? [phrase("Look for: {causes}.", { causes: causes.join("; ") })] : [])];
}

/** @param {any} rule @param {any} judged @returns {string[]} */
function causesOf(rule, { reading, lower, upper }) {
  if (upper !== null && reading > upper) return rule.causes_above ?? [];
  if (lower !== null && reading < lower) return rule.causes_below ?? [];
  return [];
}
