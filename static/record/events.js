import { BUILD } from "/build.js";
import { fold } from "../judging/fold.js";
import { phrase } from "../language/phrase.js";
import { announce, listen } from "./changes.js";
import { next, nodeOf, START, written } from "./clock.js";
import { transact } from "./database.js";
import { askToKeep } from "./persistence.js";
import { baselineOf, instruments, procedureOf, siteOf, unitOf } from "./work.js";
import { visitOf } from "./visits.js";

/** The phone has no person yet, so nothing can be written in anybody's name. */
export class NotPrepared extends Error {
  constructor() {
    super(phrase("This phone is not prepared for a person. Open Prepare this phone while there is signal."));
    this.name = "NotPrepared";
    this.code = "not_prepared";
  }
}

/** @type {Set<Promise<unknown>>} */
const saving = new Set();

/**
 * @param {NewEvent} entry
 * @param {string} id
 * @param {{person: Person, device: Device, time: ClockState, now: Date}} made
 * @returns {EntryEvent}
 */
function complete(entry, id, { person, device, time, now }) {
  return {
    id,
    visit: entry.visit,
    field: entry.field,
    item: entry.item === "new" ? id : (entry.item ?? null),
    content: entry.content,
    replaces: entry.replaces ?? [],
    reason: entry.reason ?? null,
    by: person.id,
    device: device.thumbprint,
    at: now.toISOString(),
    offset: -now.getTimezoneOffset(),
    hlc: written(time, nodeOf(device.thumbprint)),
    app: BUILD,
  };
}

/**
 * @param {NewEvent} entry
 * @returns {Promise<EntryEvent>}
 */
async function store(entry) {
  const id = crypto.randomUUID();
  const event = await transact(["events", "settings"], "readwrite", async (transaction) => {
    const settings = transaction.objectStore("settings");
    const [person, device, clock] = await Promise.all([
      settings.get("person"),
      settings.get("device"),
      settings.get("clock"),
    ]);
    if (!person || !device) throw new NotPrepared();
    const now = new Date();
    const time = next(clock ?? START, now.getTime());
    const made = complete(entry, id, { person, device, time, now });
    await Promise.all([
      transaction.objectStore("events").put({ id, visit: entry.visit, sent: "waiting", problem: null, event: made }),
      settings.put(time, "clock"),
      settings.put(made.at, "savedAt"),
    ]);
    return made;
  });
  announce(entry.visit);
  askToKeep();
  return event;
}

/**
 * Write down one thing that a person did on a record.
 *
 * When the promise resolves, the event is durable on this phone together with its place among what waits to be sent
 * and the clock that it moved. When it rejects, nothing is stored, and the page must keep what was typed. Rejects with
 * `NotPrepared` or `StorageError`; both have a `code` and a sentence to show.
 *
 * `replaces` are the ids of the events whose values the person had before them (`cell.id` of a case, each cell's of a
 * conflict): an event that replaces less than it should shows as a conflict, one that replaces more hides a value.
 * @param {NewEvent} entry
 * @returns {Promise<EntryEvent>}
 */
export function addEvent(entry) {
  const stored = store(entry);
  saving.add(stored);
  stored.finally(() => saving.delete(stored)).catch(() => {});
  return stored;
}

/** Resolves when nothing is being stored any more, whether it could be stored or not. */
export async function everythingSaved() {
  while (saving.size > 0) await Promise.allSettled(saving);
}

/**
 * Code units, not the language's order: the server sorts the same way.
 * @param {EntryEvent} a @param {EntryEvent} b
 */
function byTime(a, b) {
  const [first, second] = [a.hlc + a.id, b.hlc + b.id];
  return first < second ? -1 : Number(first > second);
}

/**
 * All events of a visit that this phone knows, of every phone, in the order of their hybrid logical time.
 * @param {string} visit
 * @returns {Promise<EntryEvent[]>}
 */
export async function eventsOf(visit) {
  const stored = await transact(["events"], "readonly", (transaction) =>
    transaction.objectStore("events").index("visit").getAll(visit),
  );
  return stored.map((/** @type {StoredEvent} */ one) => one.event).sort(byTime);
}

/**
 * Their number alone, which is much less to read: whether there is anything new, because none is ever taken away.
 * @param {string} visit
 * @returns {Promise<number>}
 */
export function eventCountOf(visit) {
  return transact(["events"], "readonly", (transaction) => transaction.objectStore("events").index("visit").count(visit));
}

/**
 * The instruments that the events name, and no others: what a record carries and what it is judged with.
 * @param {EntryEvent[]} events
 * @param {Instrument[]} known
 * @returns {Record<string, Instrument>}
 */
export function instrumentsUsed(events, known) {
  const named = new Set(events.map((event) => event.content?.instrument).filter(Boolean));
  return Object.fromEntries(known.filter((one) => named.has(one.id)).map((one) => [one.id, one]));
}

/**
 * What the engine judges.
 * @param {EntryEvent[]} events
 * @param {{unit: Unit, site: Site, procedure: Procedure, known: Instrument[]}} about
 * @returns {Case}
 */
export function caseFrom(events, { unit, site, procedure, known }) {
  return {
    plate: unit.plate,
    site: site.values,
    baseline: baselineOf(unit, procedure).values,
    instruments: instrumentsUsed(events, known),
    ...fold(procedure, events),
  };
}

/**
 * What the engine judges for a visit, from what this phone knows now.
 * @param {string} visit
 * @returns {Promise<Case>}
 */
export async function caseOf(visit) {
  const stored = await visitOf(visit);
  const [events, unit, procedure, known] = await Promise.all([
    eventsOf(visit),
    unitOf(stored.unit),
    procedureOf(stored.procedure),
    instruments(),
  ]);
  return caseFrom(events, { unit, site: await siteOf(unit.site), procedure, known });
}

/**
 * Call `callback` whenever something of this visit was stored, by this page, another window or the sending.
 * @param {string} visit
 * @param {() => void} callback
 * @returns {() => void} ends the subscription
 */
export function subscribe(visit, callback) {
  return listen((changed) => {
    if (changed === null || changed === visit) callback();
  });
}
