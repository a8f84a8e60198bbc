import { phrase } from "../language/phrase.js";
import { keepSketch, sketchOf } from "../record/sketches.js";
import { showConflict } from "./conflict.js";
import { inputOf } from "./controls.js";
import { DrawingPad } from "./drawing-pad.js";
import { signedFigure } from "./drawn.js";
import { make, part, say } from "./element.js";
import { moment } from "./words.js";

const LONGEST_NAME = 200;

/** What is missing before somebody has signed; empty: nothing. @param {any} content @param {string | null} why */
function lackingWords(content, why) {
  if (content.value === "") return phrase("Type the name of the person who signs.");
  if (content.role === "") return phrase("Type the function or department of the person who signs.");
  if (content.strokes.length === 0 && !content.stated) return phrase("Sign inside the frame, or choose to sign by the typed name.");
  return why === "" ? phrase("Say why it is signed again: the first signature stays in the record.") : "";
}

/** What the signature is made with, put into its places. @param {HTMLElement} element @param {HTMLInputElement} name @param {DrawingPad} pad */
function build(element, name, pad) {
  const stated = make("input", { type: "checkbox" });
  const typedInstead = make("label", { class: "choice" }, stated, make("span", {}, phrase("I cannot draw here. My typed name is my signature.")));
  const why = make("input", { type: "text", autocomplete: "off", id: `${name.id}_why` });
  const again = make("div", { class: "field", hidden: true }, make("label", { for: why.id }, phrase("Why it is signed again")), why);
  const signNow = make("button", { type: "button", class: "button" }, phrase("Sign"));
  const keepOld = make("button", { type: "button", class: "button quiet", hidden: true }, phrase("Keep the first signature"));
  part(element, "pad").replaceChildren(make("div", { class: "stack" }, pad.element, typedInstead, again, make("div", { class: "row" }, signNow, keepOld)));
  const redo = make("button", { type: "button", class: "button quiet small" }, phrase("Sign again"));
  part(element, "drawn").after(redo);
  return { stated, why, again, signNow, keepOld, redo };
}

/**
 * A signature by somebody who has no login: name, function, what signing states, and lines drawn on the glass.
 * Before "Sign" is pressed nothing is an entry; what is drawn and typed is kept on this phone all the same, through a lock
 * or a reload. A signature that is signed can only be followed by another one.
 */
class HandSignature {
  /** @param {HTMLElement} element @param {any} entry @param {import("./session.js").VisitSession} session */
  constructor(element, entry, session) {
    this.element = element;
    this.entry = entry;
    this.session = session;
    this.field = element.dataset.entry ?? "";
    this.name = inputOf(element, entry);
    this.name.maxLength = LONGEST_NAME;
    this.role = /** @type {HTMLInputElement} */ (part(element, "role"));
    this.pad = new DrawingPad(() => this.keep());
    this.made = build(element, this.name, this.pad);
    this.isRedone = false;
  }

  follow() {
    const { redo, keepOld, signNow, why, stated } = this.made;
    redo.addEventListener("click", () => {
      this.restart(true);
      this.name.focus();
    });
    keepOld.addEventListener("click", () => this.restart(false));
    signNow.addEventListener("click", () => this.sign());
    for (const input of [this.name, this.role, why, stated]) input.addEventListener("input", () => this.keep());
    // A line that is not finished when the phone is locked or the page is left.
    addEventListener("pagehide", () => this.pad.end());
    document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && this.pad.end());
    this.restore().catch((error) => this.warn(error));
    this.session.follow(() => this.paint());
  }

  /** @param {Error} error */
  warn(error) {
    say(part(this.element, "error"), error.message);
  }

  /** What is drawn and typed, as long as nobody has signed. */
  keep() {
    const { why, stated } = this.made;
    const sketch = { name: this.name.value, role: this.role.value, why: why.value, stated: stated.checked, strokes: this.pad.strokes };
    const isEmpty = !this.isRedone && !sketch.name && !sketch.role && !sketch.stated && sketch.strokes.length === 0;
    keepSketch(this.session.visit.id, this.field, isEmpty ? null : sketch).catch((error) => this.warn(error));
  }

  async restore() {
    const kept = await sketchOf(this.session.visit.id, this.field);
    // What was drawn or typed meanwhile goes before.
    if (!kept || !this.session.open || this.pad.strokes.length > 0 || this.name.value || this.role.value) return;
    const { why, stated } = this.made;
    this.isRedone = this.session.content(this.field) !== null;
    [this.name.value, this.role.value, why.value, stated.checked] = [kept.name, kept.role, kept.why, kept.stated];
    this.pad.take(kept.strokes);
    this.paint();
  }

  paint() {
    const { again, keepOld, redo } = this.made;
    const content = this.session.content(this.field);
    const isSigned = content !== null;
    part(this.element, "sign").hidden = isSigned && !this.isRedone;
    redo.hidden = !isSigned || this.isRedone || !this.session.open;
    again.hidden = keepOld.hidden = !(isSigned && this.isRedone);
    this.paintSigned(content);
    showConflict(part(this.element, "conflict"), this.session, { field: this.field, entry: this.entry });
  }

  /** @param {any} content */
  paintSigned(content) {
    const drawn = part(this.element, "drawn");
    drawn.hidden = content === null;
    const at = this.session.current(this.field).at(-1)?.at;
    if (drawn.dataset.shown === at) return;
    drawn.dataset.shown = at ?? "";
    const time = at ? make("p", { class: "muted" }, phrase("Signed {moment}", { moment: moment(at) })) : null;
    drawn.replaceChildren(...(content === null ? [] : [...signedFigure(content), time]).filter((one) => one !== null));
  }

  /** @param {boolean} redone */
  restart(redone) {
    const { why, stated } = this.made;
    this.isRedone = redone;
    this.pad.take([]);
    this.name.value = this.role.value = why.value = "";
    stated.checked = false;
    say(part(this.element, "error"), "");
    this.keep();
    this.paint();
  }

  async sign() {
    const { why, stated, signNow } = this.made;
    const strokes = stated.checked ? [] : this.pad.strokes;
    const content = { value: this.name.value.trim(), role: this.role.value.trim(), means: this.entry.meaning, strokes, stated: stated.checked };
    const reason = this.isRedone ? { code: "other", text: why.value.trim() } : null;
    const lacking = lackingWords(content, reason && reason.text);
    say(part(this.element, "error"), lacking);
    if (lacking) return;
    signNow.disabled = true;
    try {
      await this.session.write(this.field, content, { reason });
      this.restart(false);
    } catch (error) {
      this.warn(/** @type {Error} */ (error));
    }
    signNow.disabled = false;
  }
}

/**
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 */
export function mountDrawing(element, entry, session) {
  new HandSignature(element, entry, session).follow();
}
