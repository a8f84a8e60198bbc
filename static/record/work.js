// Reference data that the phone keeps for working without signal: units, sites, instruments, people, procedures.

import { transact } from "./database.js";

const LISTS = ["units", "sites", "instruments", "people", "procedures"];

/** Something that the record refers to has not been fetched to this phone. */
export class NotOnThisPhone extends Error {
  /** @param {string} what */
  constructor(what) {
    super(`The ${what} is not on this phone yet. Send now while there is signal; that also fetches what is new.`);
    this.name = "NotOnThisPhone";
    this.code = "not_on_this_phone";
  }
}

/** @param {string} list @returns {Promise<any[]>} */
async function readList(list) {
  return (await transact(["work"], "readonly", (transaction) => transaction.objectStore("work").get(list))) ?? [];
}

/**
 * Keep the server's lists. Durable when the promise resolves; all of them or none. Visits are kept by `visits.js`.
 * @param {Work} work
 */
export function saveWork(work) {
  const lists = /** @type {any} */ (work);
  return transact(["work"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("work");
    await Promise.all(LISTS.map((list) => store.put(lists[list] ?? [], list)));
  });
}

/** @returns {Promise<Unit[]>} */
export const units = () => readList("units");
/** @returns {Promise<Site[]>} */
export const sites = () => readList("sites");
/** @returns {Promise<Instrument[]>} */
export const instruments = () => readList("instruments");
/** @returns {Promise<Person[]>} */
export const people = () => readList("people");
/** @returns {Promise<Procedure[]>} */
export const procedures = () => readList("procedures");

/**
 * @template {{id: string}} T
 * @param {Promise<T[]>} list
 * @param {string} id
 * @param {string} what
 */
async function find(list, id, what) {
  const found = (await list).find((one) => one.id === id);
  if (found === undefined) throw new NotOnThisPhone(what);
  return found;
}

/** @param {string} id */
export const unitOf = (id) => find(units(), id, "unit");
/**
 * The unit as it was accepted, for a procedure that compares with that.
 * @param {Unit} unit @param {Procedure} procedure
 * @returns {{record: string | null, values: Record<string, Cell>}}
 */
export function baselineOf(unit, procedure) {
  return (procedure.compares && unit.baseline) || { record: null, values: {} };
}

/** @param {string} id */
export const siteOf = (id) => find(sites(), id, "site");

/**
 * The procedure in exactly the version that the visit started with.
 * @param {ProcedureName} name
 * @returns {Promise<Procedure>}
 */
export async function procedureOf(name) {
  const stored = (await procedures()).find((one) => one.hash === name.hash && one.steps);
  const found = stored ?? (await fetchProcedure(name));
  if (found?.hash !== name.hash) throw new NotOnThisPhone(`procedure ${name.id} ${name.version}`);
  return found;
}

/**
 * From the pages that the app keeps, so this needs no signal.
 * @param {ProcedureName} name
 * @returns {Promise<Procedure | null>}
 */
async function fetchProcedure({ id, version }) {
  const response = await fetch(`/field/${id}-${version}/procedure.json`).catch(() => null);
  return response?.ok ? response.json() : null;
}
