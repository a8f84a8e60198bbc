import { phrase, phrases } from "../language/phrase.js";
import { inWords } from "./contents.js";
import { make } from "./element.js";
import { missingValues, plateAddress } from "./plate-missing.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** The way to the values that the limits are computed from, with the number of those that steps lack. @param {VisitSession} session */
export function plateCard(session) {
  const missing = missingValues(session).size;
  const words = missing ? phrases("One value is missing for the steps", "{count} values are missing for the steps", missing) : phrase("Nothing is missing");
  return make(
    "section",
    { class: "card stack" },
    make("h2", {}, phrase("Data plate and site")),
    make("p", missing ? { class: "tag", "data-state": "recheck" } : { class: "muted" }, words),
    make("p", {}, make("a", { class: "way", href: plateAddress(session) }, missing ? phrase("Give them here") : phrase("See or correct them"))),
  );
}

/** The unit as it was accepted, where this visit compares with that. @param {VisitSession} session */
export function acceptedFacts(session) {
  const rows = (session.procedure.baseline ?? []).flatMap((/** @type {any} */ entry) => {
    const cell = session.case.baseline?.[entry.id];
    return session.exists(`baseline.${entry.id}`) && cell ? [make("dt", {}, entry.label), make("dd", {}, inWords(cell, entry))] : [];
  });
  return rows.length ? make("details", { class: "card" }, make("summary", {}, phrase("As accepted")), make("dl", { class: "facts" }, ...rows)) : null;
}
