import { quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** Slightly, by a quarter, or so many times. @param {number} reading @param {number} expected */
function apart(reading, expected) {
  if (expected === 0) return "";
  const share = reading / expected;
  if (share >= 3) return `${Number(share.toPrecision(2))} times the expected`;
  const percent = Math.round(Math.abs(share - 1) * 100);
  if (percent === 0) return "as expected";
  return `${percent} % ${share > 1 ? "above" : "below"} it`;
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
  const words = `Expected: ${quantity(expected, judged.unit)}`;
  if (judged.reading === null) return [`${words}.`];
  const away = apart(judged.reading, expected);
  const causes = causesOf(rule, judged);
  return [away ? `${words}; the reading is ${away}.` : `${words}.`, ...(causes.length ? [`Look for: ${causes.join("; ")}.`] : [])];
}

/** @param {any} rule @param {any} judged @returns {string[]} */
function causesOf(rule, { reading, lower, upper }) {
  if (upper !== null && reading > upper) return rule.causes_above ?? [];
  if (lower !== null && reading < lower) return rule.causes_below ?? [];
  return [];
}
