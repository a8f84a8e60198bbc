import { draw } from "./element.js";
import { number } from "./words.js";

const WIDTH = 320;
const [LEFT, RIGHT] = [14, WIDTH - 14];
const RAIL = 30;

/**
 * The span to draw: the limits and the reading with its uncertainty, and some room around them.
 * @param {any} rule a rule of the judgement
 * @returns {[number, number]}
 */
function span(rule) {
  const spread = rule.expanded ?? 0;
  const points = [rule.lower, rule.upper, rule.reading - spread, rule.reading + spread].filter((point) => point !== null);
  const [low, high] = [Math.min(...points), Math.max(...points)];
  const room = (high - low || Math.abs(high) || 1) * 0.18;
  // Nothing measured here is below nothing: no room is shown beneath zero unless a value lies there.
  return [low >= 0 ? Math.max(0, low - room) : low - room, high + room];
}

/**
 * @param {[number, number]} span
 * @returns {(value: number) => number}
 */
function scale([low, high]) {
  return (value) => LEFT + ((value - low) / (high - low)) * (RIGHT - LEFT);
}

/** @param {number} from @param {number} to @param {string} name */
function zone(from, to, name) {
  return to > from ? draw("rect", { class: name, x: from, y: RAIL - 9, width: to - from, height: 18 }) : null;
}

/** @param {number | null} value @param {(value: number) => number} at */
function limitMark(value, at) {
  if (value === null) return null;
  const x = at(value);
  const anchor = x < 60 ? "start" : x > WIDTH - 60 ? "end" : "middle";
  return draw(
    "g",
    { class: "limit" },
    draw("line", { x1: x, x2: x, y1: RAIL - 15, y2: RAIL + 15 }),
    draw("text", { x, y: RAIL + 31, "text-anchor": anchor }, number(value)),
  );
}

/** @param {any} rule @param {(value: number) => number} at */
function readingMark(rule, at) {
  const x = at(rule.reading);
  const spread = rule.expanded ?? 0;
  const [from, to] = [at(rule.reading - spread), at(rule.reading + spread)];
  return draw(
    "g",
    { class: "reading" },
    spread > 0 ? draw("path", { d: `M${from} ${RAIL - 6}v12M${from} ${RAIL}H${to}M${to} ${RAIL - 6}v12` }) : null,
    draw("path", { class: "point", d: `M${x} ${RAIL - 7}l7 7-7 7-7-7z` }),
  );
}

/**
 * The reading with its expanded uncertainty against the limits. The hatched edge inside a limit is where a reading
 * does not pass because of the uncertainty. Says nothing that the words beside it do not say, so it is hidden from
 * screen readers.
 * @param {any} rule a rule of the judgement with a reading and at least one limit
 */
export function band(rule) {
  const limits = span(rule);
  const at = scale(limits);
  const lower = rule.lower ?? limits[0];
  const upper = rule.upper ?? limits[1];
  const acceptLower = rule.accept_lower ?? lower;
  const acceptUpper = rule.accept_upper ?? upper;
  return draw(
    "svg",
    { class: "band", viewBox: `0 0 ${WIDTH} 66`, "aria-hidden": "true", focusable: "false" },
    draw("line", { class: "rail", x1: LEFT, x2: RIGHT, y1: RAIL, y2: RAIL }),
    zone(at(lower), at(upper), "guarded"),
    zone(at(acceptLower), at(acceptUpper), "accepted"),
    limitMark(rule.lower, at),
    limitMark(rule.upper, at),
    readingMark(rule, at),
  );
}
