// Reference data that the phone keeps for working without signal: units, sites, instruments, people, procedures.

import { ENGLISH, inLanguage, language, phrase } from "../language/phrase.js";
import { transact } from "./database.js";

const LISTS = ["sites", "instruments", "people"];
const NOTHING = { tag: null, visits: [], cursor: null, arriving: null };
const WHOLE = "procedure ";

/** Something that the record refers to has not been fetched to this phone. */
export class NotOnThisPhone extends Error {
  /** @param {string} what */
  constructor(what) {
    super(phrase("The {what} is not on this phone yet. Send now while there is signal; that also fetches what is new.", { what }));
    this.name = "NotOnThisPhone";
    this.code = "not_on_this_phone";
  }
}

/** @param {string} list @returns {Promise<any[]>} */
async function readList(list) {
  return (await transact(["work"], "readonly", (transaction) => transaction.objectStore("work").get(list))) ?? [];
}

/**
 * What an answer with a cursor brings besides: the next question names the `cursor`, `since` is the one that this answer
 * goes on from, null where it begins anew, and with `more` there are units that it did not bring.
 * @typedef {{cursor?: string | null, since?: string | null, more?: boolean}} Delta
 * What the last answer was called and brought; `arriving` are the units of answers that began anew.
 * @typedef {{tag: string | null, visits: Visit[], cursor?: string | null, arriving?: string[] | null}} Answer
 */

/**
 * Keep the server's lists. Durable when the promise resolves; all of them or none. `tag` names this answer, for asking
 * whether there is a newer one; `visits.js` keeps the visits themselves.
 * @param {Work & Delta} work
 * @param {string | null} [tag]
 */
export function saveWork(work, tag = null) {
  const lists = /** @type {any} */ (work);
  return transact(["work", "visits"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("work");
    await Promise.all(LISTS.map((list) => store.put(lists[list] ?? [], list)));
    const last = (await store.get("answer")) ?? NOTHING;
    // What was replayed for visits that are finished is done with; those that are open may be needed once more.
    const earlier = work.since ? last.visits.filter((/** @type {Visit} */ one) => one.state !== "accepted") : [];
    await keepUnits(store, work, { tag, visits: [...byId(earlier, work.visits).values()] });
    const begun = (await transaction.objectStore("visits").getAll()).map((/** @type {Visit} */ one) => one.procedure.hash);
    await keepProcedures(store, work.procedures ?? [], new Set(begun));
  });
}

/**
 * Keep the units of an answer that had more than one; `tag` when this is the last one.
 * @param {{units: Unit[]} & Delta} page
 * @param {string | null} tag
 */
export function saveUnits(page, tag) {
  return transact(["work"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("work");
    const { visits } = (await store.get("answer")) ?? NOTHING;
    await keepUnits(store, page, { tag, visits });
  });
}

/**
 * Units that changed take the place of those that were here. Where the answers began anew, what none of them brought is
 * dropped with the last one and not before: until then every unit that was here can be worked on.
 * @param {any} store
 * @param {{units: Unit[]} & Delta} page
 * @param {Answer} answer
 */
async function keepUnits(store, { units, cursor = null, since = null, more = false }, answer) {
  const last = (await store.get("answer")) ?? NOTHING;
  const arrived = since === null ? [] : last.arriving;
  const arriving = arrived && [...arrived, ...units.map((unit) => unit.id)];
  let kept = byId((await store.get("units")) ?? [], units);
  if (arriving && !more) {
    const there = new Set(arriving);
    kept = new Map([...kept].filter(([id]) => there.has(id)));
  }
  await store.put([...kept.values()].sort((a, b) => (a.name < b.name ? -1 : 1)), "units");
  await store.put({ ...answer, cursor, arriving: more ? arriving : null }, "answer");
}

/**
 * The later ones in the place of the earlier.
 * @template {{id: string}} T
 * @param {T[]} earlier @param {T[]} later
 */
function byId(earlier, later) {
  return new Map([...earlier, ...later].map((one) => [one.id, one]));
}

/**
 * What the last answer was called, its visits, and from where the next one goes on.
 * @returns {Promise<Answer>}
 */
export async function lastAnswer() {
  const kept = await transact(["work"], "readonly", (transaction) => transaction.objectStore("work").get("answer"));
  return kept ?? NOTHING;
}

/**
 * Each whole procedure under its hash, as text: a page reads the one that it needs, and text is read several times
 * faster than an object of ten thousand parts. One that no list and no visit names any more is dropped.
 * @param {any} store
 * @param {(Procedure | ProcedureName)[]} listed
 * @param {Set<string>} begun hashes that visits on this phone began with
 */
