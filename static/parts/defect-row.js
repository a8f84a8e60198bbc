import { SEVERITIES } from "../generated/messages.js";
import { phrase, written } from "../language/phrase.js";
import { photoOf } from "../record/photos.js";
import { make } from "./element.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** The mark that an open defect carries. @type {Record<string, string>} */
const MARKS = { safety: "fail", major: "conditional_pass", minor: "pending" };

/** @param {string} severity */
export const severityWord = (severity) => /** @type {any} */ (SEVERITIES)[severity]?.word ?? severity;

/** Severity, owner and date in a line. @param {any} content */
export function defectWords({ owner, due, closed }) {
  if (closed) return phrase("Put right: {closed}", { closed });
  if (owner && due) return phrase("To be put right by {owner} until {due}", { owner, due: written(due) });
  if (due) return phrase("To be put right until {due}", { due: written(due) });
  return owner ? phrase("To be put right by {owner}", { owner }) : "";
}

/** @param {string} sha256 @param {string} label */
function picture(sha256, label) {
  const image = make("img", { alt: label });
  image.addEventListener("load", () => URL.revokeObjectURL(image.src), { once: true });
  photoOf(sha256).then((blob) => {
    if (blob) image.src = URL.createObjectURL(blob);
    else image.replaceWith(make("span", { class: "muted" }, phrase("The photo is not on this phone.")));
  });
  return make("figure", {}, image);
}

/** @param {{begun: EntryEvent, content: any}} defect @param {VisitSession} session */
function closing({ begun, content }, session) {
  const id = `defect-${begun.item}`;
  const input = make("input", { id, type: "text", autocomplete: "off" });
  const error = make("p", { class: "error", role: "alert" });
  const change = async (/** @type {any} */ said) => {
    try {
      await session.write(begun.field, said, { item: begun.item });
    } catch (problem) {
      error.textContent = /** @type {Error} */ (problem).message;
    }
  };
  const close = () => {
    const done = input.value.trim();
    error.textContent = done ? "" : phrase("Write what was done: it stays in the record.");
    if (done) change({ ...content, closed: done });
  };
  if (content.closed) return make("button", { type: "button", class: "button quiet small", onclick: () => change({ ...content, closed: null }) }, phrase("Open it again"));
  return make(
    "details",
    {},
    make("summary", {}, phrase("Put right, or recorded by mistake")),
    make("div", { class: "field" }, make("label", { for: id }, phrase("What was done")), input, error),
    make(
      "div",
      { class: "row" },
      make("button", { type: "button", class: "button quiet small", onclick: close }, phrase("It is put right")),
      make("button", { type: "button", class: "button quiet small", onclick: () => change(null) }, phrase("Take it off the list")),
    ),
  );
}

/**
 * One defect: how bad, what, who and when, and the way to close it. What is taken off stays in the history.
 * @param {{begun: EntryEvent, content: any}} defect
 * @param {VisitSession} session
 */
export function defectRow({ begun, content }, session) {
  const mark = content.closed ? "pass" : (MARKS[content.severity] ?? "fail");
  return make(
    "li",
    { class: "defect" },
    make("p", {}, make("span", { class: "verdict", "data-verdict": mark }, content.closed ? phrase("Closed") : severityWord(content.severity)), ` ${content.text}`),
    make("p", { class: "line" }, defectWords(content)),
    content.photo ? picture(content.photo, content.text) : null,
    session.open ? closing({ begun, content }, session) : null,
  );
}
