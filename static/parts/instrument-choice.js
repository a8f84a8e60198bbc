import { make } from "./element.js";
import { recall, remember } from "./habits.js";
import { day } from "./words.js";

/** @param {Instrument} instrument @param {Date} on */
export function isOverdue(instrument, on) {
  return instrument.calibration_due !== null && instrument.calibration_due < day(on);
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
  const used = new Set([...session.events.values()].map((event) => event.content?.instrument).filter(Boolean));
  const inVisit = possible.filter((one) => used.has(one.id));
  if (inVisit.length === 1) return inVisit[0].id;
  if (possible.length === 1) return possible[0].id;
  const last = recall(`instrument ${kind}`);
  return possible.some((one) => one.id === last) ? last : "";
}

/** @param {Instrument} instrument */
function inWords(instrument) {
  return [instrument.name, instrument.serial].filter(Boolean).join(", ");
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
    const late = chosen && isOverdue(chosen, new Date());
    overdue.textContent = late ? `Its calibration ended on ${chosen.calibration_due}. The record will say so.` : "";
    overdue.hidden = !late;
  };
  select.addEventListener("change", () => {
    remember(`instrument ${entry.instrument}`, select.value);
    tell();
  });
  place.replaceChildren(make("label", { for: id }, "Measured with"), select, overdue);
  return {
    read: () => select.value || null,
    /** @param {string | null} instrument */
    show(instrument) {
      select.value = instrument ?? suggestion(session, possible, entry.instrument) ?? "";
      tell();
    },
  };
}
