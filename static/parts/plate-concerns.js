import { phrase } from "../language/phrase.js";
import { inWords } from "./contents.js";
import { officeCell, valuesRead } from "./plate-missing.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {VisitSession} session @param {{name: string, entry: any, cell: any}} value */
function words(session, { name, entry, cell }) {
  if (cell.conflict) return phrase("Two different values for {label}: pick the one that holds.", { label: entry.label });
  const office = officeCell(session, name);
  const names = { label: entry.label, read: inWords(cell, entry), office: office ? inWords(office, entry) : "" };
  const said = office ? phrase("{label}: {read} read at the unit; the office has {office}.", names) : phrase("{label}: {read} read at the unit.", names);
  const event = session.events.get(cell.id);
  return event?.reason?.code === "not_given" ? `${said} ${phrase("Changed {moment} without a reason: open it and choose one.", { moment: moment(event.at) })}` : said;
}

/**
 * What was read at the unit and is not what the office has; a conflict blocks.
 * @param {VisitSession} session
 * @returns {import("./review-concerns.js").Concern[]}
 */
export function plateConcerns(session) {
  const differs = (/** @type {any} */ { name, cell }) => cell.conflict || officeCell(session, name)?.value !== cell.value;
  return valuesRead(session)
    .filter(differs)
    .map((value) => ({ step: "plate", title: phrase("Data plate and site"), words: words(session, value), kind: value.cell.conflict ? "blocks" : "look" }));
}
