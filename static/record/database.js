import { phrase } from "../language/phrase.js";
import { openDB } from "../vendor/idb/index.js";

const NAME = "firstwater";
const VERSION = 1;
const OPEN_TIME_LIMIT = 8000;

/**
 * What the phone's storage could not do, in a sentence for the person.
 * `code` is one of storage_full, storage_blocked, storage_slow, storage_closed, storage_failed.
 */
export class StorageError extends Error {
  /** @param {string} code @param {string} sentence @param {unknown} [cause] */
  constructor(code, sentence, cause) {
    super(sentence, { cause });
    this.name = "StorageError";
    this.code = code;
  }
}

/** @type {Promise<import("../vendor/idb/index.js").IDBPDatabase<any>> | null} */
let opening = null;

/** @param {import("../vendor/idb/index.js").IDBPDatabase<any>} database */
function makeStores(database) {
  database.createObjectStore("visits", { keyPath: "id" }).createIndex("sent", "sent");
  const events = database.createObjectStore("events", { keyPath: "id" });
  events.createIndex("visit", "visit");
  events.createIndex("sent", "sent");
  const photos = database.createObjectStore("photos", { keyPath: "sha256" });
  photos.createIndex("visit", "visit");
  photos.createIndex("sent", "sent");
  const records = database.createObjectStore("records", { keyPath: "sha256" });
  records.createIndex("visit", "visit");
  records.createIndex("sent", "sent");
  database.createObjectStore("work");
  database.createObjectStore("keys");
  database.createObjectStore("settings");
}

/**
 * Settles within `OPEN_TIME_LIMIT`: some browsers never answer the first open at all (WebKit bug 226547).
 * @template T
 * @param {Promise<T>} opened
 * @returns {Promise<T>}
 */
function withinTheLimit(opened) {
  return new Promise((resolve, reject) => {
    const slow = () =>
      reject(new StorageError("storage_slow", phrase("The phone's storage does not answer. Close the app and open it again.")));
    const timer = setTimeout(slow, OPEN_TIME_LIMIT);
    opened.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

async function open() {
  let blocked = () => {};
  /** @type {Promise<never>} */
  const stopped = new Promise((_, reject) => {
    blocked = () =>
      reject(new StorageError("storage_blocked", phrase("Close the other windows of this app, then reload this page.")));
  });
  const opened = openDB(NAME, VERSION, {
    upgrade: makeStores,
    blocked: () => blocked(),
    blocking: (_, __, event) => {
      /** @type {IDBDatabase} */ (event.target).close();
      opening = null;
      dispatchEvent(new CustomEvent("firstwater:updated-elsewhere"));
    },
    terminated: () => {
      opening = null;
    },
  });
  return withinTheLimit(Promise.race([opened, stopped]));
}

function connection() {
  if (opening === null) {
    opening = open();
    opening.catch(() => {
      opening = null;
    });
  }
  return opening;
}

/** @param {any} error */
function isLostConnection(error) {
  return error?.name === "UnknownError" || error?.name === "InvalidStateError";
}

/** @param {any} error */
function asStorageError(error) {
  if (error?.name === "QuotaExceededError") {
    const sentence = phrase("The phone's storage is full. Free some space, for example by sending what waits; then save again.");
    return new StorageError("storage_full", sentence, error);
  }
  if (error instanceof DOMException) {
    return new StorageError("storage_failed", phrase("The phone could not store this. Reload the page and save again."), error);
  }
  return error;
}

/**
 * @template T
 * @param {string[]} stores
 * @param {"readonly" | "readwrite"} mode
 * @param {(transaction: any) => Promise<T>} work
 * @returns {Promise<T>}
 */
async function runOnce(stores, mode, work) {
  const database = await connection();
  const transaction = database.transaction(stores, mode, { durability: "strict" });
  // Both are awaited in either case: a rejection left over would be reported as unhandled.
  const [worked, done] = await Promise.allSettled([stopOnError(transaction, work), transaction.done]);
  // A full disk ends the transaction; its requests then only say that they were aborted.
  if (done.status === "rejected" && done.reason?.name === "QuotaExceededError") throw done.reason;
  if (worked.status === "rejected") throw worked.reason;
  if (done.status === "rejected") throw done.reason;
  return worked.value;
}

/**
 * @template T
 * @param {any} transaction
 * @param {(transaction: any) => Promise<T>} work
 */
async function stopOnError(transaction, work) {
  try {
    return await work(transaction);
  } catch (error) {
    try {
      transaction.abort();
    } catch {
      // The browser has aborted it already.
    }
    throw error;
  }
}

/**
 * Run `work` in one transaction over `stores`.
 *
 * When the promise resolves, everything that `work` wrote is durable, flushed to the device. When it rejects, nothing
 * of it is stored. `work` may await requests of the transaction and nothing else (WebKit and Firefox close a
 * transaction during any other wait, even for a hash), and must give the same result when run a second time: a
 * connection that the browser dropped in the background is opened again once.
 *
 * @template T
 * @param {string[]} stores
 * @param {"readonly" | "readwrite"} mode
 * @param {(transaction: any) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function transact(stores, mode, work) {
  try {
    return await runOnce(stores, mode, work);
  } catch (error) {
    if (!isLostConnection(error)) throw asStorageError(error);
    opening = null;
  }
  try {
    return await runOnce(stores, mode, work);
  } catch (error) {
    throw asStorageError(error);
  }
}

/**
 * The value of a setting, or undefined. Settings are `person`, `verifier`, `device`, `clock`, `clockOffset`,
 * `savedAt`, `receivedAt`, `fetchedAt`, `quietUntil`, `persisted`, and one for each signature that is being drawn
 * (`sketches.js`).
 * @param {string} name
 * @returns {Promise<any>}
 */
export function readSetting(name) {
  return transact(["settings"], "readonly", (transaction) => transaction.objectStore("settings").get(name));
}

/**
 * Durable when the promise resolves; all of them or none.
 * @param {Record<string, any>} values
 */
export function writeSettings(values) {
  return transact(["settings"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("settings");
    await Promise.all(Object.entries(values).map(([name, value]) => store.put(value, name)));
  });
}

/** Close the connection, so that the database can be removed or changed by another window. The next use opens it. */
export async function closeDatabase() {
  const open = opening;
  opening = null;
  if (open !== null) (await open).close();
}
