import { noop, phrase } from "../language/phrase.js";
import { reachedByReadings } from "./series-outlook.js";
import { capital, moment, number, quantity } from "./words.js";

const MINUTE = 60_000;
const COUNTS = [noop("no"), noop("one"), noop("two"), noop("three"), noop("four"), noop("five"), noop("six")];

/** @typedef {import("./series-outlook.js").Point} Point */

/** @param {number} count */
const inLetters = (count) => (count in COUNTS ? phrase(COUNTS[count]) : String(count));

/** @param {number} share */
const percent = (share) => `${number(share * 100, 2)} %`;

/** Held together at the end of a line. @param {string} words */
const spread = (words) => `± ${words}`.replaceAll(" ", "\u00a0");

/**
 * Whether the newest readings agree, in words.
 * @param {{newest: number, found: number | null, enough: number | null} | null} stability
 * @param {number} count of readings so far
 */
export function stabilityWords(stability, count) {
  if (stability === null || count === 0) return "";
  const { newest, found, enough } = stability;
  if (count < newest) return phrase("{there} of {wanted} readings that have to agree.", { there: capital(inLetters(count)), wanted: inLetters(newest) });
  if (found === null || enough === null) return "";
  const wanted = { count: inLetters(newest), enough: spread(percent(enough)) };
  // Rounded figures must not contradict the verdict beside them.
  if (found <= enough) return phrase("The last {count} agree within {found}; {enough} is enough.", { ...wanted, found: spread(percent(found)) });
  return phrase("The last {count} do not agree yet: {found}; {enough} is enough.", { ...wanted, found: spread(`${number(found * 100, 3)} %`) });
}

/** @param {number} at */
const about = (at) => moment(new Date(Math.ceil(at / MINUTE) * MINUTE));

/**
 * When the limit will be reached, once by the formula and once by the readings; both are called what they are.
 * @param {Point[]} points by time
 * @param {{value: number, side: "lower" | "upper"} | null} limit
 * @param {{inputs: any, minutes: number, since: number | null} | null} washout
 * @param {string} unit
 * @returns {string[]}
 */
export function predictionWords(points, limit, washout, unit) {
  const last = points.at(-1);
  if (!limit || !washout) return [];
  if (last && last.value <= limit.value) return [];
  const to = quantity(limit.value, unit);
  const words = washout.since === null ? [] : [phrase("Prediction from volume and flow: {to} at {about}.", { to, about: about(washout.since + washout.minutes * MINUTE) })];
  if (points.length < 2) return words;
  const at = reachedByReadings(points, washout.inputs.inflow, limit.value);
  const from = at === null ? phrase("Prediction from the newest readings: none, they do not come nearer to it.") : phrase("Prediction from the newest readings: {to} at about {about}.", { to, about: about(at) });
  return [...words, from];
}
