import { unitLabel } from "../generated/units.js";
import { phrase } from "../language/phrase.js";
import { isTouched, readingControl } from "./controls.js";
import { make, part, say } from "./element.js";
import { itemsOf } from "./items.js";
import { plot, pointsOf } from "./plot.js";
import { readBack, showError } from "./read-back.js";
import { itemRow } from "./series-item.js";
import { courseOf, limitOf, stabilityOf, washoutOf } from "./series-outlook.js";
import { predictionWords, stabilityWords } from "./series-words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {HTMLElement} element @param {any} entry @param {VisitSession} session */
function mountAdding(element, entry, session) {
  const field = element.dataset.entry ?? "";
  const control = readingControl(element, entry, session);
  const add = async () => {
    const content = control.read();
    const { error } = readBack(content, entry, session);
    showError(element, control.focus, content === null ? phrase("Type the reading first, then add it.") : error);
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

/** @param {any} entry */
function legend(entry) {
  return make("p", { class: "muted legend" }, phrase("{unit_label} over time. Dots: readings. Dashes: the predicted course.", { unit_label: unitLabel(entry.unit) }));
}

/**
 * Paints what the readings say so far: a drawing, whether they agree, and when the limit will be reached. It changes
 * with what is typed elsewhere, too: volume, flow, the start.
 * @param {HTMLElement} place
 * @param {any} step
 * @param {any} entry
 * @param {VisitSession} session
 */
function outlookPainter(place, step, entry, session) {
  const field = `${step.id}.${entry.id}`;
  const [drawing, words] = [make("div"), make("div", { class: "outlook", role: "status" })];
  place.append(drawing, words);
  let shown = "";
  return (/** @type {import("./plot.js").Point[]} */ points) => {
    const [limit, stability] = [limitOf(step, field, session), stabilityOf(step, field, session)];
    const washout = limit && washoutOf(step, limit.name, session);
    const now = JSON.stringify([points, limit, stability, washout]);
    if (now === shown) return;
    shown = now;
    const course = washout ? courseOf(washout, points.at(-1)?.time ?? 0) : [];
    const picture = plot(points, { limit: limit?.value ?? null, course });
    drawing.replaceChildren(...(picture ? [picture] : []), ...(picture && course.length ? [legend(entry)] : []));
    const said = [stabilityWords(stability, points.length), ...predictionWords(points, limit, washout, entry.unit)];
    words.replaceChildren(...said.filter(Boolean).map((text) => make("p", {}, text)));
  };
}

/**
 * Readings that repeat: each gets the time at which it was added.
 * @param {HTMLElement} element
 * @param {any} step
 * @param {any} entry
 * @param {VisitSession} session
 */
export function mountSeries(element, step, entry, session) {
  const field = element.dataset.entry ?? "";
  mountAdding(element, entry, session);
  const list = make("ol", { class: "readings", "aria-label": entry.label });
  part(element, "readings").append(list);
  const paintOutlook = outlookPainter(part(element, "readings"), step, entry, session);
  let shown = "";
  session.follow(() => {
    const items = itemsOf(session, field);
    paintOutlook(pointsOf(items.map((one) => ({ ...session.content(field, one.item), at: one.at }))));
    const stored = items.map((one) => session.current(field, one.item).map((event) => event.id));
    const now = JSON.stringify([stored, session.open]);
    if (now === shown) return;
    shown = now;
    list.hidden = items.length === 0;
    list.replaceChildren(...items.map((one) => itemRow(one, entry, session)));
  });
}
