// Entries that the server set apart because this phone's key was withdrawn, stated anew with the key that followed it.

import { announce } from "./changes.js";
import { readSetting, transact } from "./database.js";
import { addEvent } from "./events.js";
import { listBySent } from "./outbox.js";

const WITHDRAWN = "device_revoked";
const REASON = { code: "other", text: "Entered again after the phone's key was withdrawn." };

/**
 * The refused entries of the person, in the order in which they were made, and whether the phone has another key now.
 * @returns {Promise<{entries: StoredEvent[], isPrepared: boolean}>}
 */
export async function withdrawn() {
  const [refused, device] = await Promise.all([listBySent("events", "problem"), readSetting("device")]);
  const entries = refused.filter((/** @type {StoredEvent} */ one) => one.problem?.code === WITHDRAWN);
  entries.sort((/** @type {StoredEvent} */ a, /** @type {StoredEvent} */ b) => (a.event.hlc < b.event.hlc ? -1 : 1));
  return { entries, isPrepared: entries.every((/** @type {StoredEvent} */ { event }) => event.device !== device?.thumbprint) };
}

/** @param {string} id what follows it is durable */
async function setApart(id) {
  await transact(["events"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("events");
    await store.put({ ...(await store.get(id)), sent: "apart" });
  });
}

/**
 * An entry and everything that it replaced, through the other refused ones, which the server does not know.
 * @param {string} id
 * @param {Map<string, EntryEvent>} refused
 * @returns {string[]}
 */
function lineOf(id, refused) {
  return [id, ...(refused.get(id)?.replaces ?? []).flatMap((before) => lineOf(before, refused))];
}

/**
 * State the refused entries that still hold once more, as new entries of this phone's person that replace them. The old
 * ones stay on this phone, and on the server with the supervisor. That a step is done is left out: it rested on entries
 * that the record will not have, and is said anew when they have been looked at.
 * @returns {Promise<number>} how many were entered again
 */
export async function enterAgain() {
  const { entries } = await withdrawn();
  const all = await transact(["events"], "readonly", (transaction) => transaction.objectStore("events").getAll());
  const replaced = new Set(all.flatMap((/** @type {StoredEvent} */ { event }) => event.replaces));
  const refused = new Map(entries.map(({ id, event }) => [id, event]));
  let count = 0;
  for (const { id, visit, event } of entries) {
    const { field, item, content } = event;
    if (!replaced.has(id) && !field.endsWith("#done")) {
      await addEvent({ visit, field, item, content, replaces: [...new Set(lineOf(id, refused))], reason: REASON });
      count += 1;
    }
    await setApart(id);
  }
  announce(null);
  return count;
}
