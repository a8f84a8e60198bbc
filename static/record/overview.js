import { transact } from "./database.js";
import { OUTLINE } from "./outlines.js";
import { isOpen, newestFirst } from "./visits.js";

const SENT_ALONE = ["events", "photos", "records"];

/**
 * How many things of each visit the server has not received. Only keys are read: a photo is large.
 * @param {any} transaction
 * @param {StoredVisit[]} visits
 * @returns {Promise<Map<string, number>>}
 */
async function unsentOf(transaction, visits) {
  const counts = new Map(visits.map((visit) => [visit.id, visit.sent === "received" ? 0 : 1]));
  for (const name of SENT_ALONE) {
    const store = transaction.objectStore(name);
    const keys = await Promise.all(["waiting", "problem"].map((sent) => store.index("sent").getAllKeys(sent)));
    const unsent = new Set(keys.flat());
    if (unsent.size === 0) continue;
    for (const { id } of visits) {
      const own = await store.index("visit").getAllKeys(id);
      counts.set(id, (counts.get(id) ?? 0) + own.filter((/** @type {string} */ key) => unsent.has(key)).length);
    }
  }
  return counts;
}

/** @param {any} transaction @param {StoredVisit} visit */
async function keptOf(transaction, { id }) {
  const [count, outline] = await Promise.all([
    transaction.objectStore("events").index("visit").count(id),
    transaction.objectStore("work").get(OUTLINE + id),
  ]);
  return { count, outline: /** @type {Outline | null} */ (outline ?? null) };
}

/**
 * Everything that the list of visits shows, read at once: the visits with what is unsent of them and, of those in work,
 * how many events they have and their outline; the units, sites and instruments; for whom the phone is prepared.
 */
export function overview() {
  return transact(["visits", "work", "settings", ...SENT_ALONE], "readonly", async (transaction) => {
    const work = transaction.objectStore("work");
    const [visits, units = [], sites = [], known = [], person = null] = await Promise.all([
      transaction.objectStore("visits").getAll(),
      ...["units", "sites", "instruments"].map((list) => work.get(list)),
      transaction.objectStore("settings").get("person"),
    ]);
    const unsent = await unsentOf(transaction, visits);
    const rows = await Promise.all(
      newestFirst(visits).map(async (visit) => ({
        visit,
        unsent: unsent.get(visit.id) ?? 0,
        kept: isOpen(visit) ? await keptOf(transaction, visit) : null,
      })),
    );
    return {
      rows,
      units: /** @type {Unit[]} */ (units),
      sites: /** @type {Site[]} */ (sites),
      known: /** @type {Instrument[]} */ (known),
      person: /** @type {Person | null} */ (person),
    };
  });
}
