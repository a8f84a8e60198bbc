import { make } from "./element.js";
import { recall, remember } from "./habits.js";
import { DAY, day } from "./words.js";

/** Days before the end of a calibration from which on the choice tells it. */
const SOON = 14;

/** @param {Instrument} instrument @param {Date} on */
export function isOverdue(instrument, on) {
  return instrument.calibration_due !== null && instrument.calibration_due < day(on);
}

/**
 * What there is to know about an instrument's calibration before it is chosen; empty while it is valid for a while.
 * @param {Instrument} instrument @param {Date} on
 */
export function calibrationWords({ calibration_due: due }, on) {
  if (due === null || due > day(new Date(on.getTime() + SOON * DAY))) return "";
  return due < day(on) ? `calibration ended ${due}` : `calibration ends ${due}`;
}

/** @param {string} kind */
export const kindInWords = (kind) => kind.replaceAll("_", " ");

/**
 * The instrument that was used last for this kind: in this visit before on this phone.
 * @param {import("./session.js").VisitSession} session
 * @param {Instrument[]} possible
 * @param {string} kind
 */
function suggestion(session, possible, kind) {
  const ids = new Set(possible.map((one) => one.id));
  const used = [...session.events.values()].filter((event) => ids.has(event.content?.instrument));
  const latest = used.reduce((before, event) => (before === null || event.hlc > before.hlc ? event : before), /** @type {EntryEvent | null} */ (null));
  if (latest) return latest.content.instrument;
  if (possible.length === 1) return possible[0].id;
  const last = recall(`instrument ${kind}`) ?? "";
  return ids.has(last) ? last : "";
}

/** @param {Instrument} instrument */
function inWords(instrument) {
  return [instrument.name, instrument.serial, calibrationWords(instrument, new Date())].filter(Boolean).join(", ");
}

/** What the record will say, or what is to be done before long. @param {Instrument | undefined} chosen */
function warning(chosen) {
  if (!chosen || !calibrationWords(chosen, new Date())) return "";
  if (isOverdue(chosen, new Date())) return `Its calibration ended on ${chosen.calibration_due}. The record will say so.`;
  return `Its calibration ends on ${chosen.calibration_due}. Have it calibrated before the next visit.`;
}

/**
 * With which instrument a reading was taken; only those of the kind that the reading needs are offered.
 * @param {HTMLElement} place
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 */
export function instrumentChoice(place, entry, session) {
  const possible = session.known.filter((one) => one.kind === entry.instrument);
  const id = `instrument_${entry.id}`;
  const kind = kindInWords(entry.instrument);
  if (possible.length === 0) {
    const sentence = `No ${kind} is on this phone. The office adds it; then choose Send now while there is signal.`;
    place.replaceChildren(make("p", { class: "overdue" }, sentence));
    return { read: () => null, show: () => {} };
  }
  const select = make(
    "select",
    { id, "data-part": "instrument-id" },
    make("option", { value: "" }, `Choose the ${kind}`),
    ...possible.map((one) => make("option", { value: one.id }, inWords(one))),
  );
  const overdue = make("p", { class: "overdue", role: "status" });
  const tell = () => {
    const chosen = possible.find((one) => one.id === select.value);
    overdue.textContent = warning(chosen);
    overdue.hidden = overdue.textContent === "";
  };
  let picked = false;
  select.addEventListener("input", () => (picked = true));
  select.addEventListener("change", () => {
    remember(`instrument ${entry.instrument}`, select.value);
    tell();
  });
  place.replaceChildren(make("label", { for: id }, "Measured with"), select, overdue);
  /** @param {string | null} instrument */
  const show = (instrument) => {
    select.value = instrument ?? suggestion(session, possible, entry.instrument);
    tell();
  };
  const field = /** @type {HTMLElement | null} */ (place.closest("[data-entry]"))?.dataset.entry ?? "";
  // Until it is used, the choice follows what is used elsewhere on the page.
  session.watch(() => {
    if (!picked && session.content(field) === null) show(null);
  });
  return { read: () => select.value || null, show };
}
