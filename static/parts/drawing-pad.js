import { phrase } from "../language/phrase.js";
import { SHEET, strokePath } from "./drawn.js";
import { draw, make, say } from "./element.js";

/** No more is taken than the server takes (webapp/signing/shapes.py). */
const MOST_POINTS = 1000;
const MOST_STROKES = 100;
/** Points nearer to the last one than this, in units of the sheet, say nothing. */
const NEAR = 5;
/** The server takes no later point; a pause of that length says nothing of how somebody signs. */
const LATEST = 3_600_000;

/** @param {number} value @param {number} most */
const within = (value, most) => Math.min(most, Math.max(0, Math.round(value)));

/**
 * A sheet that takes lines from finger, pen or mouse, with the buttons to take them back.
 */
export class DrawingPad {
  /** @param {() => void} onchange called after each line and each time that lines are taken back */
  constructor(onchange = () => {}) {
    this.onchange = onchange;
    /** @type {number[][]} */
    this.strokes = [];
    /** @type {SVGElement | null} */
    this.line = null;
    /** When the first point would have been set, by this page's clock; null: the next line says it. @type {number | null} */
    this.began = null;
    const label = phrase("Sign here with a finger, a pen or the mouse");
    this.sheet = draw("svg", { viewBox: `0 0 ${SHEET.wide} ${SHEET.high}`, class: "signature pad", role: "img", "aria-label": label });
    this.status = make("p", { role: "status", class: "muted" });
    this.undo = make("button", { type: "button", class: "button quiet small", onclick: () => this.change(this.strokes.slice(0, -1)) }, phrase("Undo the last line"));
    this.clear = make("button", { type: "button", class: "button quiet small", onclick: () => this.change([]) }, phrase("Clear"));
    this.element = make("div", { class: "stack" }, this.sheet, this.status, make("div", { class: "row" }, this.undo, this.clear));
    this.sheet.addEventListener("pointerdown", (event) => this.begin(/** @type {PointerEvent} */ (event)));
    this.sheet.addEventListener("pointermove", (event) => this.goOn(/** @type {PointerEvent} */ (event)));
    for (const end of ["pointerup", "pointercancel"]) this.sheet.addEventListener(end, () => this.end());
    this.take([]);
  }

  get points() {
    return this.strokes.reduce((sum, stroke) => sum + stroke.length / 3, 0);
  }

  /** @param {number[][]} strokes */
  take(strokes) {
    this.strokes = strokes;
    this.line = null;
    this.sheet.replaceChildren(...strokes.map((stroke) => draw("path", { d: strokePath(stroke) })));
    this.tell();
  }

  /** @param {number[][]} strokes */
  change(strokes) {
    this.take(strokes);
    this.onchange();
  }

  end() {
    if (this.line === null) return;
    this.line = null;
    this.onchange();
  }

  tell() {
    const full = this.points >= MOST_POINTS || this.strokes.length >= MOST_STROKES;
    const empty = this.strokes.length === 0;
    this.undo.disabled = this.clear.disabled = empty;
    say(this.status, full ? phrase("The sheet is full. Clear it and sign with fewer lines.") : empty ? phrase("Sign inside the frame.") : "");
    return full;
  }

  /** @param {PointerEvent} event */
  begin(event) {
    if (!event.isPrimary || event.button !== 0 || this.tell()) return;
    event.preventDefault();
    this.sheet.setPointerCapture(event.pointerId);
    const last = this.strokes.at(-1)?.at(-1) ?? 0;
    if (this.strokes.length === 0 || this.began === null) this.began = event.timeStamp - last;
    this.strokes.push([]);
    this.line = draw("path", {});
    this.sheet.append(this.line);
    this.add(event);
    this.tell();
  }

  /** @param {PointerEvent} event */
  goOn(event) {
    if (this.line === null || !event.isPrimary) return;
    const between = event.getCoalescedEvents?.() ?? [];
    for (const one of between.length > 0 ? between : [event]) this.add(one);
  }

  /** @param {PointerEvent} event */
  add(event) {
    const stroke = this.strokes[this.strokes.length - 1];
    if (this.line === null || !stroke || this.points >= MOST_POINTS) return;
    const box = this.sheet.getBoundingClientRect();
    const x = within(((event.clientX - box.left) / box.width) * SHEET.wide, SHEET.wide);
    const y = within(((event.clientY - box.top) / box.height) * SHEET.high, SHEET.high);
    const [lastX, lastY, lastTime] = stroke.slice(-3);
    if (stroke.length > 0 && Math.hypot(x - lastX, y - lastY) < NEAR) return;
    const before = lastTime ?? this.strokes[this.strokes.length - 2]?.at(-1) ?? 0;
    const time = Math.round(event.timeStamp - (this.began ?? event.timeStamp));
    stroke.push(x, y, Math.min(LATEST, Math.max(before, time)));
    this.line.setAttribute("d", strokePath(stroke));
  }
}
