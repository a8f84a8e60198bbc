import { showConflict } from "./conflict.js";
import { choiceControl, isTouched, readingControl, wordsControl } from "./controls.js";
import { part, say } from "./element.js";
import { instantControl } from "./instant.js";
import { readBack, showError } from "./read-back.js";
import { ChangeReason } from "./reason.js";
import { whenChanged } from "./when-changed.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @type {Record<string, (element: HTMLElement, entry: any, session: VisitSession) => import("./controls.js").Control>} */
const CONTROLS = {
  reading: readingControl,
  choice: choiceControl,
  yes_no: choiceControl,
  text: wordsControl,
  date: wordsControl,
  instant: instantControl,
};

/**
 * One input: stored as it is typed, read back, its message beside it.
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {VisitSession} session
 * @param {{standing?: any}} [more] the cell that holds while nothing is entered: replacing it needs a reason
 */
export function mountEntry(element, entry, session, { standing = null } = {}) {
  const field = element.dataset.entry ?? "";
  const early = isTouched(element);
  const control = CONTROLS[entry.kind](element, entry, session);
  const reason = new ChangeReason(part(element, "reason"), session, { field, id: `entry_${entry.id}`, standing });
  const asksWhy = entry.kind === "reading" || standing !== null;
  reason.resume();
  let shown = "";
  // An error is a message about what was typed, not about what is being typed: it waits until the input is left.
  let left = true;

  const take = () => {
    const content = control.read();
    shown = JSON.stringify(content);
    session.type(field, content, { reason: asksWhy ? reason.get() : null });
  };
  element.addEventListener("input", (event) => {
    if (!belongs(event)) return;
    left = false;
    take();
  });
  element.addEventListener("change", (event) => {
    if (!belongs(event)) return;
    left = true;
    // What was judged as it was typed need not be again.
    if (JSON.stringify(control.read()) === shown) repaint();
    else take();
    session.flush(field);
  });

  if (early) take();
  const read = () => [session.content(field), session.case.entries[field], session.open, left];
  const paint = (/** @type {any} */ content) => {
    if (JSON.stringify(content) !== shown) {
      shown = JSON.stringify(content);
      control.show(content);
    }
    showConflict(part(element, "conflict"), session, { field, entry });
    const { read, error } = readBack(content, entry, session);
    say(part(element, "read"), read);
    showError(element, control.focus, left || error === "" ? error : "");
  };
  const repaint = whenChanged(read, paint);
  session.watch(repaint);
}

/** Events of the part that asks for a reason are not the entry's own. @param {Event} event */
function belongs(event) {
  return !(/** @type {Element} */ (event.target).closest('[data-part="reason"], [data-part="conflict"], [data-part="scanned"]'));
}
