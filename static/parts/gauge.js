import { phrase } from "../language/phrase.js";
import { draw, make } from "./element.js";

const WIDTH = 320;

/**
 * How far a visit is, drawn as a sight glass with one graduation a step, and said in words.
 * @param {{settled: number, total: number}} progress
 */
export function gauge({ settled, total }) {
  const step = WIDTH / Math.max(1, total);
  const marks = Array.from({ length: Math.max(0, total - 1) }, (_, index) =>
    draw("line", { x1: step * (index + 1), x2: step * (index + 1), y1: 9, y2: 14 }),
  );
  const glass = draw(
    "svg",
    { class: "gauge", viewBox: `0 0 ${WIDTH} 14`, preserveAspectRatio: "none", "aria-hidden": "true", focusable: "false" },
    draw("rect", { class: "level", width: step * settled, height: 14 }),
    ...marks,
  );
  return make("div", { class: "progress" }, glass, make("p", { class: "muted" }, phrase("{settled} of {total} steps done", { settled, total })));
}
