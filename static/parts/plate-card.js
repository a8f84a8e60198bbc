import { inWords } from "./contents.js";
import { make } from "./element.js";
import { missingValues, plateAddress } from "./plate-missing.js";
import { counted } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** The way to the values that the limits are computed from, with the number of those that steps lack. @param {VisitSession} session */
export function plateCard(session) {
  const missing = missingValues(session).size;
  const words = missing ? `${counted(missing, "value is", "values are")} missing for the steps` : "Nothing is missing";
  return make(
    "section",
    { class: "card stack" },
    make("h2", {}, "Data plate and site"),
    make("p", missing ? { class: "tag", "data-state": "recheck" } : { class: "muted" }, words),
    make("p", {}, make("a", { href: plateAddress(session) }, missing ? "Give them here" : "See or correct them")),
  );
}

/** The unit as it was accepted, where this visit compares with that. @param {VisitSession} session */
export function acceptedFacts(session) {
  const rows = (session.procedure.baseline ?? []).flatMap((/** @type {any} */ entry) => {
    const cell = session.case.baseline?.[entry.id];
    return session.exists(`baseline.${entry.id}`) && cell ? [make("dt", {}, entry.label), make("dd", {}, inWords(cell, entry))] : [];
  });
  return rows.length ? make("details", { class: "card" }, make("summary", {}, "As accepted last time"), make("dl", { class: "facts" }, ...rows)) : null;
}
