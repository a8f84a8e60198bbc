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

/**
 * A signature by somebody who has no login: name, function, what signing states, and lines drawn on the glass.
 * Before "Sign" is pressed nothing is an entry; what is drawn and typed is kept on this phone all the same, through a lock
 * or a reload. A signature that is signed can only be followed by another one.
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 */
export function mountDrawing(element, entry, session) {
  const field = element.dataset.entry ?? "";
  const [name, role, sign, drawn] = [inputOf(element, entry), part(element, "role"), part(element, "sign"), part(element, "drawn")];
  name.maxLength = LONGEST_NAME;
  const pad = new DrawingPad(() => keep());
  const stated = make("input", { type: "checkbox" });
  const typedInstead = make("label", { class: "choice" }, stated, make("span", {}, phrase("I cannot draw here. My typed name is my signature.")));
  const why = make("input", { type: "text", autocomplete: "off", id: `${name.id}_why` });
  const again = make("div", { class: "field", hidden: true }, make("label", { for: why.id }, phrase("Why it is signed again")), why);
  const signNow = make("button", { type: "button", class: "button" }, phrase("Sign"));
  const keepOld = make("button", { type: "button", class: "button quiet", hidden: true }, phrase("Keep the first signature"));
  part(element, "pad").replaceChildren(make("div", { class: "stack" }, pad.element, typedInstead, again, make("div", { class: "row" }, signNow, keepOld)));
  const redo = make("button", { type: "button", class: "button quiet small" }, phrase("Sign again"));
  drawn.after(redo);
  let isRedone = false;
  const { id: visit } = session.visit;
  const warn = (/** @type {Error} */ error) => say(part(element, "error"), error.message);
  const keep = () => {
    const sketch = { name: name.value, role: role.value, why: why.value, stated: stated.checked, strokes: pad.strokes };
    const isEmpty = !isRedone && !sketch.name && !sketch.role && !sketch.stated && sketch.strokes.length === 0;
    keepSketch(visit, field, isEmpty ? null : sketch).catch(warn);
  };

  const paint = () => {
    const content = session.content(field);
    const isSigned = content !== null;
    sign.hidden = isSigned && !isRedone;
    redo.hidden = !isSigned || isRedone || !session.open;
    again.hidden = keepOld.hidden = !(isSigned && isRedone);
    drawn.hidden = !isSigned;
    const at = session.current(field).at(-1)?.at;
    if (drawn.dataset.shown !== at) {
      drawn.dataset.shown = at ?? "";
      const time = at ? make("p", { class: "muted" }, phrase("Signed {moment}", { moment: moment(at) })) : null;
      drawn.replaceChildren(...(isSigned ? [...signedFigure(content), time] : []).filter((one) => one !== null));
    }
    showConflict(part(element, "conflict"), session, { field, entry });
  };
  const restart = (/** @type {boolean} */ redone) => {
    isRedone = redone;
    pad.take([]);
    name.value = role.value = why.value = "";
    stated.checked = false;
    say(part(element, "error"), "");
    keep();
    paint();
  };
  redo.addEventListener("click", () => {
    restart(true);
    name.focus();
  });
  keepOld.addEventListener("click", () => restart(false));
  signNow.addEventListener("click", async () => {
    const drawnOnly = stated.checked ? [] : pad.strokes;
    const content = { value: name.value.trim(), role: role.value.trim(), means: entry.meaning, strokes: drawnOnly, stated: stated.checked };
    const lacking = lackingWords(content, isRedone ? why.value.trim() : null);
    say(part(element, "error"), lacking);
    if (lacking) return;
    signNow.disabled = true;
    const reason = isRedone ? { code: "other", text: why.value.trim() } : null;
    try {
      await session.write(field, content, { reason });
      restart(false);
    } catch (error) {
      warn(/** @type {Error} */ (error));
    }
    signNow.disabled = false;
  });
  for (const input of [name, role, why, stated]) input.addEventListener("input", keep);
  // A line that is not finished when the phone is locked or the page is left.
  addEventListener("pagehide", () => pad.end());
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && pad.end());
  const restore = async () => {
    const kept = await sketchOf(visit, field);
    // What was drawn or typed meanwhile goes before.
    if (!kept || !session.open || pad.strokes.length > 0 || name.value || role.value) return;
    isRedone = session.content(field) !== null;
    [name.value, role.value, why.value, stated.checked] = [kept.name, kept.role, kept.why, kept.stated];
    pad.take(kept.strokes);
    paint();
  };
  restore().catch(warn);
  session.follow(paint);
}
