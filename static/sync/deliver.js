// Each function hands one kind of thing to the server and marks what the server has proved to hold.

import { phrase } from "../language/phrase.js";
import { listBySent, markProblem, markReceived } from "../record/outbox.js";
import { canonicalHash } from "../signing/jws.js";
import { ApiError, post } from "./api.js";
import { sendPhoto } from "./photo-parts.js";

const BATCH = 100;
/** Records that go in one call: so many, and so many characters that a weak signal loses no more than one whole record. */
const MOST_RECORDS = 20;
const MOST_CHARACTERS = 1_000_000;
const DIFFERENT = {
  code: "hash_differs",
  detail: phrase("The server holds something else under this name. It is kept here; export it and tell the supervisor."),
};

/**
 * Run `deliver`; what the server refuses for good is parked with its reason and holds up nothing else.
 * @param {string} store
 * @param {string} key
 * @param {() => Promise<void>} deliver
 */
async function orPark(store, key, deliver) {
  try {
    await deliver();
  } catch (error) {
    if (!(error instanceof ApiError) || error.kind !== "refused") throw error;
    await markProblem(store, key, { code: error.code, detail: error.message });
  }
}

/**
 * @param {string} store
 * @param {string} key
 * @param {boolean} same whether the server's hash is ours
 * @param {any} [also]
 */
function markBy(store, key, same, also) {
  return same ? markReceived(store, key, also) : markProblem(store, key, DIFFERENT);
}

/** @param {string} person */
export async function deliverVisits(person) {
  for (const visit of await listBySent("visits", "waiting")) {
    if (visit.started_by !== person) continue;
    const { id, unit, kind, procedure, started_at } = visit;
    await orPark("visits", id, async () => {
      const answer = await post("/api/visits", { id, unit, kind, procedure, started_at });
      await markBy("visits", id, answer.id === id && answer.unit === unit);
    });
  }
}

/** @param {EntryEvent[]} events */
async function deliverBatch(events) {
  /** @type {Map<string, string>} */
  const hashes = new Map();
  for (const event of events) hashes.set(event.id, await canonicalHash(event));
  const answer = await post("/api/events", { events });
  for (const { id, sha256 } of answer.received) {
    if (hashes.has(id)) await markBy("events", id, hashes.get(id) === sha256);
  }
  for (const { id, code, detail } of answer.refused) {
    if (hashes.has(id)) await markProblem("events", id, { code, detail });
  }
}

/**
 * In the order in which they were made, in batches; a batch that is refused as a whole is tried one by one.
 * @param {string} person
 */
export async function deliverEvents(person) {
  const waiting = await listBySent("events", "waiting");
  const events = waiting.map((/** @type {StoredEvent} */ one) => one.event).filter((event) => event.by === person);
  events.sort((a, b) => (a.hlc < b.hlc ? -1 : 1));
  for (let start = 0; start < events.length; start += BATCH) {
    const batch = events.slice(start, start + BATCH);
    try {
      await deliverBatch(batch);
    } catch (error) {
      if (!(error instanceof ApiError) || error.kind !== "refused") throw error;
      for (const event of batch) await orPark("events", event.id, () => deliverBatch([event]));
    }
  }
}

/** @param {string} person */
export async function deliverPhotos(person) {
  for (const photo of await listBySent("photos", "waiting")) {
    if (photo.by !== person) continue;
    await orPark("photos", photo.sha256, async () => {
      const there = await sendPhoto(photo);
      if (there !== "") await markBy("photos", photo.sha256, there === photo.sha256);
    });
  }
}

/**
 * A record goes after everything that it stands on.
 * @param {string} person
 */
export async function deliverRecords(person) {
  const before = await Promise.all(["events", "photos"].map((store) => listBySent(store, "waiting")));
  const unfinished = new Set(before.flat().map((one) => one.visit));
  const waiting = await listBySent("records", "waiting");
  const ready = waiting.filter((/** @type {StoredRecord} */ one) => one.by === person && !unfinished.has(one.visit));
  for (const records of batches(ready)) {
    const left = records.length > 1 ? await deliverTogether(records) : records;
    for (const record of left) await orPark("records", record.sha256, () => deliverRecord(record));
  }
}

/** In their order, few enough of them together. @param {StoredRecord[]} records */
function batches(records) {
  /** @type {StoredRecord[][]} */
  const found = [];
  let characters = Infinity;
  for (const record of records) {
    characters += record.jws.length;
    if (characters > MOST_CHARACTERS || found.at(-1)?.length === MOST_RECORDS) {
      found.push([]);
      characters = record.jws.length;
    }
    found.at(-1)?.push(record);
  }
  return found;
}

/**
 * Send some records in one call; those that the server did not take are given, to be sent alone and told why.
 * @param {StoredRecord[]} records
 */
async function deliverTogether(records) {
  try {
    const { answers } = await post("/api/records/batch", { records: records.map(confirmedJws) });
    /** @type {StoredRecord[]} */
    const left = [];
    for (const [place, record] of records.entries()) {
      if (answers[place]?.sha256 === record.sha256) await markAnswered(record, answers[place]);
      else left.push(record);
    }
    return left;
  } catch (error) {
    if (!(error instanceof ApiError) || error.kind !== "refused") throw error;
    return records;
  }
}

/** The signed record, and the passkey's confirmation if there is one. @param {StoredRecord} record */
function confirmedJws({ jws, assertion }) {
  return assertion ? { jws, assertion } : { jws };
}

/** @param {StoredRecord} record */
async function deliverRecord(record) {
  const answer = await post("/api/records", confirmedJws(record));
  if (answer.sha256 === record.sha256) await markAnswered(record, answer);
  else await markProblem("records", record.sha256, DIFFERENT);
}

/** @param {StoredRecord} record @param {{state: string, reasons: any[]}} answer */
async function markAnswered(record, { state, reasons }) {
  await markReceived("records", record.sha256, { answer: { state, reasons } });
  // Sent before and decided meanwhile: conditions belong to the record, its visit is accepted.
  await markReceived("visits", record.visit, { state: state === "accepted_with_conditions" ? "accepted" : state });
}
