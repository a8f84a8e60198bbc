import { isTouched, readingControl } from "./controls.js";
import { make, part, say } from "./element.js";
import { plot } from "./plot.js";
import { readBack, showError } from "./read-back.js";
import { itemRow } from "./series-item.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * The first events of a series' readings, in the order in which they were taken, those removed left out.
 * @param {VisitSession} session
 * @param {string} field
 */
export function itemsOf(session, field) {
  return [...session.events.values()]
    .filter((event) => event.field === field && event.item === event.id)
    .sort((a, b) => (a.hlc < b.hlc ? -1 : 1))
    .filter((event) => session.content(field, event.item) !== null);
}

/** @param {HTMLElement} element @param {any} entry @param {VisitSession} session */
function mountAdding(element, entry, session) {
  const field = element.dataset.entry ?? "";
  const control = readingControl(element, entry, session);
  const add = async () => {
    const content = control.read();
    const { error } = readBack(content, entry, session);
    showError(element, control.focus, content === null ? "Type the reading first, then add it." : error);
    // What cannot be read is kept in the input, where it can be corrected, and not among the readings.
    if (content === null || content.value === null) return control.focus.focus();
    try {
      await session.write(field, content, { item: "new" });
      control.show({ typed: "", unit: content.unit, instrument: content.instrument });
      say(part(element, "read"), "");
    } catch (problem) {
      showError(element, control.focus, /** @type {Error} */ (problem).message);
    }
    control.focus.focus();
  };
  part(element, "add").addEventListener("click", add);
  control.focus.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    add();
  });
  control.focus.addEventListener("input", () => {
    say(part(element, "read"), readBack(control.read(), entry, session).read);
    showError(element, control.focus, "");
  });
  // What was typed before the script was there stays in its input.
  if (!isTouched(element)) control.show(null);
}

/**
 * Readings that repeat: each gets the time at which it was added.
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {VisitSession} session
 */
export function mountSeries(element, entry, session) {
  const field = element.dataset.entry ?? "";
  mountAdding(element, entry, session);
  const list = make("ol", { class: "readings", "aria-label": entry.label });
  const drawing = make("div");
  part(element, "readings").append(list, drawing);
  let shown = "";
  session.watch(() => {
    const items = itemsOf(session, field);
    const stored = items.map((one) => session.current(field, one.item).map((event) => event.id));
    const now = JSON.stringify([stored, session.open]);
    if (now === shown) return;
    shown = now;
    list.hidden = items.length === 0;
    list.replaceChildren(...items.map((one) => itemRow(one, entry, session)));
    const picture = plot(items.map((one) => ({ ...session.content(field, one.item), at: one.at })));
    drawing.replaceChildren(...(picture ? [picture] : []));
  });
}
