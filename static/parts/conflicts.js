import { severityWord } from "./defect-row.js";
import { inWords } from "./contents.js";
import { conflictsIn } from "./progress.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * A place of the record for which two phones say different things; `words` says a content of it.
 * @typedef {{field: string, item: string | null, label: string, words: (content: any) => string}} Place
 */

/** @param {VisitSession} session @param {string} field @param {any} cell @returns {Place} */
function placeOf(session, field, cell) {
  const entry = session.labels.entries.get(field);
  const item = session.events.get(cell.conflict[0].id)?.item ?? null;
  return { field, item, label: session.labels.withPlace(field), words: (content) => inWords(content, entry) };
}

/** @param {VisitSession} session @param {string} step @param {any} cell @returns {Place} */
function defectOf(session, step, cell) {
  const words = (/** @type {any} */ content) => (content ? `${severityWord(content.severity)}: ${content.text} ${content.closed ?? ""}` : "–");
  return { field: `${step}#defect`, item: cell.item, label: session.labels.of(step), words };
}

/**
 * Every value of a visit that two phones entered differently, in the order of the procedure.
 * @param {VisitSession} session
 * @returns {Place[]}
 */
export function conflictsOf(session) {
  const { entries, defects } = conflictsIn(session.case);
  const order = [...session.labels.entries.keys()];
  const sorted = entries.sort((one, other) => order.indexOf(one.name) - order.indexOf(other.name));
  return [...sorted.map(({ name, cell }) => placeOf(session, name, cell)), ...defects.map(({ name, cell }) => defectOf(session, name, cell))];
}
