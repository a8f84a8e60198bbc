import { phrase } from "../language/phrase.js";
import { draw } from "./element.js";
import { clockTime, number } from "./words.js";

const [WIDTH, HEIGHT] = [320, 150];
const [LEFT, RIGHT, TOP, BOTTOM] = [46, WIDTH - 12, 12, HEIGHT - 26];

/** @typedef {import("./series-outlook.js").Point} Point */

/** @param {number[]} values @param {number} from @param {number} to */
function axis(values, from, to) {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = high === low ? Math.abs(high) * 0.1 || 1 : 0;
  const [start, end] = [low - room, high + room];
  return { low: start, high: end, at: (/** @type {number} */ value) => from + ((value - start) / (end - start)) * (to - from) };
}

/** @typedef {ReturnType<typeof axis>} Axis */

/**
 * Readings with their moments, by time.
 * @param {Cell[]} cells readings with `value` and `at`, in any order
 * @returns {Point[]}
 */
export function pointsOf(cells) {
  return cells
    .filter((cell) => typeof cell.value === "number" && cell.at)
    .map((cell) => ({ time: Date.parse(/** @type {string} */ (cell.at)), value: cell.value }))
    .sort((a, b) => a.time - b.time);
}

/** @param {Point[]} points @param {Axis} across @param {Axis} up */
const along = (points, across, up) => points.map((point) => `${across.at(point.time)},${up.at(point.value)}`).join(" ");

/** @param {number | null} limit @param {Axis} up */
function limitLine(limit, up) {
  if (limit === null) return [];
  const y = up.at(limit);
  // At the left, where a course that falls to the limit is still far away; below the line where it lies at the top.
  const words = y < TOP + 14 ? y + 13 : y - 5;
  return [
    draw("line", { class: "limit", x1: LEFT, x2: RIGHT, y1: y, y2: y }),
    draw("text", { x: LEFT + 6, y: words }, phrase("limit {number}", { number: number(limit) })),
  ];
}

/** @param {Axis} across @param {Axis} up */
function frame(across, up) {
  return [
    draw("path", { class: "rail", d: `M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}` }),
    draw("text", { x: LEFT - 6, y: TOP + 5, "text-anchor": "end" }, number(up.high)),
    draw("text", { x: LEFT - 6, y: BOTTOM + 4, "text-anchor": "end" }, number(up.low)),
    draw("text", { x: LEFT, y: HEIGHT - 6 }, clockTime(new Date(across.low))),
    draw("text", { x: RIGHT, y: HEIGHT - 6, "text-anchor": "end" }, clockTime(new Date(across.high))),
  ];
}

/**
 * The readings of a series over time, with the limit and the predicted course where there are such. The list and the
 * words beside it say the same, so it is hidden from screen readers.
 * @param {Point[]} points by time
 * @param {{limit?: number | null, course?: Point[]}} [more]
 * @returns {SVGElement | null} null while there is nothing to see yet
 */
export function plot(points, { limit = null, course = [] } = {}) {
  if (points.length < 2 && (points.length === 0 || course.length === 0)) return null;
  const all = [...points, ...course];
  const values = all.map((point) => point.value);
  const across = axis(all.map((point) => point.time), LEFT, RIGHT);
  const up = axis(limit === null ? values : [...values, limit], BOTTOM, TOP);
  return draw(
    "svg",
    { class: "plot", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, "aria-hidden": "true", focusable: "false" },
    ...frame(across, up),
    ...limitLine(limit, up),
    course.length ? draw("polyline", { class: "course", points: along(course, across, up) }) : null,
    draw("polyline", { class: "line", points: along(points, across, up) }),
    ...points.map((point) => draw("circle", { class: "point", cx: across.at(point.time), cy: up.at(point.value), r: 4 })),
  );
}
