import { draw } from "./element.js";
import { clockTime, number } from "./words.js";

const [WIDTH, HEIGHT] = [320, 150];
const [LEFT, RIGHT, TOP, BOTTOM] = [46, WIDTH - 12, 12, HEIGHT - 26];

/** @param {number[]} values @param {number} from @param {number} to */
function axis(values, from, to) {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = high === low ? Math.abs(high) * 0.1 || 1 : 0;
  const [start, end] = [low - room, high + room];
  return { low: start, high: end, at: (/** @type {number} */ value) => from + ((value - start) / (end - start)) * (to - from) };
}

/**
 * The readings of a series over time. The list beside it holds the same values, so it is hidden from screen readers.
 * @param {Cell[]} cells readings with `value` and `at`, in any order
 * @returns {SVGElement | null} null while there is nothing to see yet
 */
export function plot(cells) {
  const points = cells
    .filter((cell) => typeof cell.value === "number" && cell.at)
    .map((cell) => ({ time: Date.parse(/** @type {string} */ (cell.at)), value: cell.value }))
    .sort((a, b) => a.time - b.time);
  if (points.length < 2) return null;
  const across = axis(points.map((point) => point.time), LEFT, RIGHT);
  const up = axis(points.map((point) => point.value), BOTTOM, TOP);
  const places = points.map((point) => [across.at(point.time), up.at(point.value)]);
  return draw(
    "svg",
    { class: "plot", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, "aria-hidden": "true", focusable: "false" },
    draw("path", { class: "rail", d: `M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}` }),
    draw("polyline", { class: "line", points: places.map((place) => place.join(",")).join(" ") }),
    ...places.map(([x, y]) => draw("circle", { class: "point", cx: x, cy: y, r: 4 })),
    draw("text", { x: LEFT - 6, y: TOP + 5, "text-anchor": "end" }, number(up.high)),
    draw("text", { x: LEFT - 6, y: BOTTOM + 4, "text-anchor": "end" }, number(up.low)),
    draw("text", { x: LEFT, y: HEIGHT - 6 }, clockTime(new Date(across.low))),
    draw("text", { x: RIGHT, y: HEIGHT - 6, "text-anchor": "end" }, clockTime(new Date(across.high))),
  );
}
