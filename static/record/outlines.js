// How far an open visit is, as it was judged last: kept beside the visit, so that a list of visits need not judge any.

import { BUILD } from "/build.js";
import { language } from "../language/phrase.js";
import { transact } from "./database.js";
import { sha256 } from "./hash.js";

export const OUTLINE = "outline ";

/**
 * A name for everything that a visit's judgement is made of. Events never change and never go, so their count says
 * whether there are others; the build stands for engine and formulas.
 * @param {{visit: StoredVisit, count: number, unit: Unit | undefined, site: Site | undefined, known: Instrument[]}} from
 * @returns {Promise<string>}
 */
export function basisOf({ visit, count, unit, site, known }) {
  const parts = [BUILD, language, visit.procedure.hash, visit.state, count, unit, site, known];
  return sha256(new TextEncoder().encode(JSON.stringify(parts)));
}

/**
 * Keep what a visit came to, unless it is what is kept.
 * @param {string} visit @param {Outline} outline
 */
export function keepOutline(visit, outline) {
  return transact(["work"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("work");
    const before = await store.get(OUTLINE + visit);
    if (before?.basis !== outline.basis) await store.put(outline, OUTLINE + visit);
  });
}
