import { inWords } from "./contents.js";
import { officeCell, valuesRead } from "./plate-missing.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {VisitSession} session @param {{name: string, entry: any, cell: any}} value */
function words(session, { name, entry, cell }) {
  if (cell.conflict) return `Two different values for ${entry.label}: pick the one that holds.`;
  const office = officeCell(session, name);
  const said = `${entry.label}: ${inWords(cell, entry)} read at the unit${office ? `; the office has ${inWords(office, entry)}` : ""}.`;
  const event = session.events.get(cell.id);
  return event?.reason?.code === "not_given" ? `${said} Changed ${moment(event.at)} without a reason: open it and choose one.` : said;
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
    .map((value) => ({ step: "plate", title: "Data plate and site", words: words(session, value), kind: value.cell.conflict ? "blocks" : "look" }));
}
