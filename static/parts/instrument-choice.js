import { phrase, written } from "../language/phrase.js";
import { calibrationWords, instrumentInWords, isOverdue, kindInWords } from "./calibration.js";
import { make } from "./element.js";
import { remember } from "./habits.js";
import { suggestion } from "./my-kit.js";
import { whenChanged } from "./when-changed.js";

/** What the record will say, or what is to be done before long. @param {Instrument | undefined} chosen */
function warning(chosen) {
  if (!chosen || !calibrationWords(chosen, new Date())) return "";
  if (isOverdue(chosen, new Date())) return phrase("Its calibration ended on {calibration_due}. The record will say so.", { calibration_due: written(chosen.calibration_due) });
  return phrase("Its calibration ends on {calibration_due}. Have it calibrated before the next visit.", { calibration_due: written(chosen.calibration_due) });
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
    const sentence = phrase("No {kind} is on this phone. The office adds it; then choose Send now while there is signal.", { kind });
    place.replaceChildren(make("p", { class: "overdue" }, sentence));
    return { read: () => null, show: () => {} };
  }
  const select = make(
    "select",
    { id, "data-part": "instrument-id" },
    make("option", { value: "" }, phrase("Choose the {kind}", { kind })),
    ...possible.map((one) => make("option", { value: one.id }, instrumentInWords(one))),
  );
  const overdue = make("p", { class: "overdue", role: "status" });
  let isTold = false;
  const tell = () => {
    isTold = true;
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
  place.replaceChildren(make("label", { for: id }, phrase("Measured with")), select, overdue);
  /** @param {string | null} instrument */
  const show = (instrument) => {
    const wanted = instrument ?? suggestion(session, possible, entry.instrument);
    if (isTold && select.value === wanted) return;
    select.value = wanted;
    tell();
  };
  const field = /** @type {HTMLElement | null} */ (place.closest("[data-entry]"))?.dataset.entry ?? "";
  // Until it is used, the choice follows what is used elsewhere on the page.
  const isOpen = () => !picked && session.content(field) === null;
  session.follow(whenChanged(() => [session.stored.version, isOpen()], (_, follows) => follows && show(null)));
  return { read: () => select.value || null, show };
}
