import { judge } from "../judging/engine.js";
import { caseFrom, eventsOf } from "../record/events.js";
import { basisOf, keepOutline } from "../record/outlines.js";
import { visitOf } from "../record/visits.js";
import { instruments, procedureOf, siteOf, unitOf } from "../record/work.js";
import { outlineOf } from "./outline.js";

/**
 * Judge a visit as it is stored, and keep how far it is. Rejects with `NotOnThisPhone` or `StorageError`.
 * @param {string} id
 * @returns {Promise<Outline>}
 */
export async function outlineOfVisit(id) {
  const visit = await visitOf(id);
  const [events, unit, procedure, known] = await Promise.all([eventsOf(id), unitOf(visit.unit), procedureOf(visit.procedure), instruments()]);
  const site = await siteOf(unit.site);
  const judged = caseFrom(events, { unit, site, procedure, known });
  const basis = await basisOf({ visit, count: events.length, unit, site, known });
  const outline = { basis, ...outlineOf({ visit, procedure, case: judged, judgement: judge(procedure, judged) }) };
  await keepOutline(id, outline).catch((error) => console.warn("outline", error));
  return outline;
}
