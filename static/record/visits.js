import { announce } from "./changes.js";
import { readSetting, transact } from "./database.js";
import { NotOnThisPhone } from "./work.js";

/**
 * Begin a visit; needs no signal. When the promise resolves the visit is durable and waits to be sent.
 * @param {{unit: string, kind: string, procedure: ProcedureName}} about
 * @returns {Promise<StoredVisit>}
 */
export async function createVisit({ unit, kind, procedure }) {
  const person = await readSetting("person");
  if (!person) throw new NotOnThisPhone("person");
  /** @type {StoredVisit} */
  const visit = {
    id: crypto.randomUUID(),
    unit,
    kind,
    procedure,
    state: "draft",
    started_at: new Date().toISOString(),
    started_by: person.id,
    record: null,
    returned: null,
    sent: "waiting",
    problem: null,
    last: 0,
  };
  await transact(["visits", "settings"], "readwrite", async (transaction) => {
    await transaction.objectStore("visits").put(visit);
    await transaction.objectStore("settings").put(visit.started_at, "savedAt");
  });
  announce(visit.id);
  return visit;
}

/**
 * All visits that this phone knows, the newest first.
 * @returns {Promise<StoredVisit[]>}
 */
export async function visits() {
  return newestFirst(await transact(["visits"], "readonly", (transaction) => transaction.objectStore("visits").getAll()));
}

/** @param {StoredVisit[]} all */
export function newestFirst(all) {
  return all.sort((a, b) => (a.started_at < b.started_at ? 1 : -1));
}

/**
 * @param {string} id
 * @returns {Promise<StoredVisit>} rejects with `NotOnThisPhone` for an unknown id
 */
export async function visitOf(id) {
  const visit = await transact(["visits"], "readonly", (transaction) => transaction.objectStore("visits").get(id));
  if (visit === undefined) throw new NotOnThisPhone("visit");
  return visit;
}

/** Whether entries may still be made: a signed record is closed until the supervisor returns it. @param {Visit} visit */
export function isOpen(visit) {
  return visit.state === "draft" || visit.state === "returned";
}

/**
 * The server's view of a visit, unless this phone has signed it and the server cannot know yet.
 * @param {StoredVisit | undefined} mine
 * @param {Visit} theirs
 * @param {boolean} signedHere
 * @returns {StoredVisit}
 */
function merged(mine, theirs, signedHere) {
  const known = { sent: /** @type {Sent} */ ("received"), problem: null, last: mine?.last ?? 0 };
  if (mine && signedHere) return { ...mine, ...known };
  return { ...theirs, ...known };
}

/**
 * Take over the server's visits. Durable when the promise resolves; visits that only this phone knows stay.
 * @param {Visit[]} fromServer
 */
export async function saveVisits(fromServer) {
  await transact(["visits", "records"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("visits");
    const waiting = await transaction.objectStore("records").index("sent").getAll("waiting");
    const signed = new Set(waiting.map((/** @type {StoredRecord} */ record) => record.visit));
    for (const theirs of fromServer) {
      await store.put(merged(await store.get(theirs.id), theirs, signed.has(theirs.id)));
    }
  });
  announce(null, "sending");
}
