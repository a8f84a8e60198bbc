// What waits to be sent. Each visit, event, photo and record is waiting, received, or a problem that stays here.

import { announce } from "./changes.js";
import { transact } from "./database.js";

export const STORES = ["visits", "events", "photos", "records"];

/**
 * @param {string} store one of `STORES`
 * @param {Sent} sent
 * @returns {Promise<any[]>}
 */
export function listBySent(store, sent) {
  return transact([store], "readonly", (transaction) => transaction.objectStore(store).index("sent").getAll(sent));
}

/**
 * Everything that the server has not received: what waits and what it refused.
 * @returns {Promise<{visits: StoredVisit[], events: StoredEvent[], photos: StoredPhoto[], records: StoredRecord[]}>}
 */
export async function unsent() {
  const lists = await Promise.all(
    STORES.map(async (store) => [...(await listBySent(store, "waiting")), ...(await listBySent(store, "problem"))]),
  );
  return /** @type {any} */ (Object.fromEntries(STORES.map((store, index) => [store, lists[index]])));
}

/**
 * @param {string} store
 * @param {IDBValidKey} key
 * @param {any} change
 */
async function change(store, key, change) {
  const stored = await transact([store], "readwrite", async (transaction) => {
    const before = await transaction.objectStore(store).get(key);
    const after = { ...before, ...change };
    await transaction.objectStore(store).put(after);
    return after;
  });
  announce(store === "visits" ? stored.id : stored.visit, "sending");
}

/**
 * The server has returned our hash of it. Durable when the promise resolves.
 * @param {string} store @param {IDBValidKey} key @param {any} [also] further values to keep with it
 */
export function markReceived(store, key, also = {}) {
  return change(store, key, { ...also, sent: "received", problem: null });
}

/**
 * The server will not take it as it is. It stays, is shown, can be exported and does not hold up anything else.
 * @param {string} store @param {IDBValidKey} key @param {Problem} problem
 */
export function markProblem(store, key, problem) {
  return change(store, key, { sent: "problem", problem });
}

/** Try once more what the server refused, for example after the supervisor has changed something there. */
export async function retryProblems() {
  for (const store of STORES) {
    await transact([store], "readwrite", async (transaction) => {
      const stored = transaction.objectStore(store);
      for (const one of await stored.index("sent").getAll("problem")) {
        await stored.put({ ...one, sent: "waiting", problem: null });
      }
    });
  }
  announce(null);
}

/**
 * How much is only on this phone.
 * @returns {Promise<OutboxSummary>}
 */
export function summary() {
  return transact([...STORES, "settings"], "readonly", async (transaction) => {
    /** @param {string} store @param {Sent} sent */
    const count = (store, sent) => transaction.objectStore(store).index("sent").count(sent);
    const waiting = await Promise.all(STORES.map((store) => count(store, "waiting")));
    const refused = await Promise.all(STORES.map((store) => count(store, "problem")));
    const settings = transaction.objectStore("settings");
    const [savedAt = null, receivedAt = null] = await Promise.all([settings.get("savedAt"), settings.get("receivedAt")]);
    const [visits, events, photos, records] = waiting.map((number, index) => number + refused[index]);
    return { visits, events, photos, records, problems: sum(refused), savedAt, receivedAt };
  });
}

/** @param {number[]} numbers */
function sum(numbers) {
  return numbers.reduce((total, number) => total + number, 0);
}
