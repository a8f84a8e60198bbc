import { phrase } from "../language/phrase.js";
import { showConflict } from "./conflict.js";
import { inWords } from "./contents.js";
import { readingContent } from "./controls.js";
import { make } from "./element.js";
import { readBack } from "./read-back.js";
import { REASONS } from "./reason.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * One reading of a series, with the way to change or remove it.
 * @param {EntryEvent} begun the first event of the item
 * @param {any} entry
 * @param {VisitSession} session
 */
export function itemRow(begun, entry, session) {
  const row = make("li", { "data-item": begun.item });
  showItem(row, begun, entry, session);
  return row;
}

/** @param {HTMLElement} row @param {EntryEvent} begun @param {any} entry @param {VisitSession} session */
function showItem(row, begun, entry, session) {
  const content = session.content(begun.field, begun.item);
  const [value, time] = [inWords(content, entry), moment(begun.at)];
  const { error } = readBack(content, entry, session);
  const conflict = make("div");
  const change = make(
    "button",
    { type: "button", class: "button quiet small", "aria-label": phrase("Change {value}, {time}", { value, time }), onclick: () => askForChange(row, begun, entry, session) },
    phrase("Change"),
  );
  row.replaceChildren(
    make(
      "div",
      { class: "one" },
      make("span", { class: "value number" }, value),
      make("span", { class: "muted number" }, time),
      session.open ? change : null,
    ),
    ...(error ? [make("p", { class: "error" }, error)] : []),
    conflict,
  );
  showConflict(conflict, session, { field: begun.field, item: begun.item, entry });
}

/** The reason why a stored reading changes. @param {string} id */
function reasonInputs(id) {
  const why = make("select", { id }, ...Object.entries(REASONS).map(([code, words]) => make("option", { value: code }, words)));
  const text = make("input", { type: "text", "aria-label": phrase("The other reason"), autocomplete: "off", hidden: true });
  why.addEventListener("change", () => (text.hidden = why.value !== "other"));
  return { why, text, read: () => ({ code: why.value, text: text.value.trim() }) };
}

/** @param {HTMLElement} row @param {EntryEvent} begun @param {any} entry @param {VisitSession} session */
function askForChange(row, begun, entry, session) {
  const { field, item } = begun;
  const before = session.content(field, item);
  const id = `item_${item}`;
  const input = make("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", value: before.typed });
  const reason = reasonInputs(`${id}_reason`);
  const problem = make("p", { class: "error", role: "alert" });
  const save = async (/** @type {any} */ content) => {
    try {
      await session.write(field, content, { item, reason: reason.read() });
    } catch (error) {
      problem.textContent = /** @type {Error} */ (error).message;
    }
  };
  const button = (/** @type {string} */ look, /** @type {string} */ words, /** @type {() => any} */ onclick) =>
    make("button", { type: "button", class: `button small ${look}`, onclick }, words);
  row.replaceChildren(
    make(
      "div",
      { class: "asked" },
      make("label", { for: id }, `${entry.label}, ${moment(begun.at)}`),
      input,
      make("label", { for: `${id}_reason` }, phrase("Why does it change?")),
      reason.why,
      reason.text,
      problem,
      make(
        "div",
        { class: "row" },
        button("", phrase("Keep the new value"), () => save(readingContent(input.value, before.unit, before.instrument, entry))),
        button("quiet", phrase("Leave as it was"), () => showItem(row, begun, entry, session)),
        button("danger", phrase("Remove this reading"), () => save(null)),
      ),
    ),
  );
  input.focus();
}
