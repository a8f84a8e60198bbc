import { phrase } from "../language/phrase.js";
import { draw, make } from "./element.js";

/** The sheet that a signature is drawn on, in its own units (docs/api.md). */
export const SHEET = { wide: 1000, high: 400 };

/** A line through the points of a stroke; a dot for a single one. @param {number[]} stroke x, y and time of each point */
export function strokePath(stroke) {
  const points = [];
  for (let place = 0; place < stroke.length; place += 3) points.push(`${stroke[place]} ${stroke[place + 1]}`);
  return `M${points.join("L")}${points.length === 1 ? "h0" : ""}`;
}

/**
 * A signature as it was drawn.
 * @param {any} content the content of an event, or a cell
 */
export function drawnPicture({ strokes, value }) {
  const label = phrase("Signature of {name}, drawn by hand", { name: value });
  const sheet = draw("svg", { viewBox: `0 0 ${SHEET.wide} ${SHEET.high}`, class: "signature", role: "img", "aria-label": label });
  sheet.append(...strokes.map((/** @type {number[]} */ stroke) => draw("path", { d: strokePath(stroke) })));
  return sheet;
}

/** Who signed, and how. @param {any} content */
export function signedWords({ value, role, strokes }) {
  const who = [value, role].filter(Boolean).join(", ");
  return strokes?.length ? who : phrase("{who} (signed by the typed name)", { who });
}

/** What a signature looks like wherever it is shown. @param {any} content */
export function signedFigure(content) {
  return [
    content.strokes?.length ? drawnPicture(content) : null,
    make("figcaption", {}, signedWords(content)),
    content.means ? make("p", { class: "muted" }, content.means) : null,
  ].filter((one) => one !== null);
}