async function keepProcedures(store, listed, begun) {
  const earlier = (await store.get("procedures")) ?? [];
  for (const one of [...earlier, ...listed]) if (one.steps) await store.put(JSON.stringify(one), WHOLE + one.hash);
  await store.put(listed.map(({ id, version, hash }) => ({ id, version, hash })), "procedures");
  const needed = new Set([...begun, ...listed.map((one) => one.hash)].map((hash) => WHOLE + hash));
  for (const key of await store.getAllKeys()) {
    if (key.startsWith(WHOLE) && !needed.has(key)) await store.delete(key);
  }
}

/** @returns {Promise<Unit[]>} */
export const units = () => readList("units");
/** @returns {Promise<Site[]>} */
export const sites = () => readList("sites");
/** @returns {Promise<Instrument[]>} */
export const instruments = () => readList("instruments");
/** @returns {Promise<Person[]>} */
export const people = () => readList("people");
/** What the procedures of the server's list are called. @returns {Promise<ProcedureName[]>} */
export const procedureNames = () => readList("procedures");

/**
 * The whole procedures of the server's list, those that are on this phone.
 * @returns {Promise<Procedure[]>}
 */
export async function procedures() {
  const found = await Promise.all((await procedureNames()).map((name) => (language === ENGLISH ? stored(name.hash) : translated(name))));
  return found.filter((one) => one !== null);
}

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
  const { record = null, values = {} } = (procedure.compares && unit.baseline) || {};
  return { record, values };
}

/** @param {string} id */
export const siteOf = (id) => find(sites(), id, "site");

/**
 * The procedure in exactly the version that the visit started with.
 * @param {ProcedureName} name
 * @returns {Promise<Procedure>}
 */
export async function procedureOf(name) {
  const found = language === ENGLISH ? ((await stored(name.hash)) ?? (await keptWithPages(name))) : await translated(name);
  if (found?.hash !== name.hash) throw new NotOnThisPhone(phrase("procedure {id} {version}", { id: name.id, version: name.version }));
  return found;
}

/** @param {string} hash @returns {Promise<Procedure | null>} */
async function stored(hash) {
  const text = await transact(["work"], "readonly", (transaction) => transaction.objectStore("work").get(WHOLE + hash));
  return text === undefined ? inEarlierForm(hash) : JSON.parse(text);
}

/** What is stored is English; the pages bring the texts of their own language. @param {ProcedureName} name */
async function translated(name) {
  const found = await keptWithPages(name);
  return found?.hash === name.hash ? found : stored(name.hash);
}

/** Before each had a place of its own, the list held the whole procedures. @param {string} hash */
async function inEarlierForm(hash) {
  return (await readList("procedures")).find((one) => one.hash === hash && one.steps) ?? null;
}

const addressOf = (/** @type {{id: string, version: number}} */ { id, version }) => `/field/${id}-${version}/procedure.json`;

/**
 * From the pages that the app keeps, so this needs no signal.
 * @param {{id: string, version: number}} name
 * @returns {Promise<Procedure | null>}
 */
async function keptWithPages(name) {
  const address = addressOf(name);
  const response = (await caches.match(address, { ignoreVary: true })) ?? (await fetch(inLanguage(address)).catch(() => null));
  return response?.ok ? response.json() : null;
}

/** The hashes of the procedures that came with the pages; each is the tag of its file. */
async function hashesOfPages() {
  const names = (await caches.keys()).filter((name) => name.startsWith("app-"));
  const kept = await Promise.all(
    names.map(async (name) => {
      const cache = await caches.open(name);
      const wanted = (await cache.keys()).filter(({ url }) => url.endsWith("/procedure.json"));
      return Promise.all(wanted.map(async (request) => (await cache.match(request, { ignoreVary: true }))?.headers.get("ETag")));
    }),
  );
  return kept.flat().flatMap((tag) => tag?.match(/[0-9a-f]{64}/) ?? []);
}

/** The hashes of the procedures that the server need not send: those stored, and those that came with the pages. */
export async function heldProcedures() {
  const keys = await transact(["work"], "readonly", (transaction) => transaction.objectStore("work").getAllKeys());
  const whole = keys.filter((/** @type {string} */ key) => key.startsWith(WHOLE)).map((/** @type {string} */ key) => key.slice(WHOLE.length));
  return [...new Set([...whole, ...(await hashesOfPages())])].sort();
}

/**
 * A procedure of the server's list that was not sent whole, completed from the pages where it is not stored.
 * @param {Procedure | ProcedureName} one
 * @returns {Promise<Procedure | ProcedureName>}
 */
export async function completed(one) {
  // What comes with the pages is in their language, and what is stored is English.
  if ("steps" in one || language !== ENGLISH || (await stored(one.hash)) !== null) return one;
  const found = await keptWithPages(one);
  return found?.hash === one.hash ? found : one;
}
